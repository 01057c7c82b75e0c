import { type AcidPart, acidPartsOf, boundProtons, hydrolysisOf } from '../matter/acidity.ts';
import type { Facts } from '../matter/facts.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import type { Content, Contents } from '../bench/contents.ts';

/** Where hydrogen carbonate buffers itself: it cannot bring water above, and below carbon dioxide leaves. */
export const BICARBONATE_PH = 8.3;
const CARBON_DIOXIDE = '124-38-9';
/** A base or acid that takes up or gives less than this at the pH cannot bring it there with any sensible amount. */
const LEAST_UPTAKE = 0.05;

/**
 * mol of protons per gram of what is there: less is what the model leaves by its own roughness (10⁻³ mol in a kilogram is
 * the acid of water at pH 3, which is not counted). Common practice, no source.
 */
const TRACE = 1e-6;

/** What a "to neutralise" asks for. */
export interface NeutraliseRule {
  readonly endPH: number;
  readonly excessPercent?: number | undefined;
}

/**
 * Protons a mole of a material gives up (above 0) or takes up (below 0) when the pH of the water it is in becomes
 * `pH`: Σ (protons as charged − protons bound at that pH). From carbonates carbon dioxide leaves up to pH 8.3, so that
 * they take up all they can; above it the carbonate stays.
 */
export function protonsGiven(facts: Facts, pH: number, reference: Reference): Maybe<''> {
  const parts = acidPartsOf(facts, reference);
  if ('code' in parts) return { ok: false, why: parts };
  const leaves = pH <= BICARBONATE_PH && isCarbonate(facts, reference);
  const of: Figure[] = [entered('pH at the end', pH, '', 'the step')];
  let value = 0;
  for (const part of parts) {
    of.push(...part.acidity.pKa);
    value += part.perMole * (part.acidity.protons - boundAt(part, pH, leaves));
  }
  return known(computed(`protons a mole of ${facts.name} gives`, value, '', 'protons as charged − protons held at this pH', of));
}

/** Protons one molecule of a part holds at a pH; all it can where its acid leaves as a gas. */
export function boundAt({ acidity }: AcidPart, pH: number, leaves: boolean): number {
  return leaves
    ? acidity.pKa.length
    : boundProtons(
        acidity.pKa.map((one) => one.value),
        pH,
      );
}

/** Whether a material is an acid or base only by what water makes of it. */
export function isHydrolysed(facts: Facts, reference: Reference): boolean {
  const parts = acidPartsOf(facts, reference);
  return !('code' in parts) && parts.some((one) => one.name !== facts.name && one.acidity.pKa.length > 0);
}

/** Whether water turns a material into something else, with heat; a metal chloride that is an acid itself, too. */
export function reactsWithWater(facts: Facts, reference: Reference): boolean {
  return isHydrolysed(facts, reference) || hydrolysisOf(facts, reference).some((one) => one.meets === 'water');
}

/** Whether a material frees carbon dioxide with acid and is a base itself. */
export function isCarbonate(facts: Facts, reference: Reference): boolean {
  const parts = acidPartsOf(facts, reference);
  if ('code' in parts || parts.every((one) => one.acidity.pKa.length === 0)) return false;
  return hydrolysisOf(facts, reference).some((one) => one.meets === 'acid' && one.makesCas === CARBON_DIOXIDE);
}

/**
 * Acid equivalents of all that is in the vessel, mol of protons to be taken up to reach the pH; negative where protons
 * have to be brought. Water itself is not counted.
 * @returns why not, where something has no known pKa, or an acid's or base's amount is not known.
 */
export function acidEquivalents(contents: Contents, pH: number, reference: Reference): Maybe<'mol'> {
  const each: Figure<'mol'>[] = [];
  const whys: Why[] = [];
  for (const one of contents) {
    const own = equivalentsOf(one, pH, reference);
    if (!own.ok) whys.push(own.why);
    else if (own.figure.value !== 0) each.push(own.figure);
  }
  const [why] = whys;
  if (why) return { ok: false, why: why.code === 'no pKa' ? allNames(whys) : why };
  const value = each.reduce((sum, one) => sum + one.value, 0);
  return known(computed(`acid equivalents to pH ${pH}`, value, 'mol', 'sum over everything in the vessel', each));
}

/** One reason for all that lacks a pKa, so that it can be entered in one go. */
function allNames(whys: readonly Why[]): Why {
  const names = whys.flatMap((why) => (why.code === 'no pKa' ? [String(why.values.material)] : []));
  return { code: 'no pKa', values: { material: [...new Set(names)].join(', ') } };
}

