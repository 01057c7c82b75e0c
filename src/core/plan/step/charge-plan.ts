import { timesDissolved } from '../../bench/dissolved.ts';
import { hazardsOf } from '../../bench/hazards.ts';
import { measureFor } from '../../bench/device.ts';
import { leastNetMass } from '../../bench/smallest-mass.ts';
import { takeOf, toleranceOfTake, unknownTake } from '../../bench/take.ts';
import { computed, type Figure, entered } from '../../quantity/figure.ts';
import type { PlainRule } from '../../route/route.ts';
import { isFrozen, isSlush } from '../../matter/frozen.ts';
import type { Form } from '../../matter/form.ts';
import { formWords, saturatedWords } from '../../words/form-words.ts';
import { isOfSaturatedStrength, SATURATED_CELSIUS } from '../../matter/saturated.ts';
import type { Notice } from '../../words/notice.ts';
import type { Maybe } from '../../words/why.ts';
import { type Amount, amountOf, suppliedIn } from '../amounts.ts';
import type { ChargePlan, Take } from '../result.ts';
import { carriedSolvent, type ChargeRun, factsFor, type StepInput } from './run-step.ts';
import type { Settings } from '../settings.ts';
import type { Supplied } from '../stock/supply.ts';

/** What all charges of a step are planned with. */
export interface ChargeContext {
  readonly step: StepInput;
  /** Contained basis of the whole step, g; null where its molar mass is not known. */
  readonly basisGrams: Figure<'g'> | null;
  readonly batches: number;
  readonly settings: Settings;
}

/** One charge as it is taken. */
interface Taking {
  readonly amount: Amount | null;
  /** For the whole step: contained, and as supplied. */
  readonly moles: Figure<'mol'> | null;
  readonly grams: Figure<'g'> | null;
  readonly millilitres: Figure<'mL'> | null;
  /** What of them is weighed or measured; null where it is not known. */
  readonly exact: Figure<'g' | 'mL'> | null;
  readonly perBatch: Take;
}

/**
 * How much of a charge is taken, of what it is supplied with.
 * @param basisScale the basis as it is weighed over the basis as it is worked out: rounding to its balance.
 */
export function takingOf(run: ChargeRun, supplied: Supplied, of: ChargeContext, basisScale: number): Taking {
  const { step, batches, settings } = of;
  const { charge } = run;
  const { taken } = supplied;
  const { reference } = step;
  const facts = factsFor(charge.material, step);
  const amount =
    run.governed && supplied.form !== run.form ? amountOf(facts, supplied.form, run.governed, reference) : run.amount;
  const moles = figureOf(amount?.moles);
  const grams = takenIn('g', run, supplied, facts.name) ?? figureOf(amount?.grams);
  const millilitres = takenIn('mL', run, supplied, facts.name) ?? figureOf(amount?.millilitres);
  const tolerance = tolerancePercentOf(run, facts.utility, settings);
  const portions = charge.portions ?? 1;
  const by = taken
    ? taken.unit === 'g'
      ? 'mass'
      : 'volume'
    : chosenBy(run, facts.name, grams, millilitres, (volume) => measurable(volume / batches / portions, tolerance, of));
  const exact = by === 'volume' ? millilitres : grams;
  const perBatch = exact
    ? takeOf({
        by,
        exact: perBatchFigure(exact, batches),
        tolerancePercent: tolerance,
        portions,
        noLess: charge.noLess ?? false,
        moles: moles ? moles.value / batches : null,
        basisMoles: (step.basisMoles.value * basisScale) / batches,
        settings,
        measureTolerances: reference.rows.measureTolerances,
        dissolves: goesDissolved(run, facts.utility, supplied, step.step.product),
        gas: by === 'mass' && facts.state === 'gas' && !isFrozen(facts.name) && supplied.form.kind !== 'solution',
      })
    : unknownTake();
  return { amount, moles, grams, millilitres, exact, perBatch };
}

/**
 * What is taken of a bottle of a form for a charge, as a multiple of what goes in: more than 1 where that is too little to be
 * weighed, and a stock solution is made of what is.
 */
export function takenTimes(run: ChargeRun, form: Form, of: ChargeContext): number {
  const { step, batches, settings } = of;
  const facts = factsFor(run.charge.material, step);
  const grams = run.governed && suppliedIn('g', facts, form, run.governed, step.reference);
  const portion = (grams ?? 0) / batches / (run.charge.portions ?? 1);
  const tolerance = toleranceOfTake({ tolerancePercent: tolerancePercentOf(run, facts.utility, settings), settings });
  // Nearly always a balance weighs it as it is, and nothing more has to be looked for.
  if (!(portion > 0) || portion >= leastNetMass(settings.balances, tolerance)) return 1;
  const supplied: Supplied = { supply: { kind: 'bottles', bottles: [] }, form, taken: null, returns: 0 };
  return timesDissolved(takingOf(run, supplied, of, 1).perBatch);
}

