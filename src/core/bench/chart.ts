import type { Facts } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import { compatibilityKey, type Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { hazardsOf } from './hazards.ts';
import { type Nature, natureOf } from './nature.ts';
import { structureGroups } from './structure-groups.ts';

/** What the chart says of two groups that meet. */
export interface ChartPair {
  /** Numbers in the chart, in the order asked. */
  readonly groups: readonly [one: number, other: number];
  /** Codes of the chart: H heat, F fire, G gas, GT poisonous gas, GF burning gas, E explosion, P polymerisation, U unknown. */
  readonly gives: readonly string[];
  readonly fromMemory: boolean;
}

const ACIDS = new Set(['acid', 'strong acid']);
const [MINERAL_ACID, ORGANIC_ACID, OXIDISER, WATER] = [1, 3, 104, 106] as const;
/** The chart's group of what reacts with water. */
export const WATER_REACTIVE = 107;
/** Statements that place a material whatever its structure; CLP Annex III. */
const BY_STATEMENT: readonly (readonly [RegExp, number])[] = [
  [/^(H26[01]|EUH014)$/, WATER_REACTIVE],
  [/^H27[012]$/, OXIDISER],
  [/^(H20[0-5]|H24[01])$/, 102],
];

/**
 * Groups of the compatibility chart a material belongs to, by number: from the reactivity table, its hazard statements
 * and its structure. None found is not a proof that it belongs to none.
 * Source of the groups: EPA-600/2-80-076, "A Method for Determining the Compatibility of Hazardous Wastes" (1980).
 */
export const chartGroupsOf: (facts: Facts, reference: Reference) => readonly number[] = remember((facts, reference) => {
  const nature = natureOf(facts, reference);
  const statements = hazardsOf(facts, NEAT, reference)?.statements ?? [];
  const structured = structureGroups(facts, reference);
  return [
    ...new Set([
      ...nature.groups.flatMap((group) => groupNumber(group, nature, reference)),
      ...BY_STATEMENT.filter(([pattern]) => statements.some((code) => pattern.test(code)))
        .map(([, group]) => group)
        // An oxidising acid has a group of its own in the chart.
        .filter((group) => group !== OXIDISER || !nature.groups.includes('oxidising acid')),
      // What reacts with water as a whole, or is an acid as a whole, is not looked at by its parts.
      ...structured.filter((group) => group >= 100 || !nature.groups.includes('oxidising acid')),
      ...(nature.water ? [WATER] : []),
      ...(nature.ammonia ? [7] : []),
    ]),
  ];
});

function groupNumber(group: string, nature: Nature, reference: Reference): readonly number[] {
  if (ACIDS.has(group)) {
    if (nature.groups.includes('oxidising acid')) return [];
    return [nature.organic ? ORGANIC_ACID : MINERAL_ACID];
  }
  const found = reference.chartGroups.get(group);
  return found === undefined ? [] : [found];
}

/** What a water-reactive material must not meet here, though the chart says "anything": what gives up a proton. */
const PROTONS = new Set([1, 2, 3, 4, 7, 10, 31, WATER]);

/** What the chart has for two materials: a line for each pair of their groups that is not blank. A blank proves nothing. */
export function chartPairs(one: readonly number[], other: readonly number[], reference: Reference): readonly ChartPair[] {
  return one.flatMap((first) =>
    other.flatMap((second): readonly ChartPair[] => {
      const groups = [first, second] as const;
      if (first === WATER_REACTIVE || second === WATER_REACTIVE) {
        const partner = first === WATER_REACTIVE ? second : first;
        return PROTONS.has(partner) ? [{ groups, gives: ['H', 'X'], fromMemory: false }] : [];
      }
      // Acid and water have an order, said apart.
      if (Math.max(first, second) === WATER && Math.min(first, second) <= 2) return [];
      const row = reference.compatibility.get(compatibilityKey(first, second));
      return row && first !== second ? [{ groups, gives: row.gives, fromMemory: row.mark === 'from memory' }] : [];
    }),
  );
}
