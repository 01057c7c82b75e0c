import { acidityOf } from '../matter/acidity.ts';
import { type Facts, foldName } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { dissolvedIn } from '../matter/solution-parts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Removal, Step, Term } from '../route/route.ts';
import { natureOf } from './nature.ts';
import { layerOf, type Phase, phaseOf } from './phase.ts';
import { isBeforeStart } from './reaction-start.ts';
import { shareInWater } from './salt-share.ts';
import { keptOf } from './taken.ts';

/** One material in one phase of the vessel. Null: not known, never none. */
export interface Content {
  /** Key in the route; "solvent: name" for a solvent the route does not name. */
  readonly material: string;
  readonly facts: Facts;
  readonly phase: Phase;
  readonly moles: Figure<'mol'> | null;
  readonly grams: number | null;
  readonly millilitres: number | null;
}

/** What is in the vessel, by material and phase. */
export type Contents = readonly Content[];

/** A vessel with nothing in it. */
export const NOTHING: Contents = [];

export interface ContentsContext {
  readonly step: Step;
  /** By the route's key of a material. */
  readonly facts: ReadonlyMap<string, Facts>;
  readonly reference: Reference;
}

/** A charge as it goes in: contained moles, grams and millilitres as supplied. */
export interface Charged {
  readonly material: string;
  readonly facts: Facts;
  readonly form: Form;
  readonly moles: Figure<'mol'> | null;
  readonly grams: number | null;
  readonly millilitres: number | null;
}

/** The vessel with a charge in it: a solution as its solute and its solvent, whose volumes go by their masses. */
export function withCharge(contents: Contents, charge: Charged, context: ContentsContext): Contents {
  const { material, facts, form, moles, grams, millilitres } = charge;
  const phase = phaseOf(facts, form, context.reference, grams === null && millilitres !== null);
  if (form.kind !== 'solution') return settle(add(contents, { material, facts, phase, moles, grams, millilitres }), context);
  const solute = moles && facts.molarMass ? moles.value * facts.molarMass.value : null;
  const rest = grams === null || solute === null ? null : Math.max(0, grams - solute);
  const share = grams && solute !== null ? Math.min(1, solute / grams) : 0;
  const room = (part: number): number | null => (millilitres === null ? null : millilitres * part);
  const dissolved = { material, facts, phase, moles, grams: solute, millilitres: room(share) };
  const solvent = solventOf(form, context);
  const water = rest === null ? null : molesOf(solvent.facts, rest, moles);
  const around = { ...solvent, phase, moles: water, grams: rest, millilitres: room(1 - share) };
  return settle(add(add(contents, dissolved), around), context);
}

/** The solvent of a solution, under the key the route has for it. */
function solventOf(form: Form & { kind: 'solution' }, context: ContentsContext): { material: string; facts: Facts } {
  const facts = dissolvedIn(form, context.reference);
  for (const [material, one] of context.facts) {
    const same = one.cas !== null && facts.cas !== null ? one.cas === facts.cas : foldName(one.name) === foldName(facts.name);
    if (same || (natureOf(one, context.reference).water && natureOf(facts, context.reference).water))
      return { material, facts: one };
  }
  return { material: `solvent: ${facts.name}`, facts };
}

function molesOf(facts: Facts, grams: number, from: Figure | null): Figure<'mol'> | null {
  if (!facts.molarMass) return null;
  const how = 'mass that is not solute ÷ molar mass';
  return computed(
    `${facts.name}, moles`,
    grams / facts.molarMass.value,
    'mol',
    how,
    from ? [from, facts.molarMass] : [facts.molarMass],
  );
}

function add(contents: Contents, one: Content): Contents {
  const at = contents.findIndex((other) => other.material === one.material && other.phase === one.phase);
  const there = contents[at];
  if (!there) return [...contents, one];
  return contents.with(at, {
    ...there,
    moles: sumOf(there.moles, one.moles),
    grams: plus(there.grams, one.grams),
    millilitres: plus(there.millilitres, one.millilitres),
  });
}

