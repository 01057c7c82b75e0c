import { describe, expect, test } from 'vitest';
import type { Operation } from '../../src/core/route/route.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';

const materials = {
  a: { name: 'a', formula: 'C14H12O2', state: 'solid' as const, solidDensity: 1.25 },
  b: 'C14H10O2',
  water: { name: 'water', formula: 'H2O' },
  ethanol: { name: 'ethanol', cas: '64-17-5' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
type More = Partial<Extract<Operation, { do: 'charge' }>>;
const charge = (id: string, material: string, millilitresPerGram: number, more: More = {}): Operation => ({
  do: 'charge',
  id,
  stage: 'work-up',
  material,
  rule: { kind: 'volumes', millilitresPerGram },
  ...more,
});
const removal = (
  id: string,
  how: 'filter' | 'wash away' | 'dry',
  what = 'liquids',
  stage: 'work-up' | 'purification' = 'work-up',
) => ({ do: 'removal', id, stage, how, takes: [{ what, percent: 100 }] }) as Operation;
const hold = (stage: 'work-up' | 'purification' = 'work-up'): Operation => ({
  do: 'hold',
  id: `h-${stage}`,
  stage,
  until: 'done',
});
const solvent = charge('s', 'ethanol', 4, { stage: 'reaction' });

/** Largest volumes of one batch of 1 g of basis by stage, mL. */
function volumes(more: readonly Operation[], formula = 'C14H10O2'): Record<string, number> {
  const one = route({ ...materials, b: formula }, [step({ id: '1', basis: 'a', product: 'b', more: [solvent, ...more] })]);
  const { batches } = stepOf(planOf(one, [draw('b', 10)]), '1');
  expect(batches.count).toBe(1);
  const grams = batches.basisGrams.value;
  return Object.fromEntries(batches.stages.map(({ stage, volume }) => [stage, Number((volume.value / grams).toFixed(6))]));
}

/** 4 mL of solvent and 1 g of solid of 1.25 g/mL. */
const MIXTURE = 4.8;

describe('a wash on a filter does not enter the vessel', () => {
  test('one or more, each run off or not, with more solvent than the vessel ever held', () => {
    const filter = removal('f', 'filter');
    const one = [filter, charge('w', 'water', 70), removal('f2', 'wash away')];
    expect(volumes(one)).toEqual({ reaction: MIXTURE, 'work-up': MIXTURE });
    const two = [...one, charge('w2', 'ethanol', 70), removal('f3', 'filter'), removal('d', 'dry'), hold()];
    expect(volumes(two)['work-up']).toBe(MIXTURE);
    const notRunOff = [filter, charge('w', 'water', 70), charge('w2', 'ethanol', 70, { portions: 3 }), removal('d', 'dry')];
    expect(volumes(notRunOff)['work-up']).toBe(MIXTURE);
    expect(volumes([filter, charge('w', 'water', 70)])['work-up']).toBe(MIXTURE);
  });

  test('washings until they are neutral are washings', () => {
    const until = charge('w', 'water', 1, {
      rule: { kind: 'until', endPoint: 'neutral', estimate: { kind: 'volumes', millilitresPerGram: 30 }, atMost: 3 },
    });
    expect(volumes([removal('f', 'filter', 'all but the product'), until, removal('f2', 'wash away')])['work-up']).toBe(MIXTURE);
  });

  test.each<[string, readonly Operation[]]>([
    ['run off by a filtration', [charge('w', 'water', 70), removal('f2', 'filter')]],
    ['washed away', [charge('w', 'water', 70), removal('f2', 'wash away')]],
    ['without a word of its running off', [charge('w', 'water', 70)]],
    ['dried', [charge('w', 'water', 70), removal('d', 'dry')]],
  ])('filtrate and washings are still told, %s: the filter flask holds them', (_name, more) => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [solvent, removal('f', 'filter'), ...more] })]);
    const { batches } = stepOf(planOf(one, [draw('b', 10)]), '1');
    const runsOff = batches.stages.find(({ stage }) => stage === 'work-up')?.runsOff?.value ?? 0;
    expect(runsOff / batches.basisGrams.value).toBeCloseTo(74, 6);
  });
});