/** Acid equivalents of one content, mol; negative for a base. */
export function equivalentsOf(one: Content, pH: number, reference: Reference): Maybe<'mol'> {
  const label = `acid equivalents of ${one.facts.name}`;
  if (one.moles?.value === 0) return known(computed(label, 0, 'mol', 'none is there', [one.moles]));
  const given = protonsGiven(one.facts, pH, reference);
  if (!given.ok) return given;
  if (given.figure.value === 0) return known(computed(label, 0, 'mol', 'neither acid nor base', [given.figure]));
  if (!one.moles) return unknown('amount in the vessel', { material: one.facts.name });
  return known(computed(label, one.moles.value * given.figure.value, 'mol', 'moles × protons given', [one.moles, given.figure]));
}

/**
 * Whether acid equivalents, mol, are too few to be worked out: none, or less than a trace of what is in the vessel. False
 * where none of anything is planned.
 */
export function isNothing(contents: Contents, equivalents: number): boolean {
  const unknown = contents.some(({ grams }) => grams === null);
  const grams = contents.reduce((sum, one) => sum + (one.grams ?? 0), 0);
  if (contents.length === 0 || unknown) return equivalents === 0;
  return grams > 0 && Math.abs(equivalents) <= TRACE * grams;
}

/**
 * Moles of a base (or an acid) that bring what is in the vessel to the pH, with the excess: acid equivalents ÷ protons
 * that a mole of it takes up at that pH.
 * @returns why not, in words: no pKa of something, a pH this base or acid cannot reach, an acid that would free a poison, or
 * nothing there for it to neutralise: what clings to a washed layer is not known, and so is the amount for it.
 */
export function neutralisingMoles(contents: Contents, agent: Facts, rule: NeutraliseRule, reference: Reference): Maybe<'mol'> {
  const { endPH, excessPercent = 0 } = rule;
  const label = `${agent.name} to neutralise to pH ${endPH}`;
  const gives = protonsGiven(agent, endPH, reference);
  if (!gives.ok) return gives;
  const cannot = cannotReach(agent, gives.figure.value, endPH, reference);
  if (cannot) return { ok: false, why: cannot };
  const there = acidEquivalents(contents, endPH, reference);
  if (!there.ok) return there;
  const poison = poisonFreed(contents, agent, gives.figure.value > 0, reference);
  if (poison && there.figure.value !== 0) return { ok: false, why: poison };
  const ratio = -there.figure.value / gives.figure.value;
  if (isNothing(contents, there.figure.value) || ratio < 0)
    return unknown('nothing to neutralise', { material: agent.name, pH: endPH });
  const needed = Math.max(0, ratio);
  const excess = entered('excess', excessPercent, '%', 'the step');
  const how = 'acid equivalents ÷ protons a mole takes up, with the excess';
  return known(computed(label, needed * (1 + excessPercent / 100), 'mol', how, [there.figure, gives.figure, excess]));
}

/** Hydrogen cyanide, hydrazoic acid, hydrogen sulfide, chlorine: what frees them is destroyed or taken out, not neutralised. */
const POISONS = new Set(['74-90-8', '7782-79-8', '7783-06-4', '7782-50-5']);

/** Whether a material frees one of those poisons with acid, and its name. */
export function poisonOf(facts: Facts, reference: Reference): string | null {
  const found = hydrolysisOf(facts, reference).find((one) => one.meets === 'acid' && one.gas && POISONS.has(one.makesCas));
  return found?.makes ?? null;
}

/** Why no amount is worked out where acid meets what frees a poison: in the vessel where acid goes in, else what goes in. */
function poisonFreed(contents: Contents, agent: Facts, acid: boolean, reference: Reference): Why | null {
  const all = acid ? contents.filter(({ moles }) => moles?.value !== 0).map(({ facts }) => facts) : [agent];
  for (const facts of all) {
    const gas = poisonOf(facts, reference);
    if (gas !== null) return unknown('acid would free a poison', { material: facts.name, gas }).why;
  }
  return null;
}

/** Why a material cannot bring water to a pH; null where it can. */
export function cannotReach(agent: Facts, gives: number, pH: number, reference: Reference): Why | null {
  const values = { material: agent.name, pH };
  if (isCarbonate(agent, reference) && pH > BICARBONATE_PH && gives > -LEAST_UPTAKE) {
    return unknown('bicarbonate limit', values).why;
  }
  return Math.abs(gives) < LEAST_UPTAKE ? unknown('cannot neutralise', values).why : null;
}
