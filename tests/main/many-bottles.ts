import { seeded } from '../bench/large-shelf.ts';
import type { ReferenceRows } from '../../src/core/reference-rows.ts';

export const MANY_HEADINGS = [
  'Label',
  'Chemical name',
  'CAS No.',
  'Purity (%)',
  'Concentration',
  'Amount',
  'Location',
  'Lot',
  'Supplier',
  'Expiry date',
  'Remarks',
];

/** Rows of an inventory as a laboratory keeps it in a spreadsheet: tabled materials, some of them solutions. */
export function manyRows(count: number, { materials }: ReferenceRows, seed = 1): string[][] {
  const chance = seeded(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] as T;
  return Array.from({ length: count }, (_, index) => {
    const material = pick(materials);
    const solution = material.suppliedAs === 'solution';
    return [
      `I-${index + 1}`,
      material.name,
      material.cas,
      solution ? '' : pick(['', '98', '99.5', '97 %']),
      solution ? `${pick([5, 10, 12.5])} % w/w` : '',
      `${pick([25, 100, 500])} ${material.state === 'liquid' ? 'mL' : 'g'}`,
      `Room ${pick([1, 2, 3])}, shelf ${pick(['A', 'B', 'C'])}${Math.floor(chance() * 20)}`,
      `L${Math.floor(chance() * 1e6)}`,
      pick(['Anton', 'Berta', '']),
      `${2027 + Math.floor(chance() * 4)}-0${1 + Math.floor(chance() * 9)}-1${Math.floor(chance() * 10)}`,
      pick(['', 'keep dry', '=not a formula', 'a "quoted" word']),
    ];
  });
}
