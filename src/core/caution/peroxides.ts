import { hazardsOf } from '../bench/hazards.ts';
import { partsOf } from '../bench/in-vessel.ts';
import type { Facts } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { ChargePlan } from '../plan/result.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { atomGraph, is, near, type Node } from '../structure/atom-graph.ts';
import type { Notice } from '../words/notice.ts';
import { monthsAfter } from './months.ts';

/** How a material forms peroxides in the air, and how many months an opened bottle is kept. */
export interface PeroxideFormer {
  readonly class: string;
  readonly months: number;
  /** What the class means, in words. */
  readonly words: string;
  readonly source: string;
}

const BY_STATEMENT = 'EUH019, CLP Annex II';
const BY_STRUCTURE = 'by its structure, no list names it';
/** Class of what may form peroxides and stands in no list. */
const UNLISTED = 'D';

/**
 * Whether a material forms peroxides: by the table (CAS number), its statement EUH019, or as an ether with hydrogen beside
 * its oxygen. Null where none of them says so, which is not a proof.
 * Source of classes and months: resources/tables/peroxide-classes.csv.
 */
export const peroxideFormerOf: (facts: Facts, reference: Reference) => PeroxideFormer | null = remember((facts, reference) => {
  const row = facts.cas === null ? undefined : reference.peroxideFormer.get(facts.cas);
  if (row) return former(row.class, row.mark === null ? row.source : `${row.source}, ${row.mark}`, reference);
  if (hazardsOf(facts, NEAT, reference)?.statements.includes('EUH019')) return former(UNLISTED, BY_STATEMENT, reference);
  const ether = facts.smiles !== null && atomGraph(facts.smiles).some(isProneEther);
  return ether ? former(UNLISTED, BY_STRUCTURE, reference) : null;
});

function former(name: string, source: string, reference: Reference): PeroxideFormer | null {
  const row = reference.peroxideClass.get(name);
  return row ? { class: name, months: row.months, words: row.words, source } : null;
}

/** R–O–R′ where a carbon beside the oxygen is saturated, has one or two hydrogens, and is no methyl. */
function isProneEther(node: Node): boolean {
  if (!is('O')(node) || node.to.length !== 2 || !near(node).every(is('C'))) return false;
  if (near(node).some((one) => one.to.some((join) => join.order > 1 && is('O')(join.node)))) return false;
  const prone = (one: Node): boolean =>
    !one.atom.aromatic && one.to.every((join) => join.order === 1) && one.to.length >= 2 && one.to.length <= 3;
  return near(node).some(prone);
}

interface Poured {
  readonly charge: ChargePlan;
  readonly facts: Facts;
  readonly bottles: ReadonlyMap<string, Bottle>;
  /** The day of the plan, ISO. */
  readonly asOf: string;
  readonly reference: Reference;
}

/** What is to be said of the bottles a charge is poured from, where it or its solvent forms peroxides. */
export function peroxideCautions({ charge, facts, bottles, asOf, reference }: Poured): readonly Notice[] {
  const shares = 'bottles' in charge.supply ? charge.supply.bottles : [];
  return partsOf(facts, charge.form, reference).flatMap((part): readonly Notice[] => {
    const peroxides = peroxideFormerOf(part.facts, reference);
    if (!peroxides) return [];
    const values = {
      material: part.name,
      class: peroxides.class,
      months: peroxides.months,
      words: peroxides.words,
      source: peroxides.source,
    };
    if (shares.length === 0) return [{ level: 'assumption', code: 'peroxides: no bottle', values, at: {} }];
    return shares.map(({ bottle }) => ofBottle(bottles.get(bottle), bottle, peroxides, values, asOf));
  });
}

function ofBottle(
  bottle: Bottle | undefined,
  id: string,
  { months }: PeroxideFormer,
  values: Notice['values'],
  asOf: string,
): Notice {
  // Only a test for peroxides says anything of them; what else was done is told of, and counts for nothing here.
  const tested = bottle?.tests?.findLast((one) => one.done === 'peroxides')?.on ?? '';
  const other = bottle?.tests?.findLast((one) => one.done === 'tested' || one.done === 'purified');
  const opened = bottle?.opened ?? '';
  const further = other && other.on > tested ? { otherTest: other.on, done: other.done } : {};
  const named = { ...values, bottle: id, lot: bottle?.lot ?? '', opened, tested, ...further };
  const since = tested > opened ? tested : opened;
  if (since === '') return { level: 'caution', code: 'peroxides: date not known', values: named, at: {} };
  const due = monthsAfter(since, months);
  const overdue = due < asOf;
  return {
    level: overdue ? 'caution' : 'note',
    code: overdue ? 'peroxides: overdue' : 'peroxides: in date',
    values: { ...named, due },
    at: {},
  };
}