function plus(one: number | null, other: number | null): number | null {
  return one === null || other === null ? null : one + other;
}

function sumOf(one: Figure<'mol'> | null, other: Figure<'mol'> | null): Figure<'mol'> | null {
  if (!one || !other) return null;
  if (one.value === 0) return other;
  return computed(one.label, one.value + other.value, 'mol', 'charged together', [one, other]);
}

/** What the table calls soluble dissolves where there is water, and lies dry where there is none left. */
function settle(contents: Contents, { reference }: ContentsContext): Contents {
  const wet = contents.some((one) => one.phase === 'aqueous' && natureOf(one.facts, reference).water && one.grams !== 0);
  const moved = contents.map((one): Content => {
    if (wet && (one.phase === 'solid' || one.phase === 'gas')) {
      return acidityOf(one.facts, reference)?.dissolves ? { ...one, phase: 'aqueous' } : one;
    }
    return !wet && one.phase === 'aqueous' && one.facts.state === 'solid' ? { ...one, phase: 'solid' } : one;
  });
  return moved.some((one, at) => one !== contents[at]) ? moved.reduce<Contents>(add, NOTHING) : contents;
}

export interface Reacted {
  readonly contents: Contents;
  /** mol of reaction by the equation that took place now. */
  readonly extent: number;
  /** Gases of the equation that left, by key. */
  readonly freed: ReadonlyMap<string, Figure<'mol'>>;
}

/**
 * The equation, as far as what is in the vessel goes: nothing until the last reactant that the step charges is in, then
 * all the way to the first that is used up. Full conversion is an assumption to be said; a reactant that is never
 * charged (air) or whose moles are not known does not limit. Gases of the equation leave. @param operation id of what was done; left out, the charges alone decide.
 */
export function react(contents: Contents, context: ContentsContext, operation?: string): Reacted {
  const { step } = context;
  const never = { contents, extent: 0, freed: new Map<string, Figure<'mol'>>() };
  if (operation !== undefined && isBeforeStart(operation, context)) return never;
  const uses = step.equation.uses.filter(({ material }) => comesIn(material, step) || amountIn(contents, material).length > 0);
  if (uses.some(({ material }) => amountIn(contents, material).length === 0)) return never;
  const extents = uses.flatMap((term) => {
    const all = amountIn(contents, term.material).map((one) => one.moles);
    return all.every((one) => one !== null) ? [all.reduce((sum, one) => sum + one.value, 0) / term.coefficient] : [];
  });
  const extent = Math.min(...extents);
  if (!(extent > 0) || !Number.isFinite(extent)) return never;
  let left = contents;
  const of: Figure[] = [];
  for (const term of uses) {
    of.push(...amountIn(contents, term.material).flatMap((one) => one.moles ?? []));
    left = consume(left, term, extent);
  }
  return form({ contents: left, extent, freed: never.freed }, of, context);
}

function comesIn(material: string, step: Step): boolean {
  return step.operations.some((one) => one.do === 'charge' && one.material === material);
}

function amountIn(contents: Contents, material: string): Contents {
  return contents.filter((one) => one.material === material);
}

function consume(contents: Contents, { material, coefficient }: Term, extent: number): Contents {
  const all = amountIn(contents, material).reduce((sum, one) => sum + (one.moles?.value ?? 0), 0);
  if (!(all > 0)) return contents;
  const kept = Math.max(0, 1 - (extent * coefficient) / all);
  // What is left by rounding alone is nothing.
  return contents.map((one) =>
    one.material === material ? scaled(one, kept < 1e-9 ? 0 : kept, 'less what the equation uses') : one,
  );
}

function scaled(one: Content, kept: number, how: string): Content {
  if (kept === 1) return one;
  const { moles, grams, millilitres } = one;
  return {
    ...one,
    moles: moles && computed(moles.label, moles.value * kept, 'mol', how, [moles]),
    grams: grams === null ? null : grams * kept,
    millilitres: millilitres === null ? null : millilitres * kept,
  };
}

