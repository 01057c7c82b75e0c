import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import { PlanFile } from '../../src/core/plan/ask.ts';
import { readFile } from '../../src/core/route/read-file.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import { readShelf } from '../../src/core/shelf/read-shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { chargeOf, draw, planOf, settings, stepOf, TODAY } from './build.ts';

const root = join(import.meta.dirname, '..', '..');
const text = (path: string): string => readFileSync(join(root, path), 'utf8');

function value<T>(
  reading: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly unknown[] },
): T {
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.value;
}

const demo = {
  route: text('resources/demo/practicals.route.json'),
  shelf: text('resources/demo/prep-room.shelf.json'),
  plan: text('resources/demo/practicals.plan.json'),
};

function planFiles(files: typeof demo): PlanResult {
  const { ask } = value(readFile(files.plan, PlanFile, () => []));
  return plan({
    route: value(readRoute(files.route)),
    shelf: value(readShelf(files.shelf)),
    ask,
    settings,
    reference,
    asOf: TODAY,
  });
}

describe('the demonstration', () => {
  const result = planFiles(demo);

  // By hand: 20.0 g ÷ 384.478 = 52.02 mmol of dienone, ÷ 0.94; 12.0 g ÷ 282.346 ÷ 0.88; 2.00 g of benzil kept; less
  // 5.88 g in lot 21-B; ÷ 0.92; × 2 ÷ 0.55.
  test('amounts as worked by hand', () => {
    const benzil = 20 / 384.478 / 0.94 + 12 / 282.346 / 0.88 + 2 / 210.232 - (6 * 0.98) / 210.232;
    expect(stepOf(result, 'benzil').product.moles.value).toBeCloseTo(benzil, 9);
    expect(stepOf(result, 'benzoin').basis.moles.value).toBeCloseTo((2 * (benzil / 0.92)) / 0.55, 9);
    expect(stepOf(result, 'benzil').batches).toMatchObject({ count: 2, why: 'own limit' });
  });

  test('it opens with something short, something to make up, something out of date, and benzil on the shelf', () => {
    const status = (material: string, form: string): string | undefined =>
      result.fetch.find((line) => line.material === material && line.formWords === form)?.status;
    expect(status('ethanol', '96 % v/v')).toBe('short');
    expect(status('sodium-hydroxide', '3 mol/L')).toBe('make up');
    expect(status('benzaldehyde', 'at least 98 % w/w')).toBe('out of date');
    expect(result.flow.bands.some((band) => band.from.kind === 'stock' && band.material === 'benzil')).toBe(true);
    expect(result.notices.filter((notice) => notice.level === 'error')).toEqual([]);
  });

  test('all equations balance, and nothing is said about a step that could not be', () => {
    for (const step of result.steps) expect(step.equation.balanced, step.title).toBe(true);
  });

  test('each caution stands before its own operation: gas, acid into water, acid-free before ethanol, waste', () => {
    const said = stepOf(result, 'benzil').operations.flatMap((operation) =>
      operation.before.map((notice) => [notice.code, notice.at.operation]),
    );
    const codes = said.map(([code]) => code);
    for (const code of ['gas freed', 'acid into water', 'acid-free, new vessel', 'oxidising waste'])
      expect(codes).toContain(code);
    for (const operation of stepOf(result, 'benzil').operations) {
      const id =
        operation.kind === 'charge' ? operation.id : operation.kind === 'hold' ? operation.hold.id : operation.removal.id;
      for (const notice of operation.before) expect(notice.at.operation).toBe(id);
    }
  });

  test('68 % nitric acid carries the statements of its strength (CLP Annex VI, C ≤ 70 %: Ox. Liq. 3 from 65 %)', () => {
    expect(chargeOf(result, 'benzil', 'nitric-acid').hazards).toEqual(expect.arrayContaining(['H272', 'H314', 'H331', 'EUH071']));
    expect(chargeOf(result, 'benzil', 'benzoin').hazards).toBeNull();
  });

  test('renaming its materials changes nothing but text', () => {
    const names = Object.values(value(readRoute(demo.route)).materials).map((material) => material.name);
    const rename = (file: string): string =>
      names
        .sort((a, b) => b.length - a.length)
        .reduce((all, name, i) => all.replaceAll(`"name": "${name}"`, `"name": "stuff ${i}"`), file);
    const renamed = planFiles({ ...demo, route: rename(demo.route), shelf: rename(demo.shelf) });
    expect(numbers(renamed)).toEqual(numbers(result));
    expect(renamed.notices.map(sentence).join(' ')).not.toContain('ethanol');
  });
});

/** Every number of a plan, in order. */
function numbers(result: PlanResult): readonly number[] {
  const found: number[] = [];
  const visit = (one: unknown): void => {
    if (typeof one === 'number') found.push(one);
    else if (one !== null && typeof one === 'object') {
      // A figure's ancestors are figures of the plan already; its own value is enough.
      for (const [key, inner] of Object.entries(one)) if (key !== 'from' || !('digits' in one)) visit(inner);
    }
  };
  visit(result.steps);
  visit(result.fetch);
  return found;
}

describe('a second route, converging, with recycles', () => {
  const route = value(readRoute(text('tests/fixtures/cinnamate.route.json')));
  const result = planOf(route, [draw('ester', 50)]);

  // By hand, M(benzyl cinnamate) = 16·12.011 + 14·1.008 + 2·15.999 = 238.286 g/mol.
  const acidCharged = 50 / 238.286 / 0.85;

  test('amounts as worked by hand, to 9 digits', () => {
    expect(stepOf(result, 'esterify').basis.moles.value).toBeCloseTo(acidCharged, 12);
    expect(stepOf(result, 'condense').basis.moles.value).toBeCloseTo((acidCharged * (1 - 0.08)) / 0.8, 12);
    expect(stepOf(result, 'reduce').basis.moles.value).toBeCloseTo((acidCharged * 1.1) / 0.9, 12);
    const toluene = result.fetch.find((line) => line.material === 'toluene');
    expect(toluene?.need.value).toBeCloseTo((toluene?.peak.value ?? 0) * 0.2, 9);
    expect(toluene?.peak.value).toBeCloseTo(8 * acidCharged * 148.161, 6);
  });

  test('working order, recycle band and gas come from the data', () => {
    expect(result.steps.at(-1)?.id).toBe('esterify');
    expect(
      result.flow.bands
        .filter((band) => band.recycle)
        .map((band) => band.material)
        .sort(),
    ).toEqual(['acid', 'toluene']);
    expect(stepOf(result, 'condense').gases[0]?.moles.value).toBeCloseTo((acidCharged * 0.92) / 0.8, 12);
    for (const step of result.steps) expect(step.equation.balanced, step.title).toBe(true);
  });

  test('one bottle serves both branches that use benzaldehyde', () => {
    expect(result.fetch.filter((line) => line.material === 'aldehyde')).toHaveLength(1);
    expect(result.fetch.find((line) => line.material === 'aldehyde')?.uses).toHaveLength(2);
  });
});