describe('what may be in the vessel counts in it', () => {
  const cake = 0.8;
  test.each<[string, readonly Operation[], number]>([
    ['a slurry that is held', [charge('w', 'water', 70), hold(), removal('f2', 'filter')], 70 + cake],
    ['what is added over a time', [charge('w', 'water', 70, { overMinutes: 30 }), removal('f2', 'filter')], 70 + cake],
    [
      'a base in solution and an acid that throws the product out again',
      [
        charge('b', 'lye', 30, { form: { kind: 'solution', strength: { value: 10, basis: '% w/w' }, solvent: 'water' } }),
        charge('w', 'water', 40),
        removal('f2', 'filter'),
      ],
      70 + cake,
    ],
    [
      'what dissolves the solid: the next filter takes solids',
      [charge('w', 'water', 70), removal('f2', 'filter', 'solids')],
      70 + cake,
    ],
    ['what is charged after it is dry', [removal('d', 'dry'), charge('w', 'water', 70), removal('f2', 'filter')], 70 + cake],
  ])('%s', (_name, more, expected) => {
    expect(volumes([removal('f', 'filter'), ...more])['work-up']).toBeCloseTo(expected, 6);
  });

  test('the next stage starts in a vessel', () => {
    const more = [
      removal('f', 'filter'),
      charge('w', 'water', 70),
      removal('f2', 'filter'),
      charge('r', 'ethanol', 20, { stage: 'purification' }),
      removal('f3', 'filter', 'liquids', 'purification'),
    ];
    expect(volumes(more)).toEqual({ reaction: MIXTURE, 'work-up': MIXTURE, purification: 20 + cake });
  });

  test('a wash after a solid was filtered off is none', () => {
    expect(volumes([removal('f', 'filter', 'solids'), charge('w', 'water', 70)])['work-up']).toBeGreaterThan(70);
  });
});

describe('water by its formula alone', () => {
  test('takes its room, by volume and by moles', () => {
    const by = (rule: Extract<Operation, { do: 'charge' }>['rule'], made: 'water' | 'odd') => {
      const odd = { name: 'odd', formula: 'CH4O' };
      const one = route({ ...materials, odd }, [
        step({ id: '1', basis: 'a', product: 'b', more: [charge('w', made, 1, { rule, stage: 'reaction' })] }),
      ]);
      const { batches } = stepOf(planOf(one, [draw('b', 10)]), '1');
      return { grams: batches.basisGrams.value, moles: batches.basisMoles.value, volume: batches.stages[0]?.volume.value ?? 0 };
    };
    const volume = by({ kind: 'volumes', millilitresPerGram: 5 }, 'water');
    expect(volume.volume).toBeCloseTo(5.8 * volume.grams, 6);
    const moles = by({ kind: 'equivalents', equivalents: 100 }, 'water');
    expect(moles.volume).toBeCloseTo(moles.grams * 0.8 + (moles.moles * 100 * 18.015) / 0.9982, 0);
    // Something of unknown density that a rule gives in millilitres.
    const unknown = by({ kind: 'volumes', millilitresPerGram: 5 }, 'odd');
    expect(unknown.volume).toBeCloseTo(5.8 * unknown.grams, 6);
  });
});

describe('a charge that is called a wash', () => {
  const wash = (note = 'wash'): Operation => charge('w', 'water', 20, { note });
  const layers: Operation = {
    do: 'removal',
    id: 'l',
    stage: 'work-up',
    how: 'separate',
    takes: [{ what: 'aqueous layer', percent: 100 }],
  };
  const said = (more: readonly Operation[]): readonly string[] => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [solvent, ...more] })]);
    const found = stepOf(planOf(one, [draw('b', 10)]), '1').notices.filter(({ code }) => code === 'wash of nothing');
    return found.map((notice) => `${notice.at.operation}: ${sentence(notice)}`);
  };
  test('with nothing to wash is told at its place: it counts in the vessel', () => {
    expect(said([wash()])).toEqual([expect.stringMatching(/^w: water is called a wash, but nothing is filtered off/)]);
    expect(said([wash('cold, wash')])).toHaveLength(1);
    expect(said([wash(), removal('f', 'filter')])).toHaveLength(1);
  });
  test.each<[string, readonly Operation[]]>([
    ['behind a filtration', [removal('f', 'filter'), wash()]],
    ['of layers that are parted after it', [wash(), layers]],
    ['after layers were parted', [layers, wash()]],
    ['that is none', [wash('washed sand from the sea'), charge('v', 'water', 1, { note: 'dishwashing' })]],
  ])('%s: nothing is said', (_name, more) => expect(said(more)).toEqual([]));
});