/** Whether too little of it may be weighed as a stock solution. */
function goesDissolved({ charge, rule }: ChargeRun, utility: boolean, { supply }: Supplied, product: string): boolean {
  // A seed goes in as crystals; of a dish that goes in whole there is no more to dissolve.
  const wholeDish = supply.kind === 'step' && supply.wholeDish;
  return !isSolvent(rule, utility) && charge.material !== product && !wholeDish;
}

/**
 * Everything the step card and the sheet say about one charge.
 * @param basisScale as in takingOf; @param before cautions that stand before it.
 */
export function chargePlan(
  run: ChargeRun,
  supplied: Supplied,
  of: ChargeContext,
  basisScale: number,
  before: readonly Notice[],
): ChargePlan {
  const { step, basisGrams, batches } = of;
  const { charge, rule } = run;
  const { form } = supplied;
  const facts = factsFor(charge.material, step);
  const isSaturated = form === charge.form && isOfSaturatedStrength(charge, facts, step.reference);
  const { amount, moles, grams, millilitres, exact, perBatch } = takingOf(run, supplied, of, basisScale);
  return {
    kind: 'charge',
    id: charge.id,
    stage: charge.stage,
    material: charge.material,
    form,
    ...(isSaturated ? { saturated: true } : {}),
    formWords: isSaturated ? saturatedWords(formWords(form), SATURATED_CELSIUS) : formWords(form),
    rule: charge.rule.kind,
    ratio: ratioFigure(rule, facts.name),
    ...(rule.kind === 'to neutralise' ? { neutralises: { endPH: rule.endPH, excessPercent: rule.excessPercent ?? 0 } } : {}),
    isBasis: charge.rule.kind === 'basis',
    moles,
    equivalents: moles && step.basisMoles.value > 0 && !isAid(run, of) ? equivalentsOf(facts.name, moles, step.basisMoles) : null,
    grams,
    millilitres,
    density: figureOf(amount?.density),
    perGramBasis:
      rule.kind === 'per batch' || !exact || !basisGrams || basisGrams.value === 0
        ? null
        : perGram(facts.name, exact, basisGrams),
    total: exact && batches > 1 ? allBatches(perBatch, exact, batches) : perBatch,
    perBatch,
    portions: charge.portions ?? 1,
    noLess: charge.noLess ?? false,
    supply: supplied.supply,
    returns: supplied.returns,
    carried: carriedPlan(run, amount, step),
    temperature: charge.temperature ?? null,
    overMinutes: charge.overMinutes ?? null,
    endPoint: charge.rule.kind === 'until' ? charge.rule.endPoint : null,
    atMost: charge.rule.kind === 'until' ? charge.rule.atMost : null,
    limit: charge.limit
      ? { celsius: charge.limit.celsius, side: charge.limit.side ?? 'above', action: charge.limit.action }
      : null,
    hazards: hazardsOf(facts, form, step.reference)?.statements ?? null,
    before,
    caution: charge.caution ?? '',
    note: charge.note ?? '',
    source: charge.source ?? '',
  };
}

function carriedPlan({ charge }: ChargeRun, amount: Amount | null, step: StepInput): ChargePlan['carried'] {
  const carried = carriedSolvent({ charge, amount }, factsFor(charge.material, step));
  return carried && { ...carried, name: factsFor(carried.material, step).name };
}

function figureOf<U extends Figure['unit']>(maybe: Maybe<U> | undefined): Figure<U> | null {
  return maybe?.ok ? maybe.figure : null;
}

/** What is taken of several lots together, where it is counted in this unit. */
function takenIn<U extends 'g' | 'mL'>(unit: U, run: ChargeRun, { taken }: Supplied, name: string): Figure<U> | null {
  if (taken?.unit !== unit || !run.governed) return null;
  return computed(`${name} taken of all lots`, taken.amount, unit, 'sum over lots, each with its own assay', [
    run.governed.figure,
  ]);
}

/** Charcoal, a drying agent: weighed by its ratio in grams, and no part of the equation. */
function isAid({ charge, rule }: ChargeRun, { step }: ChargeContext): boolean {
  const reacts = step.step.equation.uses.some((term) => term.material === charge.material);
  return factsFor(charge.material, step).aid && rule.kind !== 'equivalents' && !reacts;
}

