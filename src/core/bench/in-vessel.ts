import { hydrolysisOf } from '../matter/acidity.ts';
import { type Facts, factsOf } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { hydrateOf } from '../matter/hydrate.ts';
import { solventFacts } from '../matter/named.ts';
import type { Reference } from '../reference.ts';
import type { HydrolysisRow } from '../reference-rows.ts';
import { remember, rememberLast } from '../remember.ts';
import type { Charge, Removal, Step } from '../route/route.ts';
import { formWords } from '../words/form-words.ts';
import { chartGroupsOf } from './chart.ts';
import { isStrongAcid, natureOf } from './nature.ts';
import { type Phase, phaseOf } from './phase.ts';
import { reactionStart } from './reaction-start.ts';
import { keptOf, type Takeable } from './taken.ts';

/** Below this part of what was charged a material counts as washed out, though traces are still warned of. */
export const WASHED_OUT = 0.1;

/** One substance of a charge: the active material, or the solvent it comes in. */
export interface Part {
  readonly name: string;
  readonly facts: Facts;
}

/**
 * Something that is or was in the vessel. What the reaction uses up stays here: how much of it is left is not known
 * before the work is done, and none is not assumed.
 */
export interface Present {
  /** Key in the route; "freed: name" for what the route does not name. */
  readonly material: string;
  readonly parts: readonly [Part, ...Part[]];
  readonly form: Form;
  /** Part of it that the removals left, 0 … 1. */
  readonly fraction: number;
  readonly how: 'charged' | 'formed' | 'freed';
  /** Where it lies, as a removal sees it. */
  readonly liquid: boolean;
  readonly layer: Phase;
}

export interface VesselContext {
  readonly step: Step;
  readonly facts: ReadonlyMap<string, Facts>;
  /** The form each charge is taken in. */
  readonly formOf: (charge: Charge) => Form;
  readonly reference: Reference;
}

/** What one material turns into or frees when it meets another. */
export interface Frees {
  readonly from: Part;
  readonly with: Part;
  readonly rows: readonly HydrolysisRow[];
}

/** What is in the vessel before an operation, and what a charge frees as it meets it. */
export interface InVessel {
  readonly before: readonly Present[];
  readonly frees: readonly Frees[];
  /** True where the last reactant of the equation goes in: the products form from here on. */
  readonly reacts: boolean;
}

/**
 * Remembers what follows from what a step puts together, whatever the amounts: it stays the same while its charges are
 * taken in the same forms.
 */
export function rememberMeetings<T>(work: (context: VesselContext) => T): (context: VesselContext) => T {
  const known = rememberLast(
    (step: Step, facts: VesselContext['facts'], reference: Reference, forms: readonly (Form | null)[]) => {
      const formOf = new Map(step.operations.map(({ id }, at) => [id, forms[at] ?? NEAT]));
      return work({ step, facts, reference, formOf: ({ id }) => formOf.get(id) ?? NEAT });
    },
  );
  return ({ step, facts, reference, formOf }) =>
    known(
      step,
      facts,
      reference,
      step.operations.map((one) => (one.do === 'charge' ? formOf(one) : null)),
    );
}

/** Goes through a step's operations: by what is charged, formed, freed and taken out, without amounts. */
export const inVessel = rememberMeetings((context): readonly InVessel[] => {
  const { step } = context;
  const reactsAt = reactionStart(context)?.id ?? null;
  const found: InVessel[] = [];
  let now: readonly Present[] = [];
  for (const operation of step.operations) {
    const before = now;
    const reacts = operation.id === reactsAt;
    const own = operation.do === 'charge' ? charged(operation, context) : null;
    const frees = own ? freed(own, before, context.reference) : [];
    found.push({ before, frees, reacts });
    if (own) now = put(now, [own, ...frees.flatMap((one) => left(one, context)), ...(reacts ? formed(context) : [])]);
    if (operation.do === 'removal') now = removed(now, operation, step);
  }
  return found;
});

/** A charge as it goes in, with the solvent it comes in. */
export function charged(charge: Charge, { facts, formOf, reference }: VesselContext): Present | null {
  const one = facts.get(charge.material);
  if (!one) return null;
  const form = formOf(charge);
  return present(charge.material, partsOf(one, form, reference), form, 'charged', reference);
}

