// A route whose charges meet every state a line of the fetch list can have, with the shelf that brings it about.
import type { Form } from '../../src/core/matter/form.ts';
import type { Operation, Route } from '../../src/core/route/route.ts';
import type { Bottle, Shelf } from '../../src/core/shelf/shelf.ts';
import type { Opened } from './window.ts';

const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
const charge = (id: string, material: string, equivalents: number, more: Partial<Operation> = {}): Operation =>
  ({ do: 'charge', id, stage: 'reaction', material, rule: { kind: 'equivalents', equivalents }, ...more }) as Operation;

const materials: Route['materials'] = {
  acid: { name: 'benzoic acid', formula: 'C7H6O2', cas: '65-85-0', state: 'solid' },
  ester: { name: 'methyl benzoate', formula: 'C8H8O2', cas: '93-58-3', state: 'liquid' },
  salt: { name: 'sodium chloride', formula: 'NaCl', cas: '7647-14-5', state: 'solid' },
  lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2', state: 'solid' },
  vitriol: { name: 'sulfuric acid', formula: 'H2SO4', cas: '7664-93-9', state: 'liquid' },
  soda: { name: 'sodium carbonate', formula: 'Na2CO3', cas: '497-19-8', state: 'solid' },
  citric: { name: 'citric acid', formula: 'C6H8O7', cas: '77-92-9', state: 'solid' },
  hydrochloric: { name: 'hydrochloric acid', formula: 'HCl', cas: '7647-01-0' },
  benzoin: { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9', state: 'solid' },
  urea: { name: 'urea', formula: 'CH4N2O', cas: '57-13-6', state: 'solid' },
};

const route: Route = {
  backweigh: 'route',
  version: 1,
  name: 'Every state of the shelf',
  materials,
  steps: [
    {
      id: 'one',
      title: 'A step that asks for much',
      equation: {
        uses: [{ material: 'acid', coefficient: 1 }],
        makes: [{ material: 'ester', coefficient: 1 }],
      },
      basis: 'acid',
      product: 'ester',
      yieldPercent: 80,
      operations: [
        { do: 'charge', id: 'c1', stage: 'reaction', material: 'acid', rule: { kind: 'basis' } },
        charge('salt', 'salt', 1),
        charge('weak', 'lye', 1, { form: percent(10) } as never),
        charge('strong', 'lye', 1, { form: percent(20) } as never),
        charge('vitriol', 'vitriol', 1, { form: percent(20) } as never),
        charge('soda', 'soda', 1),
        charge('citric', 'citric', 1),
        charge('hydrochloric', 'hydrochloric', 1, { form: percent(20) } as never),
        charge('benzoin', 'benzoin', 0.2, { leastAssayPercent: 99 } as never),
        charge('urea', 'urea', 2),
      ],
    },
  ],
};

const bottle = (id: string, material: string, left: number, form: Form, more: Partial<Bottle> = {}): Bottle => ({
  id,
  material,
  left,
  unit: 'g',
  form,
  lot: `L-${id}`,
  place: material === 'vitriol' || material === 'lye' ? 'corrosives' : 'solids C2',
  ...more,
});
const NEAT: Form = { kind: 'neat' };
const PAST = { useBy: '2025-03-31' };

// 0.25 mol of product at 80 % start from 0.3125 mol.
const bottles: readonly Bottle[] = [
  bottle('T1', 'acid', 500, NEAT),
  bottle('T2', 'salt', 12, NEAT, { useBy: '2030-01-31' }),
  bottle('T3', 'salt', 80, NEAT),
  bottle('T4', 'lye', 9, NEAT, { useBy: '2030-01-31' }),
  bottle('T5', 'lye', 40, percent(50)),
  bottle('T6', 'vitriol', 200, percent(96)),
  bottle('T7', 'soda', 60, NEAT, { heldBack: true }),
  bottle('T8', 'soda', 5, NEAT),
  bottle('T9', 'citric', 80, NEAT, PAST),
  bottle('T10', 'hydrochloric', 100, { kind: 'unknown' }),
  bottle('T11', 'benzoin', 40, { kind: 'neat', assayPercent: 97 }, PAST),
  bottle('T12', 'urea', 20, NEAT, PAST),
  bottle('T13', 'urea', 15, NEAT, { heldBack: true }),
];

const shelf: Shelf = { backweigh: 'shelf', version: 1, materials, bottles: [...bottles] };

/** Brings route and shelf in and makes a plan of them; gives its id. */
export async function everyState({ call }: Pick<Opened, 'call'>): Promise<number> {
  // What the example's shelf has of them is thrown away first.
  for (const { id, left } of (await call('shelf.snapshot', { materials: Object.values(materials) })).bottles) {
    await call('shelf.move', { id, kind: 'discarded', change: -left, reason: 'for this test' });
  }
  await call('shelf.import', { text: JSON.stringify(shelf) });
  const { id } = await call('routes.import', { text: JSON.stringify(route) });
  const draws = [{ id: 'd', material: 'ester', amount: 0.25, unit: 'mol' as const, purpose: 'a test' }];
  return (await call('plans.create', { routeId: id, ask: { name: 'Every state', draws } })).id;
}
