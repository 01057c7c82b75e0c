import * as fc from 'fast-check';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import type { ShelfOrder } from '../../src/core/shelf/order.ts';
import type { Pack, Supplier } from '../../src/core/shelf/pack.ts';
import type { Bottle, Shelf } from '../../src/core/shelf/shelf.ts';

/** Texts that a table can go wrong about: formulas, quotes, separators, blanks at the ends, what XML cannot hold. */
const AWKWARD = [
  '=1+1',
  '+1',
  '-x',
  '@x',
  "'=x",
  "''",
  "'",
  ' x ',
  'a"b',
  '"',
  'a,b;c',
  'µL',
  '1,234',
  '0012',
  'none',
  String.raw`\none`,
  String.raw`a\;b`,
  '_x0041_',
  '<b>&amp;',
  '真',
  '😀',
  'é',
  'TRUE',
  '1e5',
  '2027-03-04',
  '\uffff',
  '#N/A',
];
const legal = (text: string): boolean => !/\p{Cc}|[\u202A-\u202E\u2066-\u2069]|\p{Surrogate}/u.test(text);
export const text = fc.oneof(
  fc.constantFrom(...AWKWARD),
  fc.string({ unit: 'grapheme', minLength: 1, maxLength: 12 }).filter(legal),
  fc.string({ unit: 'binary', minLength: 1, maxLength: 6 }).filter(legal),
);
const longText = fc.oneof(text, fc.constantFrom('\n=x', 'a\r\nb', 'a\rb', '\tx', 'a\nb\n', '\r'));
const day = fc
  .integer({ min: 0, max: 20_000 })
  .map((days) => new Date(Date.UTC(2000, 0, 1) + days * 86_400_000).toISOString().slice(0, 10));
const positive = (max: number): fc.Arbitrary<number> =>
  fc.double({ min: 1e-9, max, noNaN: true, noDefaultInfinity: true }).filter((one) => one > 0);
/** Nothing lighter than this is a solid or a liquid, so that no strength here is beyond its pure material. */
const dense = fc.double({ min: 0.2, max: 22, noNaN: true });
const maybe = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(one, { nil: undefined });
const record = <T extends object>(shape: { readonly [K in keyof T]-?: fc.Arbitrary<T[K] | undefined> }): fc.Arbitrary<T> =>
  fc
    .record(shape as { [K in keyof T]: fc.Arbitrary<T[K]> })
    .map((one) => Object.fromEntries(Object.entries(one).filter(([, value]) => value !== undefined)) as T);

const density = record<NonNullable<Extract<Form, { kind: 'neat' }>['density']>>({
  gramsPerMillilitre: dense,
  celsius: fc.double({ min: -100, max: 400, noNaN: true }).map((one) => one + 0),
  source: maybe(text),
});
const strength = fc.oneof(
  fc.record({ value: positive(100), basis: fc.constantFrom('% w/w', '% v/v', 'mol/kg') }),
  fc.record({ value: positive(0.01), basis: fc.constantFrom('mol/L', 'g/L', '% w/v') }),
  fc.record({
    value: positive(0.01),
    basis: fc.constant('eq/L'),
    equivalentsPerMole: fc.integer({ min: 1, max: 400 }).map((n) => n / 4),
  }),
);
const form: fc.Arbitrary<Form> = fc.oneof(
  record<Form>({ kind: fc.constant('neat'), assayPercent: maybe(positive(100)), density: maybe(density) } as never),
  record<Form>({
    kind: fc.constant('neat'),
    assayPercent: maybe(positive(100)),
    assayOn: fc.constant('anhydrous'),
    density: maybe(density),
  } as never),
  fc
    .record({ strength, titrated: maybe(day), solvent: maybe(text), density: maybe(density) })
    .map(({ strength: has, titrated, solvent, density: of }) => ({
      kind: 'solution' as const,
      strength: { ...has, ...(titrated === undefined ? {} : { titrated }) } as never,
      ...(solvent === undefined ? {} : { solvent }),
      ...(of === undefined ? {} : { density: of }),
    })),
  record<Form>({ kind: fc.constant('unknown'), solvent: maybe(text) } as never),
);

const pKa = fc.integer({ min: -2000, max: 5000 }).map((one) => one / 100);
const acidity = fc
  .array(pKa, { maxLength: 4 })
  .chain((list) => fc.record({ pKa: fc.constant(list), protons: fc.integer({ min: 0, max: list.length }) }));
