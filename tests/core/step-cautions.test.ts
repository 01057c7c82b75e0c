import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { monthsAfter } from '../../src/core/caution/months.ts';
import { peroxideFormerOf } from '../../src/core/caution/peroxides.ts';
import { type ScaleRun, scaleCaution } from '../../src/core/caution/scale-jump.ts';
import { operationIdOf, stepCautions } from '../../src/core/caution/step-cautions.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Operation, Stage } from '../../src/core/route/route.ts';
import type { Bottle, TestKind } from '../../src/core/shelf/shelf.ts';
import { CAUTION_SENTENCES } from '../../src/core/words/caution-sentences.ts';
import { planText } from '../../src/core/words/plan-text.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';
import { demoContext, demoInput, demoPlan } from './demo-fixture.ts';

const material = (cas: string, more: Partial<Material> = {}): Material => {
  const row = reference.material.get(cas);
  return { name: row?.name ?? cas, cas, ...(row ? { formula: row.formula } : {}), ...more };
};
const materials = {
  a: { name: 'stilbene', formula: 'C14H12', smiles: 'C(=Cc1ccccc1)c1ccccc1', state: 'solid' as const },
  b: { name: 'bibenzyl', formula: 'C14H14', smiles: 'C(Cc1ccccc1)c1ccccc1', state: 'solid' as const },
  nitric: material('7697-37-2'),
  acetone: material('67-64-1'),
  bleach: material('7681-52-9'),
  hcl: material('7647-01-0'),
  azide: material('26628-22-8'),
  acid: material('64-19-7'),
  hydride: material('16853-85-3'),
  water: material('7732-18-5', { utility: true }),
  chloride: material('75-36-5'),
  bromide: material('7789-60-8'),
  sulfuric: material('7664-93-9'),
  bicarbonate: material('144-55-8'),
  lye: material('1310-73-2'),
  ether: material('60-29-7'),
  ethanol: material('64-17-5'),
  odd: { name: 'odd reagent', formula: 'C5H9NO' },
};
type Name = keyof typeof materials;
const solution = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
const add = (id: string, of: Name, stage: Stage = 'reaction', form?: Form): Operation => ({
  do: 'charge',
  id,
  stage,
  material: of,
  ...(form ? { form } : {}),
  rule: { kind: 'volumes', millilitresPerGram: 2 },
});

/** Cautions of a step that charges these after its basis, in sentences by operation. */
function cautions(more: readonly Operation[], bottles: readonly Bottle[] = [], runs: readonly ScaleRun[] | null = []) {
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, more })]);
  const ask = { name: 'a plan', draws: [draw('b', 100)] };
  const input = { route: one, ask, shelf: shelfOf(one, bottles), settings, reference, asOf: TODAY };
  const result = plan(input);
  const found = stepCautions(input, result, '1', runs);
  return { result, at: (id: string) => found.get(id) ?? [], said: (id: string) => (found.get(id) ?? []).map(sentence) };
}

test('what forms is warned of where its last reactant goes in, unless it was charged and warned of just so before', () => {
  const more = [add('solvent', 'ethanol'), add('last', 'lye')];
  const equation = {
    uses: [
      { material: 'a', coefficient: 1 },
      { material: 'lye', coefficient: 1 },
    ],
    makes: [
      { material: 'b', coefficient: 1 },
      { material: 'ethanol', coefficient: 1 },
    ],
  };
  const formed = (operations: readonly Operation[]): number => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: operations, extra: { equation } })]);
    const ask = { name: 'a plan', draws: [draw('b', 100)] };
    const input = { route: one, ask, shelf: shelfOf(one, []), settings, reference, asOf: TODAY };
    const found = [...stepCautions(input, plan(input), '1', []).values()].flat();
    return found.filter(({ code, values }) => code === 'formed' && values.material === 'ethanol').length;
  };
  expect(formed(more)).toBe(0);
  expect(formed(more.slice(1))).toBe(1);
});

