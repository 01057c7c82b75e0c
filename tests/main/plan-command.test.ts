import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { planCommand } from '../../src/main/plan-command.ts';
import { bottle, route, shelfOf, step } from '../core/build.ts';

const root = join(import.meta.dirname, '..', '..');
const folder = mkdtempSync(join(tmpdir(), 'backweigh-plan-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: unknown): string {
  writeFileSync(join(folder, name), typeof content === 'string' ? content : JSON.stringify(content));
  return name;
}

interface Said {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command in this process: what it prints, and its exit code. */
async function command(...args: string[]): Promise<Said> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await planCommand(args, { folder, out: (text) => out.push(text), err: (text) => err.push(text) });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Runs the command as npm does: from the project, with the caller's folder in INIT_CWD. */
function processOf(...args: string[]): Said {
  const { status, stdout, stderr } = spawnSync(process.execPath, [join(root, 'src/main/plan-command.ts'), ...args], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, INIT_CWD: folder },
  });
  return { code: status, out: stdout, err: stderr };
}

const chain = route({ a: 'C6H6', b: 'C6H12', c: 'C7H8' }, [
  step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50 }),
  step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
]);

describe('the plan command', () => {
  test('says how material is used, and puts another plan beside this one', async () => {
    const ask = { name: 'worse', draws: [{ id: 'draw-1', material: 'c', amount: 25, unit: 'g' }], yields: { '2': 40 } };
    const other = file('worse.plan.json', { backweigh: 'plan', version: 1, ask });
    const { code, out } = await command(file('chain.route.json', chain), '--draw', '25 g of c', '--beside', other);
    expect(code).toBe(0);
    expect(out).toContain('overall yield of c: 40.0 % (longest path, from a, 2 steps)');
    expect(out).toContain('Side by side: a route | worse');
    expect(out).toMatch(/yields +Step 2 +80\.0 % +40\.0 % +−40\.0 points/);
    expect((await command('chain.route.json', '--plan', other, '--beside', 'route')).out).toMatch(
      /yields +Step 2 +40\.0 % +80\.0 %/,
    );
  });

  test('as a process: text or a refusal where they belong, and the exit code', () => {
    const planned = processOf(file('chain.route.json', chain), '--draw', '25 g of c');
    expect(planned).toMatchObject({ code: 0, err: '' });
    expect(planned.out).toContain('1. Step 1');
    const refused = processOf('missing.route.json', '--draw', '25 g of c');
    expect(refused).toMatchObject({ code: 2, out: '' });
    expect(refused.err).toContain('cannot be read');
  });

  test('prints steps, fetch list and shortfalls as text', async () => {
    const { code, out } = await command(file('chain.route.json', chain), '--draw', '25 g of c');
    expect(code).toBe(0);
    expect(out).toContain('1. Step 1');
    expect(out).toContain('Fetch list');
    expect(out).toMatch(/a .*short/);
    expect(out).toContain('Local rules');
  });

  test('gives the whole result as JSON at full precision, each figure with where it came from', async () => {
    const { code, out } = await command(file('chain.route.json', chain), '--draw', '25 g of c', '--json');
    expect(code).toBe(0);
    const { result, figures } = JSON.parse(out);
    const basis = result.steps[0].basis.moles;
    expect(basis.value).toBeCloseTo(25 / 92.141 / 0.8 / 0.5, 14);
    const figure = figures[basis.figure];
    expect(figure).toMatchObject({ id: basis.figure, value: basis.value, unit: 'mol', from: { kind: 'computed' } });
    for (const id of figure.from.of) expect(figures[id]).toHaveProperty('from');
  });

  test('says how sure the plan is, and follows a chosen start', async () => {
    const ranged = route({ a: 'C6H6', b: 'C6H12' }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: { lowest: 35, likeliest: 55, highest: 70 } }),
    ]);
    const name = file('ranged.route.json', ranged);
    const { out } = await command(name, '--draw', '10 g of b');
    expect(out).toMatch(/the chance that every draw is met is 4\d %, not fifty-fifty/);
    expect(out).toContain('Amounts follow the likeliest yields.');
    const chosen = await command(name, '--draw', '10 g of b', '--start', '90 %', '--json');
    const { result, figures } = JSON.parse(chosen.out);
    expect(result.start).toMatchObject({ kind: 'chance', chancePercent: 90 });
    expect(figures[result.confidence.chance.figure].value).toBeCloseTo(90, 6);
    expect((await command(name, '--draw', '10 g of b', '--start', '90 %')).out).toContain(
      'for a 90 % chance of enough, aiming at 1.',
    );
    expect(await command(name, '--draw', '10 g of b', '--start', 'plenty')).toMatchObject({ code: 2 });
    expect((await command(file('chain.route.json', chain), '--draw', '25 g of c')).out).toContain(
      'Every yield is taken as certain',
    );
  });

  test('several draws, with a shelf', async () => {
    const shelf = file('s.shelf.json', shelfOf(chain, [bottle('a', 1000)]));
    const { code, out } = await command(
      file('chain.route.json', chain),
      '--draw',
      '25 g of c',
      '--draw',
      '0.1 mol of b',
      '--shelf',
      shelf,
      '--json',
    );
    expect(code).toBe(0);
    const { result } = JSON.parse(out);
    expect(result.draws).toHaveLength(2);
    expect(result.fetch[0]).toMatchObject({ material: 'a', status: 'enough' });
  });

  test('a wrong file: every problem with its place, exit code 2, nothing on standard output', async () => {
    const wrong = { ...chain, version: 7, steps: [{ ...chain.steps[0], basis: 'nobody', yieldPercent: 120 }] };
    const { code, out, err } = await command(file('wrong.route.json', wrong), '--draw', '25 g of c');
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('/version: 1 is expected here (got 7)');
    expect(err).toContain('/steps/0/yieldPercent: the number needs to be at most 100 (got 120)');
  });

  test('what a schema cannot say has a place as well', async () => {
    const wrong = {
      ...chain,
      materials: { ...chain.materials, a: { name: 'a', cas: '64-17-6' } },
      steps: [
        { ...chain.steps[0], basis: 'nobody' },
        { ...chain.steps[1], id: '1' },
      ],
    };
    const { code, err } = await command(file('wrong.route.json', wrong), '--draw', '25 g of c');
    expect(code).toBe(2);
    expect(err).toContain('/steps/0/basis: "nobody" is not among the materials of this file');
    expect(err).toContain('/materials/a/cas: the check digit');
    expect(err).toContain('/steps/1/id: another step is called "1" already');
  });

  test.each([
    ['not JSON', '{'],
    ['not a route', '[]'],
    ['a deep nest', `${'['.repeat(3000)}${']'.repeat(3000)}`],
  ])('%s: exit code 2', async (_, text) => {
    expect((await command(file('x.route.json', text), '--draw', '1 g of c')).code).toBe(2);
  });

  // Organic Syntheses Coll. Vol. 1, 192 prints 1.34 mol for 200 g of adipic acid; 200 g are 1.37 mol.
  test('what does not agree in the amounts as published is told', async () => {
    const printed = (text: string) => {
      const one = step({ id: '1', basis: 'a', product: 'b' });
      const operations = one.operations.map((operation) =>
        operation.do === 'charge' ? { ...operation, printed: text } : operation,
      );
      return route({ a: 'C6H10O4', b: 'C5H8O' }, [{ ...one, operations }]);
    };
    const wrong = await command(file('misprint.route.json', printed('200 g (1.34 mol)')), '--draw', '25 g of b');
    expect(wrong.code).toBe(0);
    expect(wrong.out).toMatch(/As published\n {2}Step 1: .*1\.34/);
    expect((await command(file('print.route.json', printed('200 g (1.37 mol)')), '--draw', '25 g of b')).out).not.toContain(
      'As published',
    );
  });

  test('a route that cannot be planned: exit code 1 and the reason', async () => {
    const twice = route({ a: 'C6H6', b: 'C6H12' }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 0 }),
      step({ id: '2', basis: 'a', product: 'b', yieldPercent: 0 }),
    ]);
    const { code, err } = await command(file('twice.route.json', twice), '--draw', '25 g of b');
    expect(code).toBe(1);
    expect(err).toContain('No mix of the steps makes enough b');
  });

  test.each([
    [[], 'One route file is needed'],
    [['chain.route.json'], 'Say what is wanted'],
    [['chain.route.json', '--draw', '25 of c'], 'a unit is expected'],
    [['chain.route.json', '--draw', '25 g of gold'], '"gold" is not among the materials'],
    [['chain.route.json', '--draw', '25 mL of c'], 'grams or moles'],
    [['chain.route.json', '--nonsense'], 'nonsense'],
    [['missing.route.json', '--draw', '25 g of c'], 'cannot be read'],
    [['chain.route.json', '--draw', '25 g of c', '--date', 'tomorrow'], '--date needs a date'],
  ])('%j is refused in words', async (args, words) => {
    file('chain.route.json', chain);
    const { code, err } = await command(...args);
    expect(code).toBe(2);
    expect(err).toContain(words);
  });

  test('a draw may name its product by key, name, synonym or CAS number', async () => {
    const named = {
      ...chain,
      materials: { ...chain.materials, c: { name: 'Toluene', formula: 'C7H8', cas: '108-88-3', synonyms: ['methylbenzene'] } },
    };
    file('named.route.json', named);
    for (const name of ['c', 'toluene', 'Methylbenzene', '108-88-3'])
      expect((await command('named.route.json', '--draw', `1 g of ${name}`)).code).toBe(0);
  });
});

test('a run record is asked for once, and one that is none is refused at its name', async () => {
  const said = await command(file('runs.route.json', chain), '--draw', '10 g of c');
  expect(said.out.match(/The record of runs is not read here/g)).toHaveLength(1);
  expect(said.out).toContain('Exported run records are read with --run.');
  const refused = await command(file('runs.route.json', chain), '--draw', '10 g of c', '--run', file('none.run.json', { a: 1 }));
  expect(refused.code).toBe(2);
  expect(refused.err).toMatch(/none\.run\.json has .*problem/);
});