function equivalentsOf(name: string, moles: Figure<'mol'>, basis: Figure<'mol'>): Figure<''> {
  return computed(`${name}, equivalents`, moles.value / basis.value, '', 'moles ÷ moles of basis', [moles, basis]);
}

/** All batches together: what is really taken is the rounded batch, as often as there are batches. */
function allBatches(one: Take, exact: Figure<'g' | 'mL'>, batches: number): Take {
  const times = (value: number | null): number | null =>
    value === null ? null : Number((value * batches).toFixed(one.decimals));
  const { low, high, moles } = one;
  return {
    ...one,
    exact,
    target: times(one.target) ?? 0,
    low: times(low),
    high: times(high),
    moles: moles === null ? null : moles * batches,
  };
}

function perBatchFigure<U extends Figure['unit']>(whole: Figure<U>, batches: number): Figure<U> {
  if (batches === 1) return whole;
  return computed(`${whole.label}, one batch`, whole.value / batches, whole.unit, 'whole step ÷ batches', [
    whole,
    entered('batches', batches, '', 'the plan'),
  ]);
}

/**
 * Liquids are measured where their volume is known and a measure of the laboratory meets the accepted range; everything
 * else is weighed, and so is the basis, which decides.
 */
function chosenBy(
  run: ChargeRun,
  name: string,
  grams: Figure | null,
  millilitres: Figure | null,
  measurable: (millilitres: number) => boolean,
): 'mass' | 'volume' {
  const wish = run.charge.by ?? (run.liquid && run.charge.rule.kind !== 'basis' ? 'volume' : 'mass');
  if (!grams) return 'volume';
  // No cylinder measures ice: what it is as water says nothing of the room it takes.
  if (isFrozen(name) || (isSlush(name) && run.governed?.by === 'g')) return 'mass';
  return wish === 'volume' && millilitres && measurable(millilitres.value) ? 'volume' : 'mass';
}

/** Whether a measure of the laboratory takes a volume, mL, within the accepted range. */
function measurable(millilitres: number, tolerancePercent: number | null, { settings, step }: ChargeContext): boolean {
  if (millilitres === 0) return true;
  const tolerance = toleranceOfTake({ tolerancePercent, settings });
  return measureFor(millilitres, tolerance, settings, step.reference.rows.measureTolerances)?.meets ?? false;
}

/** ± % as the charge says or as is usual; null for the basis, which is only recorded. */
function tolerancePercentOf({ charge, rule }: ChargeRun, utility: boolean, settings: Settings): number | null {
  return charge.rule.kind === 'basis' ? null : (charge.tolerancePercent ?? usualTolerance(rule, utility, settings));
}

/** Solvents, quenches and washes are forgiving; reagents are not. Common practice, no source. */
function usualTolerance(rule: PlainRule, utility: boolean, settings: Settings): number {
  return isSolvent(rule, utility) || rule.kind === 'to neutralise'
    ? settings.tolerance.solventPercent
    : settings.tolerance.reagentPercent;
}

function isSolvent(rule: PlainRule, utility: boolean): boolean {
  return (
    utility ||
    rule.kind === 'volumes' ||
    rule.kind === 'molar volume' ||
    rule.kind === 'to concentration' ||
    rule.kind === 'make up to'
  );
}

function perGram(name: string, exact: Figure<'g' | 'mL'>, basisGrams: Figure<'g'>): Figure<'g/g' | 'mL/g'> {
  const unit = exact.unit === 'g' ? 'g/g' : 'mL/g';
  return computed(`${name} per gram of basis`, exact.value / basisGrams.value, unit, 'amount ÷ contained basis', [
    exact,
    basisGrams,
  ]);
}

function ratioFigure(rule: PlainRule, name: string): Figure | null {
  const ratio = (value: number, unit: Figure['unit']): Figure => entered(`ratio of ${name}`, value, unit, 'the step');
  switch (rule.kind) {
    case 'basis':
      return ratio(1, '');
    case 'equivalents':
      return ratio(rule.equivalents, '');
    case 'mass ratio':
      return ratio(rule.gramsPerGram, 'g/g');
    case 'volumes':
      return ratio(rule.millilitresPerGram, 'mL/g');
    case 'molar volume':
    case 'make up to':
      return ratio(rule.millilitresPerMole, 'mL/mol');
    case 'to concentration':
      return ratio(rule.molesPerLitre, 'mol/L');
    case 'per batch':
      return ratio(rule.amount, rule.unit);
    case 'to neutralise':
      return null;
  }
}