function form(reacted: Reacted, of: readonly Figure[], context: ContentsContext): Reacted {
  const freed = new Map<string, Figure<'mol'>>();
  let { contents } = reacted;
  for (const term of context.step.equation.makes) {
    const facts = context.facts.get(term.material);
    if (!facts) continue;
    const value = reacted.extent * term.coefficient;
    const moles = computed(`${facts.name} formed`, value, 'mol', 'by the equation, full conversion', of);
    if (term.gas) freed.set(term.material, moles);
    else contents = add(contents, formed(term.material, facts, moles, context));
  }
  return { ...reacted, contents: settle(contents, context), freed };
}

function formed(material: string, facts: Facts, moles: Figure<'mol'>, { reference }: ContentsContext): Content {
  const phase = phaseOf(facts, NEAT, reference);
  const grams = facts.molarMass ? moles.value * facts.molarMass.value : null;
  const density = phase === 'solid' ? facts.solidDensity : facts.liquidDensity;
  return { material, facts, phase, moles, grams, millilitres: grams === null || !density ? null : grams / density.value };
}

/**
 * What a removal leaves and what it takes. Solids that are dissolved go with their liquid, but stay behind when it is
 * distilled or dried off. Where layers are separated, the part of an acid or base that is a salt lies in the water. @param basisGrams contained basis, g, for "distil to n volumes".
 */
export function withoutRemoved(
  contents: Contents,
  removal: Removal,
  basisGrams: number,
  context: ContentsContext,
): { readonly contents: Contents; readonly taken: Contents } {
  const { step } = context;
  const away = removal.how === 'distil' || removal.how === 'dry';
  const runs = (one: Content): boolean =>
    (one.phase === 'aqueous' || one.phase === 'organic') && !(away && one.facts.state === 'solid');
  const kept = contents.map((one) => {
    const product = one.material === step.product || one.material === step.basis;
    // The basis stands for the product it turns into.
    const names = one.material === step.product ? [one.material, step.basis] : [one.material];
    const keptIn = (layer: Phase): number =>
      Math.min(...names.map((material) => keptOf(removal.takes, { material, liquid: runs(one), layer, product })));
    const salt = removal.how === 'separate' ? shareInWater(one, contents, context.reference) : 0;
    return salt === 0 ? keptIn(one.phase) : salt * keptIn('aqueous') + (1 - salt) * keptIn(one.phase);
  });
  const most = removal.leavesMillilitresPerGram === undefined ? null : removal.leavesMillilitresPerGram * basisGrams;
  const liquids = contents.reduce((sum, one, at) => sum + (runs(one) ? (one.millilitres ?? 0) * (kept[at] ?? 1) : 0), 0);
  const down = most !== null && liquids > most ? most / liquids : 1;
  const parts = contents.map((one, at) => (kept[at] ?? 1) * (runs(one) ? down : 1));
  const how = 'what the removals left';
  return {
    contents: settle(
      contents.map((one, at) => scaled(one, parts[at] ?? 1, how)),
      context,
    ),
    taken: contents.map((one, at) => scaled(one, 1 - (parts[at] ?? 1), 'taken by the removal')),
  };
}

/** Everything that lies in a layer, for layers after an extraction. */
export function inPhase(contents: Contents, phase: Phase): Contents {
  return contents.filter((one) => one.phase === phase);
}

/** Mass of what is there, g; null where a part of it is not known. */
export function massIn(contents: Contents): number | null {
  return contents.reduce<number | null>((sum, one) => plus(sum, one.grams), 0);
}

/** Solvent that comes along with a charge, by its volume. */
export function withSolvent(contents: Contents, material: string, millilitres: number, context: ContentsContext): Contents {
  const facts = context.facts.get(material);
  if (!facts) return contents;
  const grams = facts.liquidDensity ? millilitres * facts.liquidDensity.value : null;
  const moles = grams === null ? null : molesOf(facts, grams, null);
  return settle(add(contents, { material, facts, phase: layerOf(facts, context.reference), moles, grams, millilitres }), context);
}
