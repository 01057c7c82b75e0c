import { describe, expect, test } from 'vitest';
import { chosenOption, shoppingList, shoppingTotal } from '../../src/core/buy/shopping.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { type Bottle, EMPTY_SHELF, type Pack } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' }, solvent: 'water' });

const materials = {
  a: { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9' },
  b: { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6' },
  acid: { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2' },
};

/** 21.22 g of benzoin (0.1 mol) and 0.5 mol of nitric acid as 60 % w/w: 52.51 g. */
function list(packs: readonly Pack[], bottles: readonly Bottle[] = [], onOrder: { pack: Pack; count: number }[] = []) {
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
  });

  test('an assay is made good: 21.2 g of pure benzoin are more than 21.5 g of one of 98 %', () => {
    const line = of(list([{ material: 'a', form: { kind: 'neat', assayPercent: 98 }, amount: 21.5, unit: 'g', price: 5 }]), 'a');
    expect(line.options[0]?.need).toBeCloseTo(line.toBuy / 0.98, 6);
    expect(chosenOption(line)?.cover?.counts).toEqual([2]);
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
          { pack, count: 2 },
          { pack: { material: 'b', amount: 99, unit: 'g' }, count: 9 },
        ],
      ),
      'a',
    );
    expect(line.onOrder).toBe(20);
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
