import { describe, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import { readPlan } from '../../src/core/plan/read-plan.ts';
import { doubledNames } from '../../src/core/route/doubled-names.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Operation, PlainRule } from '../../src/core/route/route.ts';
import { planText } from '../../src/core/words/plan-text.ts';
import { bottle, chargeOf, draw, planOf, route, step, stepOf } from './build.ts';

// Cases in which a plan once was wrong, or easily could be: each has its right answer worked by hand.

const M = { a: 78.114, b: 84.162 };
const neat = (assayPercent?: number): Form => (assayPercent === undefined ? { kind: 'neat' } : { kind: 'neat', assayPercent });
const solution = (value: number, basis: '% w/w' | '% w/v' | 'g/L' | 'mol/L', solvent?: string): Form => ({
  kind: 'solution',
  strength: { value, basis },
  ...(solvent ? { solvent } : {}),
});
const charge = (
  id: string,
  material: string,
  rule: PlainRule,
  more: Partial<Extract<Operation, { do: 'charge' }>> = {},
): Operation => ({ do: 'charge', id, stage: 'reaction', material, rule, ...more });
const equiv = (equivalents: number): PlainRule => ({ kind: 'equivalents', equivalents });
const materials = {
  a: 'C6H6',
  b: 'C6H12',
  c: 'C7H8',
  x: { name: 'x', formula: 'C4H8O2' },
  acid: { name: 'hydrochloric acid', formula: 'HCl', cas: '7647-01-0' },
  nitric: { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2' },
  soda: { name: 'sodium hydrogen carbonate', formula: 'NaHCO3', cas: '144-55-8' },
  azide: { name: 'sodium azide', formula: 'NaN3', cas: '26628-22-8' },
  hydride: { name: 'lithium aluminium hydride', formula: 'LiAlH4', cas: '16853-85-3' },
  lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2' },
  ammonia: { name: 'ammonia', formula: 'H3N', cas: '7664-41-7' },
  sulfuric: { name: 'sulfuric acid', formula: 'H2SO4', cas: '7664-93-9' },
};
const one = (more: readonly Operation[], extra = {}) =>
  route(materials, [step({ id: '1', basis: 'a', product: 'b', more, extra })]);
const chain = (second: Partial<Parameters<typeof step>[0]> = {}, first: Partial<Parameters<typeof step>[0]> = {}) =>
  route(materials, [
    step({ id: '1', basis: 'a', product: 'b', ...first }),
    step({ id: '2', basis: 'b', product: 'c', ...second }),
  ]);

describe('lots and stock', () => {
  test('two lots of different assay add up lot by lot', () => {
    const result = planOf(
      one([]),
      [draw('b', 0.15, 'mol')],
      [
        bottle('a', 8, 'g', neat(50), { id: 'half', useBy: '2026-12-01' }),
        bottle('a', 50, 'g', neat(), { id: 'pure', useBy: '2027-12-01' }),
      ],
    );
    // One lot suffices, so it is taken alone; with 5 g of it, 8 g at 50 % and the rest of the pure.
    expect(chargeOf(result, '1', 'a').grams?.value).toBeCloseTo(0.15 * M.a, 9);
    const both = planOf(
      one([]),
      [draw('b', 0.15, 'mol')],
      [
        bottle('a', 8, 'g', neat(50), { id: 'half', useBy: '2026-12-01' }),
        bottle('a', 9, 'g', neat(), { id: 'pure', useBy: '2027-12-01' }),
      ],
    );
    expect(chargeOf(both, '1', 'a').grams?.value).toBeCloseTo(8 + (0.15 * M.a - 4), 9);
  });

  test('stock of low assay and a step together weigh what each of them weighs', () => {
    const result = planOf(chain(), [draw('c', 0.2, 'mol')], [bottle('b', 10, 'g', neat(50))]);
    expect(chargeOf(result, '2', 'b').grams?.value).toBeCloseTo(10 + (0.2 * M.b - 5), 9);
  });

  test('a bottle whose substance the route names twice, crude and pure, counts once', () => {
    const twice = route(
      {
        a: 'C6H6',
        crude: { name: 'thing crude', formula: 'C6H12', cas: '110-82-7' },
        pure: { name: 'thing', formula: 'C6H12', cas: '110-82-7' },
      },
      [step({ id: '1', basis: 'a', product: 'crude' }), step({ id: '2', basis: 'crude', product: 'pure' })],
    );
    const result = planOf(twice, [draw('pure', 20)], [bottle('pure', 10)]);
    expect(stepOf(result, '1').product.grams.value).toBeCloseTo(10, 9);
  });

  test('a solution is no stock of a neat intermediate', () => {
    expect(
      stepOf(planOf(chain(), [draw('c', 0.1, 'mol')], [bottle('b', 1000, 'g', solution(10, '% w/w', 'toluene'))]), '1').active,
    ).toBe(true);
  });

  test('an intermediate that must be pure is not taken from worse stock', () => {
    const strict = route(materials, [
      step({ id: '1', basis: 'a', product: 'b' }),
      step({
        id: '2',
        basis: 'b',
        product: 'c',
        extra: { operations: [charge('c1', 'b', { kind: 'basis' }, { leastAssayPercent: 95 })] },
      }),
    ]);
    expect(stepOf(planOf(strict, [draw('c', 0.1, 'mol')], [bottle('b', 100, 'g', neat(50))]), '1').active).toBe(true);
  });

  test('charges of one material that ask for different purity stand on lines of their own', () => {
    const result = planOf(
      one([charge('x1', 'x', equiv(1)), charge('x2', 'x', equiv(1), { leastAssayPercent: 98 })]),
      [draw('b', 0.1, 'mol')],
      [bottle('x', 100, 'g', neat(80), { id: 'plain' }), bottle('x', 100, 'g', neat(99), { id: 'fine' })],
    );
    expect(result.fetch.filter((line) => line.material === 'x').map((line) => line.status)).toEqual(['enough', 'enough']);
  });

  test('a bottle in millilitres without a density cannot be counted, the next in grams can', () => {
    const result = planOf(
      one([charge('x', 'x', equiv(2))]),
      [draw('b', 0.1, 'mol')],
      [
        bottle('x', 500, 'mL', neat(), { id: 'volume', useBy: '2026-12-01' }),
        bottle('x', 500, 'g', neat(), { id: 'mass', useBy: '2027-12-01' }),
      ],
    );
    const line = result.fetch.find((found) => found.material === 'x');
    expect(line).toMatchObject({ unit: 'g', status: 'enough', bottles: [{ bottle: 'mass' }] });
    expect(line?.need.value).toBeCloseTo(0.2 * 88.106, 6);
  });

  test('a trace of stock does not hide a step that yields nothing', () => {
    expect(planOf(chain({}, { yieldPercent: 0 }), [draw('c', 1)], [bottle('b', 1e-6)]).solved).toBe(false);
  });

  test('what another step gives back is taken off once, however many forms it is charged in', () => {
    const result = planOf(
      one([charge('x1', 'x', equiv(1)), charge('x2', 'x', equiv(1), { form: solution(50, '% w/w', 'toluene') })], {
        recovers: [{ material: 'x', molesPerMoleBasis: 0.9 }],
      }),
      [draw('b', 0.1, 'mol')],
    );
    const contained = result.fetch
      .filter((line) => line.material === 'x')
      .reduce((sum, line) => sum + line.need.value * (line.formWords.startsWith('50') ? 0.5 : 1), 0);
    expect(contained).toBeCloseTo(0.1 * 1.1 * 88.106, 6);
  });
});

describe('amounts', () => {
  test.each([
    ['% w/v', 20],
    ['g/L', 200],
  ] as const)('a volume of %s needs no density of the solution', (basis, value) => {
    const found = chargeOf(
      planOf(one([charge('x', 'x', equiv(1), { form: solution(value, basis, 'toluene') })]), [draw('b', 0.1, 'mol')]),
      '1',
      'x',
    );
    expect(found.millilitres?.value).toBeCloseTo((0.1 * 88.106) / 0.2, 9);
  });

  test('a mass ratio of an intermediate counts what is contained in it as it is isolated', () => {
    const result = planOf(
      chain(
        {
          more: [],
          extra: {
            operations: [charge('c1', 'a', { kind: 'basis' }), charge('i', 'b', { kind: 'mass ratio', gramsPerGram: 1 })],
            basis: 'a',
            equation: { uses: [{ material: 'a', coefficient: 1 }], makes: [{ material: 'c', coefficient: 1 }] },
          },
        },
        { extra: { productAssayPercent: 50 } },
      ),
      [draw('c', 0.1, 'mol')],
    );
    expect(stepOf(result, '1').product.grams.value).toBeCloseTo((0.1 * M.a) / 2, 9);
  });

  test('a loop at its limit is refused, not planned for ten to the seventeen', () => {
    const loop = chain({ yieldPercent: 90 }, { yieldPercent: 80, equivalents: { c: 0.72 } });
    expect(planOf(loop, [draw('c', 1)]).notices.map((notice) => notice.code)).toContain('impossible loop');
  });

  test('step ids that are names of JavaScript keep their yields', () => {
    const result = planOf(
      route(materials, [step({ id: 'constructor', basis: 'a', product: 'b', yieldPercent: 50 })]),
      [draw('b', 1, 'mol')],
      [],
      { ask: { yields: {} } },
    );
    expect(stepOf(result, 'constructor').basis.moles.value).toBeCloseTo(2, 12);
  });

  test('the accepted range holds the exact amount', () => {
    for (const grams of [9.7, 10.2, 33]) {
      const { exact, low, high } = chargeOf(
        planOf(
          one([
            charge('x', 'acid', { kind: 'volumes', millilitresPerGram: 0.0278 }, { form: solution(20, '% w/w'), portions: 4 }),
          ]),
          [draw('b', grams)],
        ),
        '1',
        'acid',
      ).perBatch;
      expect(low).toBeLessThanOrEqual((exact?.value ?? 0) + 0.005);
      expect(high).toBeGreaterThanOrEqual((exact?.value ?? 0) - 0.005);
    }
  });

  test('what is charged until an end point is in hand, and has room, at its largest', () => {
    const until: Operation = {
      do: 'charge',
      id: 'w',
      stage: 'reaction',
      material: 'x',
      by: 'volume',
      form: neat(),
      rule: { kind: 'until', endPoint: 'clear', estimate: { kind: 'mass ratio', gramsPerGram: 1 }, atMost: 10 },
    };
    const result = planOf(one([until]), [draw('b', 0.1, 'mol')]);
    expect(result.fetch.find((line) => line.material === 'x')?.peak.value).toBeCloseTo(10 * 0.1 * M.a, 6);
    expect(stepOf(result, '1').batches.stages[0]?.volume.value).toBeGreaterThan(10 * 0.1 * M.a * 0.7);
  });
});

describe('said, and said in the right place', () => {
  const before = (more: readonly Operation[], id: string, extra = {}) => {
    const found = stepOf(planOf(one(more, extra), [draw('b', 10)]), '1').operations.find(
      (operation) => operation.kind === 'charge' && operation.id === id,
    );
    return (found?.before ?? []).map((notice) => notice.code);
  };

  test.each([
    [
      'the active material',
      [charge('h', 'hydride', equiv(1)), charge('w', 'lye', equiv(1), { form: solution(15, '% w/w') })],
      'w',
      'reacts with water',
    ],
    [
      'an organic solvent',
      [
        charge('n', 'ammonia', equiv(1), { form: solution(7, 'mol/L', 'methanol') }),
        charge('o', 'nitric', equiv(3), { form: solution(70, '% w/w') }),
      ],
      'o',
      'oxidiser meets organic',
    ],
    [
      'a carbonate',
      [
        charge('h', 'acid', equiv(3), { form: solution(20, '% w/w') }),
        charge('s', 'soda', equiv(2), { form: solution(5, '% w/w') }),
      ],
      's',
      'acid frees carbon dioxide',
    ],
    [
      'azide, then acid',
      [charge('z', 'azide', equiv(1)), charge('h', 'acid', equiv(1), { form: solution(20, '% w/w') })],
      'h',
      'acid frees hydrazoic acid',
    ],
    [
      'acid, then azide',
      [charge('h', 'acid', equiv(1), { form: solution(20, '% w/w') }), charge('z', 'azide', equiv(1))],
      'z',
      'acid frees hydrazoic acid',
    ],
    ['the basis itself', [charge('o', 'nitric', equiv(3), { form: solution(70, '% w/w') })], 'o', 'oxidiser meets organic'],
  ] as const)('%s is met', (_, more, id, code) => expect(before([...more], id)).toContain(code));

  test('gas stands where the last reactant comes in first, not at a wash with it', () => {
    const equation = {
      uses: [
        { material: 'a', coefficient: 1 },
        { material: 'soda', coefficient: 1 },
      ],
      makes: [
        { material: 'b', coefficient: 1 },
        { material: 'acid', coefficient: 1, gas: true },
      ],
    };
    const more = [
      charge('s', 'soda', equiv(2)),
      charge('wash', 'soda', equiv(5), { stage: 'purification', form: solution(5, '% w/w') }),
    ];
    expect(before(more, 's', { equation })).toContain('gas freed');
    expect(before(more, 'wash', { equation })).not.toContain('gas freed');
  });

  test('hazards of the solvent are hazards of the solution', () => {
    const found = chargeOf(
      planOf(one([charge('n', 'ammonia', equiv(1), { form: solution(7, 'mol/L', 'methanol') })]), [draw('b', 10)]),
      '1',
      'ammonia',
    );
    expect(found.hazards).toEqual(expect.arrayContaining(['H225', 'H301']));
  });

  test('a make-up says what goes into what, and none is proposed of what water destroys', () => {
    const acid = planOf(
      one([charge('s', 'sulfuric', equiv(1), { form: solution(20, '% w/w') })]),
      [draw('b', 10)],
      [bottle('sulfuric', 500, 'mL', solution(98, '% w/w'))],
    );
    expect(acid.makeUps[0]?.before.map((notice) => notice.code)).toEqual([
      'hazards',
      'acid slowly into water',
      'solution gets hot',
    ]);
    for (const solvent of ['water', 'tetrahydrofuran']) {
      const hydride = planOf(
        one([charge('h', 'hydride', equiv(1), { form: solution(10, '% w/w', solvent) })]),
        [draw('b', 10)],
        [bottle('hydride', 500)],
      );
      expect(hydride.makeUps).toEqual([]);
    }
  });

  test('reagent charged only to quench does not count as reagent', () => {
    const equation = {
      uses: [
        { material: 'a', coefficient: 1 },
        { material: 'lye', coefficient: 1 },
      ],
      makes: [{ material: 'b', coefficient: 1 }],
    };
    const result = planOf(
      one([charge('n', 'lye', equiv(0.5)), charge('q', 'lye', equiv(2), { stage: 'quench' })], { equation }),
      [draw('b', 10)],
    );
    expect(result.notices.map((notice) => notice.code)).toContain('another limits');
  });

  test('a product that is isolated less pure than a draw asks for, and a limit that cannot be checked', () => {
    const impure = planOf(one([], { productAssayPercent: 80 }), [draw('b', 10, 'g', { leastAssayPercent: 98 })]);
    expect(impure.notices).toContainEqual(expect.objectContaining({ code: 'made too impure', level: 'error' }));
    const nameless = route({ a: { name: 'gunk', state: 'solid' }, b: 'C6H12' }, [
      step({ id: '1', basis: 'a', product: 'b', extra: { batchLimit: { grams: 1, reason: 'hot' } } }),
    ]);
    expect(planOf(nameless, [draw('b', 10)]).notices.map((notice) => notice.code)).toContain('limit not checked');
  });

  test('the terminal prints cautions, holds and removals in their order', () => {
    const more: Operation[] = [
      charge('s', 'sulfuric', equiv(1), { form: solution(98, '% w/w') }),
      { do: 'hold', id: 'h', stage: 'reaction', until: 'it is cold' },
      { do: 'removal', id: 'r', stage: 'work-up', how: 'filter', takes: [], wasteTo: 'acid' },
    ];
    const text = planText(planOf(one(more), [draw('b', 10)]), { kind: 'unknown' }, () => []);
    expect(text.indexOf('! sulfuric acid: Causes severe skin burns')).toBeLessThan(text.indexOf('sulfuric acid  98 % w/w'));
    expect(text).toContain('hold until it is cold');
    expect(text).toContain('to “acid”');
  });
});

describe('files', () => {
  const text = JSON.stringify(one([]));
  test.each([
    [
      'a doubled material',
      text.replace('"materials":{', '"materials":{"a":{"name":"another"},'),
      '/materials/a: this name stands twice',
    ],
    ['control characters', text.replace('"name":"a route"', '"name":"a\\u001b[31m"'), '/name: control characters'],
    [
      'a name that would vanish',
      text.replace('"materials":{', '"materials":{"__proto__":{"name":"z"},'),
      '"__proto__" cannot be a name',
    ],
    [
      'a broken schema and an unknown material at once',
      text.replace('"yieldPercent":100', '"yieldPercent":101').replace('"product":"b"', '"product":"nobody"'),
      '/steps/0/product: "nobody"',
    ],
  ])('%s is refused', (_, file, words) => {
    const reading = readRoute(file);
    expect(reading.ok ? [] : reading.problems.map((problem) => `${problem.at}: ${problem.words}`).join('\n')).toContain(words);
  });

  test('hundreds of thousands of wrong entries end in a short answer', () => {
    const many = Object.fromEntries(Array.from({ length: 200_000 }, (_, i) => [`m${i}`, 1]));
    const reading = readRoute(JSON.stringify({ ...one([]), materials: many }));
    expect(reading.ok).toBe(false);
    expect(reading.ok ? 0 : reading.problems.length).toBeLessThan(300);
  });

  test('doubled names are found at any depth, and lists and strings are not mistaken for them', () => {
    expect(doubledNames('{"a":[{"b":1,"b":2},{"b":3}],"c":"{\\"a\\":1}","a":2}')).toEqual(['/a/0/b', '/a']);
    expect(doubledNames('{"x":["a","a"],"y":{"a":"a"},"z":{"a":1}}')).toEqual([]);
  });

  test('a plan file is held against its route', () => {
    const ask = {
      name: 'p',
      draws: [draw('b', 1), draw('b', 2), draw('zz', 1)],
      yields: { nobody: 50, '1': { lowest: 9, likeliest: 5, highest: 7 } },
    };
    const reading = readPlan(JSON.stringify({ backweigh: 'plan', version: 1, ask }), one([]));
    expect(reading.ok ? [] : reading.problems.map((problem) => problem.at)).toEqual([
      '/ask/draws/2/material',
      '/ask/draws/1/id',
      '/ask/yields/1',
      '/ask/yields/nobody',
    ]);
  });
});