describe('meetings, as one who signs for the laboratory reads them', () => {
  test('nitric acid and acetone: an error, with fire and the chart’s groups', () => {
    const [worst] = cautions([add('n', 'nitric', 'reaction', solution(68)), add('x', 'acetone')]).at('x');
    expect(worst?.level).toBe('error');
    expect(worst && sentence(worst)).toMatch(
      /^acetone meets nitric acid .*, with fire and heat \(EPA-600\/2-80-076.*19–2\)\. Remove one first/,
    );
  });
  test('hypochlorite and acid: chlorine, with what it does, in one sentence', () => {
    const more = [add('n', 'bleach', 'reaction', solution(10)), add('x', 'hcl', 'quench', solution(10))];
    const found = cautions(more).said('x');
    expect(found.filter((said) => said.includes('chlorine'))).toHaveLength(1);
    expect(found[0]).toMatch(/hydrogen chloride meets sodium hypochlorite: poisonous chlorine is freed\. .*[Tt]oxic if inhaled/);
  });
  test('azide and acid: an error in every order', () => {
    for (const [first, second] of [
      ['azide', 'acid'],
      ['acid', 'azide'],
    ] as const) {
      const found = cautions([add('n', first), add('x', second, 'quench')]).at('x');
      expect(found[0]).toMatchObject({ level: 'error', code: 'acid frees hydrazoic acid' });
    }
  });
  test('a metal hydride and water: an error in the reaction, hydrogen told of at the quench, and once', () => {
    expect(cautions([add('n', 'hydride'), add('x', 'water')]).at('x')[0]).toMatchObject({
      level: 'error',
      code: 'reacts with water',
    });
    const quench = cautions([add('n', 'hydride'), add('x', 'water', 'quench'), add('y', 'water', 'work-up')]);
    expect(quench.said('x')[0]).toMatch(
      /lithium aluminium hydride reacts with water.*hydrogen comes off.*no flame.*Extremely flammable gas/,
    );
  });
  test('the water of a solution counts', () => {
    const found = cautions([add('n', 'chloride'), add('x', 'bicarbonate', 'quench', solution(5))]).said('x');
    expect(found.join('\n')).toMatch(
      /acetyl chloride reacts with water \(of the sodium hydrogen carbonate\).*hydrogen chloride comes off/,
    );
  });
  test.each([
    ['chloride', /hydrogen chloride comes off and acetic acid forms\..*Toxic if inhaled\..*severe skin burns/],
    ['bromide', /hydrogen bromide comes off and phosphorous acid forms\..*severe skin burns/],
  ] as const)('what hydrolysis of the %s frees is said with its hazards', (name, want) => {
    expect(
      cautions([add('n', name), add('x', 'water', 'quench')])
        .said('x')
        .join('\n'),
    ).toMatch(want);
  });
  test('acid into water: also where the water is that of a solution and the acid is concentrated, not where it is thin', () => {
    const order = (strength: number) =>
      cautions([add('s', 'sulfuric', 'reaction', solution(strength)), add('w', 'bicarbonate', 'quench', solution(5))]).at('w');
    expect(order(96).map((one) => one.code)).toContain('acid into water');
    expect(order(5).map((one) => one.code)).not.toContain('acid into water');
  });
  test('once water has gone in, the acid is thin: the order is not turned round again at the base', () => {
    const found = cautions([
      add('s', 'sulfuric', 'reaction', solution(96)),
      add('w', 'water', 'quench'),
      add('x', 'bicarbonate', 'quench', solution(5)),
    ]);
    expect(found.at('w').map((one) => one.code)).toContain('acid into water');
    expect(found.at('x').map((one) => one.code)).not.toContain('acid into water');
  });
  test('a strong base that neutralises a concentrated acid goes slowly into it; nothing asks for the order to be turned round', () => {
    const found = cautions([add('s', 'sulfuric', 'reaction', solution(96)), add('x', 'lye', 'quench', solution(15))]);
    const codes = found.at('x').map((one) => one.code);
    expect(codes).toContain('base slowly into acid');
    expect(codes).not.toContain('acid into water');
    expect(found.said('x').join('\n')).toMatch(
      /Add sodium hydroxide slowly, with stirring and cooling, to the mixture that holds sulfuric acid/,
    );
  });
  test('several materials for one reason stand in one line', () => {
    const more = [add('e', 'ethanol'), add('k', 'acetone'), add('n', 'nitric', 'reaction', solution(68))];
    const found = cautions(more)
      .said('n')
      .filter((said) => said.includes('oxidiser and an organic'));
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/nitric acid meets stilbene.*ethanol.*acetone/);
  });
  test('a hazard said once is pointed back to, not said again; the loudest stands first', () => {
    const found = cautions([add('e', 'ethanol'), add('f', 'ethanol', 'work-up')]);
    expect(found.said('e')).toContain('ethanol: Highly flammable liquid and vapour.');
    expect(
      found
        .at('f')
        .filter((one) => one.values.material === 'ethanol')
        .map((one) => one.code),
    ).toEqual(['hazards as before']);
    const levels = demoPlan.steps.flatMap((one) =>
      [...stepCautions(demoInput, demoPlan, one.id, []).values()].map((all) => all.map((notice) => notice.level).join(' ')),
    );
    expect(levels.filter((one) => /note.*(error|caution)|caution.*error/.test(one))).toEqual([]);
  });
});

