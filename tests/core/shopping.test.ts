import { describe, expect, test } from 'vitest';
import { optionLines, sharedText, supplierText, thinnedTexts } from '../../src/core/buy/buy-text.ts';
import { shoppingRows } from '../../src/core/buy/shopping-rows.ts';
import { chosenOption } from '../../src/core/buy/buy-option.ts';
import { shoppingList, shoppingTotal } from '../../src/core/buy/shopping.ts';
import { costWithout, supplierTotals } from '../../src/core/buy/suppliers.ts';
import { withinLeastOrders } from '../../src/core/buy/within-least.ts';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import { Paper } from '../../src/core/paper/paper.ts';
import { demoContext } from './demo-fixture.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Pack } from '../../src/core/shelf/pack.ts';
import { type Bottle, EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' }, solvent: 'water' });

const materials = {
  a: { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9' },
  b: { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6' },
  acid: { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2' },
};

/** 21.22 g of benzoin (0.1 mol) and 0.5 mol of nitric acid as 60 % w/w: 52.51 g. */
function list(
  packs: readonly Pack[],
  bottles: readonly Bottle[] = [],
  onOrder: { pack: Pack; count: number; forPlan?: string }[] = [],
) {
  const one = route(materials, [
    step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [
        {
          do: 'charge',
          id: 'acid',
          stage: 'reaction',
          material: 'acid',
          rule: { kind: 'equivalents', equivalents: 5 },
          form: percent(60),
          leastAssayPercent: 0,
        },
      ],
    }),
  ]);
  const shelf = { ...EMPTY_SHELF, materials, bottles: [...bottles], packs: [...packs] };
  const ask = { name: 'p', draws: [draw('b', 21.0228)] };
  const result = plan({ route: one, ask, shelf, settings, reference, asOf: TODAY });
  return shoppingList({ result, route: one, shelf, settings, reference, onOrder });
}
const of = (lines: ReturnType<typeof list>, material: string) => {
  const found = lines.find((one) => one.line.material === material);
  if (!found) throw new Error(`no line of ${material}`);
  return found;
};

/** 21.22 g of benzoin as the basis, as much of at least 99 %, and what they are bought in. */
function twoPurities(packs: readonly Pack[]) {
  const charge = { do: 'charge', id: 'pure', stage: 'reaction', material: 'a', leastAssayPercent: 99 } as const;
  const one = route(materials, [
    step({ id: '1', basis: 'a', product: 'b', more: [{ ...charge, rule: { kind: 'equivalents', equivalents: 1 } }] }),
  ]);
  const shelf = { ...EMPTY_SHELF, materials, packs: [...packs] };
  const ask = { name: 'p', draws: [draw('b', 21.0228)] };
  const result = plan({ route: one, ask, shelf, settings, reference, asOf: TODAY });
  return { result, input: { result, route: one, shelf, settings, reference, onOrder: [] } };
}
const neat = (assayPercent: number): Form => ({ kind: 'neat', assayPercent });

describe('two lines of one material', () => {
  const pure: Pack = { material: 'a', form: neat(99.5), amount: 50, unit: 'g', price: 20, supplier: 'North' };

  test('have one order, where one bottle serves both', () => {
    // 21.2 g each, 42.4 g in all: one bottle of 50 g (49.75 g of benzoin) instead of two.
    const { input, result } = twoPurities([pure]);
    const lines = shoppingList(input);
    const leader = lines.find(({ line }) => line.leastAssayPercent === 99);
    const other = lines.find(({ line }) => line.leastAssayPercent === 0);
    if (!leader || !other) throw new Error('two lines');
    expect(chosenOption(leader)).toMatchObject({ cover: { counts: [1], cost: 20 }, need: leader.toBuy + other.toBuy });
    expect(chosenOption(leader)?.cover?.leftOver).toBeCloseTo(49.75 - leader.toBuy - other.toBuy, 4);
    expect(leader.also).toEqual([other.line]);
    expect([chosenOption(other), other.coveredBy]).toEqual([null, leader.line]);
    expect(shoppingTotal(lines)).toEqual({ cost: 20, unknown: 0 });
    expect(supplierTotals(lines)).toMatchObject([{ supplier: 'North', cost: 20 }]);
    const rows = shoppingRows(lines, result, [{ name: 'NORTH', leastOrder: 45 }]);
    const words = [sharedText(leader), sharedText(other)];
    expect(words).toEqual(['covers “benzoin” as well', 'covered by the order for “benzoin at least 99 % w/w”']);
    expect(rows.flat()).toContain(words[1]);
    expect(rows.map((row) => row[rows[0]?.indexOf('least order of the supplier') ?? 0])).toContain(45);
  });

  test('keep an order each, where that costs no more', () => {
    const plain: Pack = { material: 'a', form: neat(98), amount: 25, unit: 'g', price: 2 };
    const lines = shoppingList(twoPurities([{ ...pure, amount: 25 }, plain]).input);
    expect(lines.map((one) => [one.also.length, one.coveredBy, chosenOption(one)?.cover?.cost])).toEqual([
      [0, null, 2],
      [0, null, 20],
    ]);
  });

  test('a weaker one that has no pack of its own could be thinned from what is left over of the stronger, or is on order', () => {
    const acid = (id: string, form: Form) =>
      ({
        do: 'charge',
        id,
        stage: 'reaction',
        material: 'acid',
        rule: { kind: 'equivalents', equivalents: 5 },
        form,
        leastAssayPercent: 0,
      }) as const;
    const steps = (...more: ReturnType<typeof acid>[]) => route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
    const one = steps(acid('strong', percent(60)), acid('weak', percent(20)));
    const strong: Pack = { material: 'acid', form: percent(60), amount: 500, unit: 'g', price: 30 };
    const texts = (packs: readonly Pack[], ordered: readonly Pack[] = [], of = one) => {
      const shelf = { ...EMPTY_SHELF, materials, packs: [...packs] };
      const result = plan({
        route: of,
        ask: { name: 'p', draws: [draw('b', 21.0228)] },
        shelf,
        settings,
        reference,
        asOf: TODAY,
      });
      const onOrder = ordered.map((pack) => ({ pack, count: 2 }));
      const lines = shoppingList({ result, route: of, shelf, settings, reference, onOrder });
      return lines.flatMap((each) => thinnedTexts(each, '.'));
    };
    // 0.5 mol of HNO3 (63.013 g/mol) are 52.5 g of 60 %: one bottle of 500 g leaves enough for as much again.
    const left = '52.5\u00a0g of 60 % w/w, thinned, would do: as much is left over of the order for “nitric acid 60 % w/w”';
    expect(texts([strong])).toEqual([left]);
    expect(texts([{ ...strong, amount: 60 }])).toEqual([]);
    // What is left over of 130 g is promised to one of two that need 52.5 g each.
    const two = steps(acid('strong', percent(60)), acid('weak', percent(20)), acid('weaker', percent(10)));
    expect(texts([{ ...strong, amount: 130 }], [], two)).toHaveLength(1);
    expect(texts([strong], [], two)).toHaveLength(2);
    expect(texts([strong, { ...strong, form: percent(20) }])).toEqual([]);
    expect(texts([], [strong])).toEqual([
      'on order: 2 × 500\u00a0g of 60 % w/w, stronger: what else is not taken of it can be thinned',
    ]);
  });

  test('with the least orders kept: two purities from one supplier, or more than is needed; nothing where they are kept anyhow', () => {
    const plain: Pack = { material: 'a', form: neat(98), amount: 25, unit: 'g', price: 2, supplier: 'South' };
    const { input } = twoPurities([{ ...pure, amount: 25 }, plain]);
    const lines = shoppingList(input);
    // 20 at North and 2 at South. South delivers from 10 on: five bottles there, or a second one at North.
    const within = (leastOrder: number, name = 'south ') => withinLeastOrders(input, lines, [{ name, leastOrder }]);
    expect(within(10)).toMatchObject({ cost: 30, more: 8, doubt: 0 });
    expect(within(30)).toMatchObject({ cost: 40, more: 18, doubt: 0 });
    expect(within(2)).toBeNull();
    const other = within(30)?.lines ?? [];
    expect(shoppingTotal(other)).toEqual({ cost: 40, unknown: 0 });
    expect(other.map((one) => chosenOption(one)?.cover?.counts ?? one.coveredBy?.leastAssayPercent)).toEqual(
      expect.arrayContaining([[2, 0], 99]),
    );
    expect(supplierTotals(other)).toMatchObject([{ supplier: 'North', cost: 40 }]);
    // On the paper as on screen: what it costs, and the packs.
    const least = within(30);
    const paper = buyingPaper({ ...demoContext, result: input.result }, lines, [{ name: 'South', leastOrder: 30 }], least);
    expect(Paper.parse(paper)).toEqual(paper);
    expect(paper.within?.map((line) => line.replaceAll('\u00a0', ' '))).toEqual([
      'With every least order kept, the list costs 40.00: 18.00 more.',
      expect.stringMatching(/^“benzoin.*”: 2 × 25 g, .*North, 20\.00$/),
      'No other choice of these packs and suppliers that keeps them costs less.',
    ]);
    expect(buyingPaper({ ...demoContext, result: input.result }, lines).within).toBeUndefined();
  });

  test('what the list costs without a supplier is known, unless something is only to be had there', () => {
    const plain: Pack = { material: 'a', form: neat(98), amount: 25, unit: 'g', price: 2, supplier: 'South' };
    const { input } = twoPurities([{ ...pure, amount: 25 }, plain]);
    // Two bottles of 25 g at 20 instead of one of each.
    expect(costWithout(input, 'south')).toBe(40);
    expect(costWithout(input, 'North')).toBeNull();
  });
});

test('a pack on order counts once, for the line of the highest purity first', () => {
  // 21.22 g of benzoin as the basis, and as much of at least 99 %: 42.45 g in all; 30 g of 99.5 % (29.85 g) are on order.
  const charge = { do: 'charge', id: 'pure', stage: 'reaction', material: 'a', leastAssayPercent: 99 } as const;
  const one = route(materials, [
    step({ id: '1', basis: 'a', product: 'b', more: [{ ...charge, rule: { kind: 'equivalents', equivalents: 1 } }] }),
  ]);
  const shelf = { ...EMPTY_SHELF, materials };
  const ask = { name: 'p', draws: [draw('b', 21.0228)] };
  const result = plan({ route: one, ask, shelf, settings, reference, asOf: TODAY });
  const pack: Pack = { material: 'a', form: { kind: 'neat', assayPercent: 99.5 }, amount: 30, unit: 'g' };
  const lines = shoppingList({ result, route: one, shelf, settings, reference, onOrder: [{ pack, count: 1 }] });
  const pure = lines.find(({ line }) => line.leastAssayPercent === 99);
  const other = lines.find(({ line }) => line.leastAssayPercent === 0);
  expect(lines).toHaveLength(2);
  expect(pure?.toBuy).toBe(0);
  expect(other?.onOrder).toBeCloseTo(29.85 - 21.225, 2);
  expect(other?.toBuy).toBeCloseTo(2 * 21.225 - 29.85, 2);
});

describe('the shopping list', () => {
  test('least cost from the packs there are, over several suppliers; what is left over and the longest wait', () => {
    const packs: Pack[] = [
      { material: 'a', amount: 5, unit: 'g', price: 9, supplier: 'North', leadDays: 2 },
      { material: 'a', amount: 10, unit: 'g', price: 11, supplier: 'South', leadDays: 9 },
      { material: 'a', amount: 100, unit: 'g', price: 60, supplier: 'North', leadDays: 2 },
    ];
    const line = of(list(packs), 'a');
    expect(line.toBuy).toBeCloseTo(21.225, 2);
    const chosen = chosenOption(line);
    expect(chosen?.cover).toMatchObject({ counts: [1, 2, 0], cost: 31, quantity: 25 });
    expect(chosen?.cover?.leftOver).toBeCloseTo(25 - line.toBuy, 5);
    expect(chosen?.leadDays).toBe(9);
    expect(shoppingTotal(list(packs))).toEqual({ cost: 31, unknown: 1 });
    expect(supplierTotals(list(packs))).toEqual([
      { supplier: 'South', cost: 22, leastOrder: null, below: 0 },
      { supplier: 'North', cost: 9, leastOrder: null, below: 0 },
    ]);
    expect(supplierText(list(packs), ',')).toBe('of it South 22,00, North 9,00');
    const known = [
      { name: 'north ', leastOrder: 30 },
      { name: 'South', leastOrder: 22 },
    ];
    expect(supplierTotals(list(packs), known)).toEqual([
      { supplier: 'South', cost: 22, leastOrder: 22, below: 0 },
      { supplier: 'North', cost: 9, leastOrder: 30, below: 21 },
    ]);
    expect(supplierText(list(packs), '.', known)).toBe('of it South 22.00, North 9.00 (least order 30.00: 21.00 below it)');
  });

  test('an assay is made good: 21.2 g of pure benzoin are more than 21.5 g of one of 98 %', () => {
    const line = of(list([{ material: 'a', form: { kind: 'neat', assayPercent: 98 }, amount: 21.5, unit: 'g', price: 5 }]), 'a');
    expect(line.options[0]?.need).toBeCloseTo(line.toBuy / 0.98, 6);
    expect(chosenOption(line)?.cover?.counts).toEqual([2]);
  });

  test('packs of several assays together, where that costs less: 10 g of 90 % and 12 g of 99 %', () => {
    // 21.225 g pure: 25 g of 90 % hold 22.5 g for 30; 10 g of it 9 g for 9, and 12.5 g of 99 % 12.375 g for 14: 23 in all.
    const packs: Pack[] = [
      { material: 'a', form: neat(90), amount: 10, unit: 'g', price: 9 },
      { material: 'a', form: neat(90), amount: 25, unit: 'g', price: 30 },
      { material: 'a', form: neat(99), amount: 12.5, unit: 'g', price: 14 },
    ];
    const line = of(list(packs), 'a');
    const chosen = chosenOption(line);
    expect(chosen).toMatchObject({ mixed: true, service: 'as asked', cover: { counts: [1, 0, 1], cost: 23, quantity: 21.375 } });
    expect(chosen?.cover?.leftOver).toBeCloseTo(21.375 - line.toBuy, 5);
    // Of one assay alone it would cost more: 27 and 28.
    expect(line.options.slice(1).map((one) => one.cover?.cost)).toEqual([27, 28]);
    expect(optionLines(chosen as never, '.')[0]).toContain('assay 90 % w/w');
  });

  test('by volume and by mass together', () => {
    // 52.51 g of 60 % acid: 38.42 mL of 1.3667 g/mL; 25 mL (34.17 g) and 20 g make 54.17 g.
    const packs: Pack[] = [
      { material: 'acid', form: percent(60), amount: 25, unit: 'mL', price: 4 },
      { material: 'acid', form: percent(60), amount: 20, unit: 'g', price: 1.5 },
    ];
    const chosen = chosenOption(of(list(packs), 'acid'));
    expect(chosen).toMatchObject({ mixed: false, cover: { counts: [3], cost: 4.5 } });
    const dear = packs.map((pack) => (pack.unit === 'g' ? { ...pack, price: 3 } : pack));
    expect(chosenOption(of(list(dear), 'acid'))).toMatchObject({ mixed: true, cover: { counts: [1, 1], cost: 7 } });
  });

  test('a pack in millilitres covers a need in grams by its density', () => {
    // 60 % w/w nitric acid: 1.3667 g/mL at 20 °C (CRC Handbook), so that 52.51 g are 38.4 mL.
    const line = of(list([{ material: 'acid', form: percent(60), amount: 25, unit: 'mL', price: 4 }]), 'acid');
    const needed = line.line.unit === 'g' ? line.toBuy / 1.3667 : line.toBuy;
    expect(line.options[0]?.need).toBeCloseTo(needed, 1);
    expect(line.options[0]?.need).toBeCloseTo(38.4, 0);
    expect(chosenOption(line)?.cover?.counts).toEqual([2]);
  });

  test('another strength is an option with what it changes, never chosen by itself', () => {
    const packs: Pack[] = [
      { material: 'acid', form: percent(68), amount: 100, unit: 'mL', price: 1 },
      { material: 'acid', form: percent(30), amount: 100, unit: 'mL', price: 1 },
      { material: 'acid', form: percent(60), amount: 100, unit: 'mL', price: 20 },
      { material: 'acid', form: { ...percent(60), solvent: 'acetic acid' } as Form, amount: 100, unit: 'mL', price: 1 },
    ];
    const line = of(list(packs), 'acid');
    expect(line.options.map((one) => [one.service, one.formWords])).toEqual([
      ['as asked', '60 % w/w'],
      ['stronger', '68 % w/w'],
      ['other strength', '30 % w/w'],
    ]);
    expect(chosenOption(line)?.cover?.cost).toBe(20);
    const [, stronger, weaker] = line.options;
    // By hand: 31.51 g of HNO3 are 46.33 g of 68 % (14.83 g of water) against 52.51 g of 60 % (21.00 g of water).
    expect(stronger?.change?.moreOthers).toMatchObject({ ok: true });
    expect(stronger?.change?.moreOthers.ok && stronger.change.moreOthers.figure.value).toBeCloseTo(-6.18, 1);
    expect(weaker?.change?.moreOthers.ok && weaker.change.moreOthers.figure.value).toBeCloseTo(52.5, 0);
    expect(weaker?.change?.notes.map((note) => note.code)).toContain('weaker instead');
  });

  test('without prices the least is left over; a pack without a price is left out where others have one, and told', () => {
    const bare: Pack[] = [
      { material: 'a', amount: 50, unit: 'g' },
      { material: 'a', amount: 12, unit: 'g' },
    ];
    expect(chosenOption(of(list(bare), 'a'))?.cover).toMatchObject({ counts: [0, 2], cost: null });
    const mixed = [...bare, { material: 'a', amount: 100, unit: 'g' as const, price: 99 }];
    expect(chosenOption(of(list(mixed), 'a'))).toMatchObject({ cover: { counts: [1], cost: 99 }, unpriced: 2 });
  });

  test('what is on order is not bought twice; what is of another material or strength does not count', () => {
    const pack: Pack = { material: 'a', amount: 10, unit: 'g', price: 4 };
    const line = of(
      list(
        [pack],
        [],
        [
          { pack, count: 2, forPlan: 'another plan' },
          { pack: { material: 'b', amount: 99, unit: 'g' }, count: 9 },
        ],
      ),
      'a',
    );
    expect(line.onOrder).toBe(20);
    // Counted, and said for whom: the packs of an order are held for no plan.
    expect(line.orderedFor).toEqual(['another plan']);
    expect(chosenOption(line)?.cover?.counts).toEqual([1]);
    const all = of(list([pack], [], [{ pack, count: 3 }]), 'a');
    expect([all.toBuy, chosenOption(all)?.cover?.counts]).toEqual([0, [0]]);
  });

  test('no packs known: the line is there, with nothing to choose', () => {
    expect(of(list([]), 'a').options).toEqual([]);
    expect(shoppingTotal(list([])).unknown).toBe(2);
  });
});

describe('chosen by hand', () => {
  const bottle = (id: string, left: number, useBy?: string): Bottle => ({
    id,
    material: 'a',
    form: { kind: 'neat' },
    left,
    unit: 'g',
    ...(useBy ? { useBy } : {}),
  });
  const shares = (ask: object, bottles: readonly Bottle[]) => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b' })]);
    const result = plan({
      route: one,
      ask: { name: 'p', draws: [draw('b', 21.0228)], ...ask },
      shelf: { ...EMPTY_SHELF, materials, bottles: [...bottles] },
      settings,
      reference,
      asOf: TODAY,
    });
    const line = result.fetch.find((each) => each.material === 'a');
    return {
      status: line?.status,
      shares: line?.bottles.map((each) => [each.bottle, Math.round(each.amount * 100) / 100]),
      line,
    };
  };

  test('“use this bottle” goes before first to expire, and before one lot that would suffice', () => {
    const bottles = [bottle('old', 100, '2026-12-01'), bottle('new', 100, '2028-01-01'), bottle('rest', 5)];
    expect(shares({}, bottles).shares).toEqual([['old', 21.22]]);
    expect(shares({ useFirst: ['new'] }, bottles).shares).toEqual([['new', 21.22]]);
    expect(shares({ useFirst: ['rest'] }, bottles).shares).toEqual([
      ['rest', 5],
      ['old', 16.22],
    ]);
  });

  test('a bottle held back is not used, however much it is wanted; past its date neither, and both are said', () => {
    const bottles = [bottle('kept', 100), bottle('late', 100, '2026-01-01'), bottle('plain', 100)];
    const { shares: taken, line } = shares({ useFirst: ['kept', 'late'], holdBack: ['kept'] }, bottles);
    expect(taken).toEqual([['plain', 21.22]]);
    expect(line?.passedOver.map((one) => [one.bottle, one.why])).toEqual([
      ['late', 'out of date'],
      ['kept', 'held back'],
    ]);
  });

  test('it never changes how much is covered: the verdict is the same whatever is used first', () => {
    for (const left of [3, 10, 22, 40]) {
      const bottles = [bottle('x', left), bottle('y', 11), bottle('z', 4)];
      const plain = shares({}, bottles).status;
      for (const useFirst of [['x'], ['y'], ['z'], ['z', 'x']]) expect(shares({ useFirst }, bottles).status).toBe(plain);
    }
  });
});