const material: fc.Arbitrary<Material> = record<Material>({
  // Some end in a number, as the keys of a file do.
  name: fc.oneof(
    text.map((name) => `X ${name}`),
    fc.stringMatching(/^X[ !-]{0,2}[0-5]?$/),
  ),
  formula: maybe(fc.constantFrom('C14H10O2', 'CuSO4·5H2O', 'H2SO4', 'no formula')),
  cas: maybe(fc.constantFrom('999-00-8', '1234567-89-5')),
  smiles: fc.constant(undefined),
  synonyms: maybe(fc.array(text, { maxLength: 3 })),
  state: maybe(fc.constantFrom('solid', 'liquid', 'gas')),
  density: maybe(
    record<NonNullable<Material['density']>>({
      gramsPerMillilitre: dense,
      celsius: maybe(fc.constantFrom(20, 25.5, -10)),
      source: maybe(text),
    }),
  ),
  solidDensity: maybe(dense),
  utility: maybe(fc.boolean()),
  hazards: maybe(fc.subarray(['H225', 'H314', 'H302+H312', 'EUH066'].filter((one) => !one.includes('+')))),
  acidity: maybe(acidity),
  note: maybe(longText),
});
const test = record<NonNullable<Bottle['tests']>[number]>({
  done: fc.constantFrom('tested', 'purified', 'titrated'),
  on: day,
  before: form,
  form,
  useByBefore: maybe(day),
  useBy: maybe(day),
  remark: maybe(text),
});
const bottle = (materials: readonly string[], id: string): fc.Arbitrary<Bottle> =>
  record<Bottle>({
    id: fc.constant(id),
    material: fc.constantFrom(...materials),
    form,
    left: fc.integer({ min: 0, max: 5_000_000_000 }).map((grains) => grains / 1e6),
    unit: fc.constantFrom('g', 'mL'),
    lot: maybe(text),
    place: maybe(text),
    supplier: maybe(text),
    received: maybe(day),
    opened: maybe(day),
    useBy: maybe(day),
    heldBack: maybe(fc.constant(true)),
    note: maybe(longText),
    tare: maybe(fc.integer({ min: 1, max: 5_000_000_000 }).map((grains) => grains / 1e6)),
    waterPercent: maybe(fc.double({ min: 0, max: 100, noNaN: true }).map((one) => one + 0)),
    price: maybe(fc.double({ min: 0, max: 1e6, noNaN: true }).map((one) => one + 0)),
    ledger: fc.constant(undefined),
    tests: maybe(fc.array(test, { minLength: 1, maxLength: 2 })),
  });

/** An assay without its water needs the water found, and is none of a hydrate's. */
function dried(one: Bottle, of: Material | undefined): Bottle {
  if (one.form.kind !== 'neat' || one.form.assayOn === undefined) return one;
  const { assayOn: _twice, ...asItIs } = one.form;
  if (of?.formula?.includes('·')) return { ...one, form: asItIs };
  return { ...one, waterPercent: (one.waterPercent ?? 12.5) % 100 };
}

const pack = (materials: readonly string[]): fc.Arbitrary<Pack> =>
  record<Pack>({
    material: fc.constantFrom(...materials),
    form: maybe(form),
    amount: fc.integer({ min: 1, max: 5_000_000_000 }).map((grains) => grains / 1e6),
    unit: fc.constantFrom('g', 'mL'),
    supplier: maybe(text),
    price: maybe(fc.double({ min: 0, max: 1e6, noNaN: true }).map((one) => one + 0)),
    leadDays: maybe(fc.integer({ min: 0, max: 3650 })),
    minimum: maybe(fc.integer({ min: 2, max: 10_000 })),
  });
const supplier: fc.Arbitrary<Supplier> = fc.record({
  name: fc.stringMatching(/^[A-Z][a-z]{3,8}( Ltd)?$/),
  leastOrder: positive(1e6),
});
const moment = fc.integer({ min: 0, max: 2e9 }).map((ms) => new Date(1.8e12 + ms).toISOString());
type OrderEvent = NonNullable<ShelfOrder['events']>[number];
const event = record<OrderEvent>({
  kind: fc.constantFrom('received', 'cancelled'),
  count: fc.integer({ min: 1, max: 5 }),
  reason: maybe(text),
  at: moment,
  takenBack: maybe(moment),
  bottles: fc.constant(undefined),
});

/** Orders of which no more came than was ordered, and bottles that came of some of them. */
const orders = (materials: readonly string[], labels: readonly string[]): fc.Arbitrary<readonly ShelfOrder[]> =>
  fc
    .array(
      fc.record({
        of: pack(materials),
        events: fc.array(event, { maxLength: 3 }),
        note: maybe(text),
        forPlan: maybe(text),
        at: moment,
      }),
      { maxLength: 3 },
    )
    .map((all) => {
      const free = [...labels];
      return all.map(({ of: { material: holds, ...offer }, events, note, forPlan, at }) => ({
        material: holds,
        pack: offer,
        count: 1 + events.reduce((sum, one) => sum + one.count, 0),
        ...(note === undefined ? {} : { note }),
        at,
        ...(forPlan === undefined ? {} : { forPlan }),
        ...(events.length === 0 ? {} : { events: events.map((one) => withBottles(one, free)) }),
      }));
    });

function withBottles(one: OrderEvent, free: string[]): OrderEvent {
  if (one.kind === 'cancelled' || one.takenBack !== undefined) return one;
  const bottles = free.splice(0, one.count);
  return bottles.length === 0 ? one : { ...one, bottles };
}

/** Any shelf a person could have, with what tables find hard in every text of it. */
export const shelves: fc.Arbitrary<Shelf> = fc
  .tuple(fc.array(material, { minLength: 1, maxLength: 4 }), fc.uniqueArray(text, { minLength: 1, maxLength: 6 }))
  .chain(([materials, labels]) => {
    const keys = materials.map((_, index) => `m${index}`);
    return fc
      .tuple(
        fc.tuple(...labels.map((label) => bottle(keys, label))),
        fc.array(pack(keys), { maxLength: 3 }),
        fc.uniqueArray(supplier, { maxLength: 2, selector: ({ name }) => name.toLowerCase() }),
        orders(keys, labels),
      )
      .map(([bottles, packs, suppliers, ordered]) => ({
        backweigh: 'shelf' as const,
        version: 1 as const,
        materials: Object.fromEntries(materials.map((one, index) => [`m${index}`, one])),
        bottles: bottles.map((one) => dried(one, materials[keys.indexOf(one.material)])),
        ...(packs.length === 0 ? {} : { packs }),
        ...(suppliers.length === 0 ? {} : { suppliers }),
        ...(ordered.length === 0 ? {} : { orders: [...ordered] }),
      }));
  });