function present(material: string, parts: Present['parts'], form: Form, how: Present['how'], reference: Reference): Present {
  const { facts } = parts[0];
  const liquid = form.kind === 'solution' || facts.state === 'liquid';
  return { material, parts, form, fraction: 1, how, liquid, layer: phaseOf(facts, form, reference) };
}

const waterFacts = rememberLast((reference: Reference) => factsOf({ name: 'water', cas: '7732-18-5' }, reference));

/** The substances a material at its strength is made of; the water of a hydrate is water to what must stay dry. */
export function partsOf(facts: Facts, form: Form, reference: Reference): readonly [Part, ...Part[]] {
  const active: Part = { name: facts.name, facts };
  if (form.kind !== 'solution' && hydrateOf(facts, reference)) {
    const water = waterFacts(reference);
    return [active, { name: `${water.name} (of the ${facts.name})`, facts: water }];
  }
  const solvent = solventFacts(form, reference);
  return solvent ? [active, { name: `${solvent.name} (of the ${facts.name})`, facts: solvent }] : [active];
}

function put(now: readonly Present[], more: readonly Present[]): readonly Present[] {
  const named = new Map(now.map((one) => [one.material, one]));
  // What is there and comes again is there as a whole; in two forms, its strength is not known.
  for (const one of more) {
    const there = named.get(one.material);
    const form: Form = there && formWords(there.form) !== formWords(one.form) ? { kind: 'unknown' } : one.form;
    named.set(one.material, there ? { ...there, form, fraction: 1, parts: withParts(there, one) } : one);
  }
  return [...named.values()];
}

function withParts(there: Present, one: Present): Present['parts'] {
  const names = new Set(there.parts.map((part) => part.name));
  return [...there.parts, ...one.parts.filter((part) => !names.has(part.name))] as [Part, ...Part[]];
}

function formed({ step, facts, reference }: VesselContext): readonly Present[] {
  return step.equation.makes.flatMap(({ material, gas }): readonly Present[] => {
    const one = facts.get(material);
    if (!one || gas) return [];
    return [present(material, [{ name: one.name, facts: one }], NEAT, 'formed', reference)];
  });
}

/** What stays of what is freed: no gas, but the acids among them, which dissolve. */
function left({ rows }: Frees, { reference }: VesselContext): readonly Present[] {
  return rows.flatMap((row): readonly Present[] => {
    const one = factsOf({ name: row.makes, cas: row.makesCas }, reference);
    if (row.gas && !isStrongAcid(natureOf(one, reference))) return [];
    const part = { name: row.makes, facts: one };
    return [present(`freed: ${row.makes}`, [part], NEAT, 'freed', reference)];
  });
}

function freed(own: Present, before: readonly Present[], reference: Reference): readonly Frees[] {
  const there = before.flatMap((one) => (one.fraction > WASHED_OUT && one.material !== own.material ? one.parts : []));
  return own.parts.flatMap((part) =>
    there.flatMap((other) => [...freesOf(part, other, reference), ...freesOf(other, part, reference)]),
  );
}

/** Asked for at every keystroke, of every pair. */
const rowsOf = remember(hydrolysisOf);

function freesOf(one: Part, other: Part, reference: Reference): readonly Frees[] {
  const known = rowsOf(one.facts, reference);
  if (known.length === 0) return [];
  const rows = known.filter((row) => isPartner(other.facts, row.meets, reference));
  return rows.length === 0 ? [] : [{ from: one, with: other, rows }];
}

const [LAST_ACID, CAUSTIC] = [3, 10] as const;

function isPartner(facts: Facts, meets: HydrolysisRow['meets'], reference: Reference): boolean {
  if (meets === 'water') return natureOf(facts, reference).water;
  return chartGroupsOf(facts, reference).some((group) => (meets === 'acid' ? group <= LAST_ACID : group === CAUSTIC));
}

function removed(now: readonly Present[], removal: Removal, step: Step): readonly Present[] {
  return now.map((one) => {
    const kept = keptOf(removal.takes, takeable(one, step));
    return kept === 1 ? one : { ...one, fraction: one.fraction * kept };
  });
}

/** Something in the vessel as a removal sees it. The basis stands for the product it turns into. */
export function takeable({ material, liquid, layer }: Present, step: Step): Takeable {
  return { material, liquid, layer, product: material === step.basis || material === step.product };
}