test('the head of a sheet names the hazards of what is freed, and what of it has no entry', () => {
  const { result } = cautions([add('n', 'bromide'), add('x', 'water', 'quench')]);
  const freed = stepOf(result, '1').freed.map((one) => [one.material, one.gas, one.hazards?.includes('H314') ?? null]);
  expect(freed).toEqual([
    ['phosphorous acid', false, null],
    ['hydrogen bromide', true, true],
  ]);
  const [sheet] = weighingPaper([{ step: '1', batch: 1 }], {
    ...demoContext,
    result,
    bench: () => [],
    cautions: () => new Map(),
  }).sheets;
  expect(sheet?.statements.find((one) => one.code === 'H314')?.of).toContain('hydrogen bromide (freed)');
  expect(sheet?.unlisted).toContain('phosphorous acid (freed)');
});

describe('stored energy', () => {
  test('without a structure it is not known: once, quietly, before the first operation', () => {
    const found = cautions([add('o', 'odd'), add('p', 'odd', 'work-up')]);
    const said = ['c1', 'o', 'p'].flatMap((id) => found.at(id)).filter((one) => one.code === 'no structure');
    expect(said).toHaveLength(1);
    expect(said[0]).toMatchObject({ level: 'note', at: { operation: 'c1' }, values: { materials: 'odd reagent' } });
    expect(said[0] && sentence(said[0])).toMatch(/^No structure is entered for odd reagent: .* is not known\.$/);
  });
});

describe('scale', () => {
  const run = (basisGrams: number | null, more: Partial<ScaleRun> = {}): ScaleRun => ({
    id: 3,
    early: false,
    step: '1',
    phase: 'finished',
    basisGrams,
    ...more,
  });
  const first = (runs: readonly ScaleRun[] | null) =>
    cautions([], [], runs)
      .at('c1')
      .find((one) => one.code.startsWith('scale'));
  const grams = stepOf(cautions([]).result, '1').batches.basisGrams.value;

  test('more than tenfold over the largest finished run: a pause and an intermediate scale', () => {
    const found = first([run(grams / 25), run(grams / 40, { id: 4 }), run(grams, { id: 5, phase: 'running' })]);
    expect(found).toMatchObject({ level: 'error', code: 'scale: jump', values: { run: 3, fold: expect.closeTo(25, 6) } });
    // The middle by ratio, and never more than tenfold at once.
    expect(found?.values.between).toBeCloseTo(grams / 5, 6);
    expect(found?.values.most).toBeCloseTo(grams / 2.5, 6);
    expect(found && sentence(found)).toMatch(
      /^Pause: .*25 times the largest run recorded.*An intermediate scale comes first.*never above.*person responsible, decide/,
    );
  });
  test('tenfold and less needs none; no run, runs that were not read and runs without a mass each say so', () => {
    expect(first([run(grams / 10)])).toBeUndefined();
    expect(first([])?.code).toBe('scale: no run recorded');
    expect(first([run(grams, { step: 'other' })])?.code).toBe('scale: no run recorded');
    expect(first([run(grams, { phase: 'paused' })])?.code).toBe('scale: no run recorded');
    expect(first(null)?.code).toBe('scale: runs not read');
    expect(first([run(null)])?.code).toBe('scale: not known');
  });
  test('it is said exactly beyond tenfold', () => {
    const one = stepOf(cautions([]).result, '1');
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1000, noNaN: true }), (fold) => {
        fc.pre(Math.abs(fold - 10) > 1e-6);
        expect(scaleCaution(one, [run(grams / fold)]) !== null).toBe(fold > 10);
      }),
    );
  });
});

