import type { Facts } from '../matter/facts.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import type { ChargeRule, Operation, PlainRule, Step, StepHeat, StepYield } from './route.ts';

type Rebased = { readonly ok: true; readonly step: Step } | { readonly ok: false; readonly words: string };

/** How a change of basis turns the numbers that refer to it: all of them stay the same amounts in the vessel. */
interface Factors {
  /** mol of the new basis per mol of the old. */
  readonly moles: number;
  /** g of the new basis per g of the old; null where a molar mass is not known. */
  readonly grams: number | null;
}

/**
 * The same procedure with its ratios, yield and heat referring to another material that it charges in moles: every
 * amount stays what it was. Refused where the two cannot be held against each other.
 */
export function withBasis(step: Step, basis: string, facts: ReadonlyMap<string, Facts>): Rebased {
  if (basis === step.basis) return { ok: true, step };
  const charges = step.operations.flatMap((one) => (one.do === 'charge' && one.material === basis ? [one] : []));
  const [next] = charges;
  if (!next || charges.length > 1) return { ok: false, words: words.basisOneCharge };
  if (next.rule.kind !== 'equivalents') return { ok: false, words: words.basisInMoles };
  const moles = next.rule.equivalents;
  const masses = [basis, step.basis].map((key) => facts.get(key)?.molarMass?.value ?? null);
  const [own, old] = masses;
  const by: Factors = { moles, grams: own && old ? (moles * own) / old : null };
  const needsGrams = step.operations.some((one) => perGram(one)) || step.batchLimit !== undefined;
  if (needsGrams && by.grams === null) return { ok: false, words: words.basisMass };
  const factor = yieldFactor(step, basis, moles);
  const yields = timesYield(step.yieldPercent, factor);
  if (yields === null) return { ok: false, words: words.basisYield };
  const operations = step.operations.map((one) => rebased(one, next.id, by));
  const { batchLimit, heat, recovers } = step;
  let changed: Step = { ...step, basis, yieldPercent: yields, operations };
  if (batchLimit) changed = put(changed, 'batchLimit', { ...batchLimit, grams: batchLimit.grams * (by.grams ?? 1) });
  if (heat) changed = put(changed, 'heat', heatRebased(heat, step.basis, moles));
  if (recovers)
    changed = put(
      changed,
      'recovers',
      recovers.map((one) => ('molesPerMoleBasis' in one ? { ...one, molesPerMoleBasis: one.molesPerMoleBasis / moles } : one)),
    );
  return { ok: true, step: changed };
}

/** An entered heat follows the new basis; a trial and a typical value stay with the species they are per mole of. */
function heatRebased(heat: StepHeat, old: string, moles: number): StepHeat {
  if (heat.per !== undefined) return heat;
  if (heat.kilojoulesPerMole !== undefined) return { ...heat, kilojoulesPerMole: heat.kilojoulesPerMole / moles };
  return heat.trial || heat.typical !== undefined ? { ...heat, per: old } : heat;
}

function perGram(one: Operation): boolean {
  if (one.do === 'removal') return one.leavesMillilitresPerGram !== undefined;
  if (one.do !== 'charge') return false;
  if (one.knownAddition) return true;
  const rule = one.rule.kind === 'until' ? one.rule.estimate : one.rule;
  return rule.kind === 'mass ratio' || rule.kind === 'volumes';
}

/** Product per theory of the new basis against that of the old. */
function yieldFactor(step: Step, basis: string, moles: number): number {
  const of = (key: string): number => step.equation.uses.find((term) => term.material === key)?.coefficient ?? 1;
  return of(basis) / (moles * of(step.basis));
}

function timesYield(one: StepYield, factor: number): StepYield | null {
  const tidy = (value: number): number => Number((value * factor).toPrecision(6));
  if (typeof one === 'number') return tidy(one) <= 100 ? tidy(one) : null;
  const range = { ...one, lowest: tidy(one.lowest), likeliest: tidy(one.likeliest), highest: tidy(one.highest) };
  return range.highest <= 100 ? range : null;
}

function rebased(one: Operation, next: string, by: Factors): Operation {
  if (one.do === 'removal' && one.leavesMillilitresPerGram !== undefined)
    return { ...one, leavesMillilitresPerGram: one.leavesMillilitresPerGram / (by.grams ?? 1) };
  if (one.do !== 'charge') return one;
  const rule: ChargeRule = one.id === next ? { kind: 'basis' } : turned(one.rule, by);
  if (!one.knownAddition) return { ...one, rule };
  const { minutes, basisGrams } = one.knownAddition;
  return { ...one, rule, knownAddition: { minutes, basisGrams: basisGrams * (by.grams ?? 1) } };
}

function turned(rule: ChargeRule, by: Factors): ChargeRule {
  if (rule.kind === 'until') return { ...rule, estimate: plainTurned(rule.estimate, by) };
  return plainTurned(rule, by);
}

function plainTurned(rule: PlainRule, { moles, grams }: Factors): PlainRule {
  switch (rule.kind) {
    case 'basis':
      return { kind: 'equivalents', equivalents: 1 / moles };
    case 'equivalents':
      return { ...rule, equivalents: rule.equivalents / moles };
    case 'mass ratio':
      return { ...rule, gramsPerGram: rule.gramsPerGram / (grams ?? 1) };
    case 'volumes':
      return { ...rule, millilitresPerGram: rule.millilitresPerGram / (grams ?? 1) };
    case 'molar volume':
    case 'make up to':
      return { ...rule, millilitresPerMole: rule.millilitresPerMole / moles };
    case 'to concentration':
      return { ...rule, molesPerLitre: rule.molesPerLitre * moles };
    default:
      return rule;
  }
}