describe('peroxide formers by the date their bottle was opened', () => {
  const poured = (more: Partial<Bottle>) => {
    const found = cautions([add('e', 'ether')], [bottle('ether', 5000, 'mL', { kind: 'neat' }, more)]);
    return found.at('e').find((one) => one.code.startsWith('peroxides'));
  };
  test('ether opened two years ago is not to be used before a test', () => {
    const found = poured({ opened: '2024-11-20' });
    expect(found).toMatchObject({ level: 'caution', code: 'peroxides: overdue', values: { due: '2025-11-20' } });
    expect(found && sentence(found)).toMatch(
      /opened on 2024-11-20, no test for peroxides recorded.*crystals.*do not move or open.*Not to be used before a test for peroxides/,
    );
  });
  test('an unknown date is said; a test for peroxides counts from its day, any other test does not, and is named', () => {
    const found = poured({});
    expect(found?.code).toBe('peroxides: date not known');
    expect(found && sentence(found)).toMatch(/date of opening not recorded, no test for peroxides recorded/);
    const done = (kind: TestKind, on: string): Bottle['tests'] => [
      { done: kind, on, before: { kind: 'neat' }, form: { kind: 'neat' } },
    ];
    expect(poured({ opened: '2024-11-20', tests: done('peroxides', '2026-10-01') })?.code).toBe('peroxides: in date');
    for (const kind of ['tested', 'purified'] as const) {
      const other = poured({ opened: '2024-11-20', tests: done(kind, '2026-10-01') });
      expect(other?.code).toBe('peroxides: overdue');
      expect(other && sentence(other)).toContain(`(${kind} on 2026-10-01, but not for that)`);
    }
    expect(poured({ opened: '2024-11-20', tests: done('titrated', '2026-10-01') })?.code).toBe('peroxides: overdue');
    expect(poured({ opened: '2026-09-01' })?.level).toBe('note');
  });
  test('distilling it off concentrates them', () => {
    const distil: Operation = {
      do: 'removal',
      id: 'd',
      stage: 'work-up',
      how: 'distil',
      takes: [{ what: 'liquids', percent: 95 }],
    };
    expect(
      cautions([add('e', 'ether'), distil])
        .said('d')
        .join(),
    ).toMatch(/diethyl ether: peroxides stay behind.*never to dryness/);
  });
  test.each([
    ['108-20-3', 'A', 3],
    ['60-29-7', 'B', 12],
    ['109-99-9', 'B', 12],
    ['123-91-1', 'B', 12],
    ['100-42-5', 'C', 12],
  ])('%s is of class %s: %d months', (cas, name, months) => {
    expect(peroxideFormerOf(factsOf({ name: cas, cas }, reference), reference)).toMatchObject({ class: name, months });
  });
  test.each([
    ['CCCOCCC', true],
    ['COc1ccccc1', false],
    ['CC(C)(C)OC', false],
    ['CCOC(C)=O', false],
    ['CCO', false],
  ])('by structure %s: %s', (smiles, want) => {
    expect(peroxideFormerOf(factsOf({ name: 'one', smiles }, reference), reference) !== null).toBe(want);
  });
  test('months are counted over the year’s end', () => {
    expect([monthsAfter('2026-11-25', 3), monthsAfter('2024-01-31', 12), monthsAfter('2025-12-01', 1)]).toEqual([
      '2027-02-25',
      '2025-01-31',
      '2026-01-01',
    ]);
  });
});

describe('where they stand', () => {
  test('step card, sheet and command say the same before the same operation', () => {
    const one = demoPlan.steps.find((each) => each.active);
    if (!one) throw new Error('the ready example needs a step');
    const found = stepCautions(demoInput, demoPlan, one.id, []);
    const [sheet] = weighingPaper([{ step: one.id, batch: 1 }], demoContext).sheets;
    const entries = sheet?.stages.flatMap((stage) => stage.entries) ?? [];
    const text = planText(
      demoPlan,
      { kind: 'unknown' },
      () => [],
      (id) => stepCautions(demoInput, demoPlan, id, []),
    );
    expect([...found.values()].flat().length).toBeGreaterThan(3);
    for (const operation of one.operations) {
      const id = operationIdOf(operation);
      const printed = entries.find((entry) => entry.id === id)?.before.map((warning) => warning.words) ?? [];
      for (const said of (found.get(id) ?? []).map(sentence)) {
        expect(printed).toContain(said);
        expect(text).toContain(`! ${said}`);
      }
    }
  });
});

test('no sentence of a caution reads as leave to go on', () => {
  const values = {
    material: 'one',
    other: 'two|three',
    gives: 'F H|H',
    groups: '2–4|2–19',
    from: 'one',
    with: 'two',
    gases: 'a gas',
    makes: 'an acid',
    statements: 'Toxic.',
    spent: 1,
    due: '2026-01-01',
  };
  for (const [code, make] of Object.entries(CAUTION_SENTENCES)) {
    const one = {
      groups: code.startsWith('energetic') ? 'an azide' : values.groups,
      other: code.startsWith('waste') ? 'two' : values.other,
    };
    for (const given of [{ ...values, ...one }, {}, { ...values, ...one, quench: 1 }]) {
      const said = make(given);
      expect(said, code).not.toMatch(/\b(safe|safely|ok|harmless|no danger|permitted|allowed|no risk|fine|sufficient)\b/i);
      expect(said, code).not.toMatch(/undefined|NaN\b.*NaN|\|/);
    }
  }
});

test('every code that a caution can have has its sentence', () => {
  const codes = demoPlan.steps.flatMap((one) => [...stepCautions(demoInput, demoPlan, one.id, null).values()].flat());
  const named = [
    'chart: apart',
    'chart: watched',
    'chart: warm',
    'chart: water-reactive',
    'reacts as before',
    'hazards as before',
  ];
  for (const code of [...codes.map((one) => one.code), ...named]) {
    expect(sentence({ code, values: {} })).not.toContain('No sentence is known');
  }
});
