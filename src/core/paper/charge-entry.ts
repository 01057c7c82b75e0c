import type { ChargePlan, StepPlan, Take } from '../plan/result.ts';
import { type DecimalMark, formatDecimals } from '../quantity/format.ts';
import { deviceWords } from '../words/device-words.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, celsiusText, durationText, formatTrimmed, readingText, windowText } from './amounts.ts';
import { type ChargePlace, sourcesOf, takesWholeDish } from './charge-sources.ts';
import { benchWarnings, cautionsAt, nameOf, noticesAt, type PaperContext, warningsOf } from './context.ts';
import { densityText } from './density-words.ts';
import type { ChargeEntry, Warning } from './sheet.ts';
import { neutraliseText } from '../words/routes-words.ts';

/** One charge as the sheet prints it, for one batch. */
export function chargeEntry(charge: ChargePlan, place: ChargePlace, context: PaperContext): ChargeEntry {
  const { result, mark } = context;
  const take = charge.perBatch;
  return {
    do: 'charge',
    id: charge.id,
    number: place.number,
    before: chargeWarnings(charge, place.step, context),
    material: nameOf(result, charge.material),
    form: charge.supply.kind === 'utility' && charge.form.kind === 'neat' ? '' : charge.formWords,
    sources: sourcesOf(charge, place, context),
    isBasis: charge.isBasis,
    contained: charge.isBasis ? containedWords(charge, mark) : '',
    by: take.by,
    ...targetOf(charge, take, place, mark),
    amounts: amountsOf(charge, take, place.batches, mark),
    perGram: perGramOf(charge, mark),
    density: charge.supply.kind === 'utility' ? '' : densityText(charge.density, mark),
    orByMass: massInstead(charge, take, mark),
    hazards: [...(charge.hazards ?? [])],
    hazardWords: hazardWords(charge),
    addition: additionOf(charge, place.batches, mark),
    note: charge.note,
  };
}

/** Limit, the route's own caution, then what the program found; all of it stands before the charge. */
function chargeWarnings(charge: ChargePlan, step: StepPlan, context: PaperContext): Warning[] {
  const { mark, say, result } = context;
  const warnings: Warning[] = [];
  if (charge.caution !== '') warnings.push({ kind: 'caution', words: charge.caution });
  if (charge.limit) {
    const { side, celsius, action } = charge.limit;
    warnings.push({ kind: 'limit', words: words.limit(side, celsiusText(celsius, mark), action) });
  }
  warnings.push(...bottleWarnings(charge, step, context));
  const own = new Set(warnings.map((warning) => warning.words));
  return [
    ...warnings,
    ...warningsOf([...cautionsAt(context, step, charge.id, charge.before), ...noticesAt(result, step, charge.id)], say).filter(
      (warning) => !own.has(warning.words),
    ),
    ...benchWarnings(charge.id, step, context),
  ];
}

/** Only a bottle past its date, or of unknown strength: nothing is taken of it before somebody has settled that. */
function bottleWarnings(charge: ChargePlan, step: StepPlan, { say, result }: PaperContext): Warning[] {
  const line = result.fetch.find((one) => one.uses.some((use) => use.step === step.id && use.operation === charge.id));
  if (line?.status !== 'out of date' && line?.status !== 'unknown strength') return [];
  const found = result.notices.filter(
    ({ code, at, values }) => code === line.status && at.material === charge.material && values.form === line.formWords,
  );
  return warningsOf(found, say).map(({ words: text }) => ({ kind: 'caution', words: text }));
}

type Target = Pick<
  ChargeEntry,
  | 'target'
  | 'unit'
  | 'decimals'
  | 'low'
  | 'high'
  | 'portions'
  | 'targetText'
  | 'totalText'
  | 'portionText'
  | 'accepted'
  | 'device'
  | 'readTwice'
>;

function targetOf(charge: ChargePlan, take: Take, place: ChargePlace, mark: DecimalMark): Target {
  const known = take.by !== 'unknown' && take.exact !== null && Number.isFinite(take.target);
  const portions = Math.max(1, charge.portions);
  const ranged = known && !charge.isBasis && charge.atMost === null;
  return {
    target: known ? take.target : null,
    unit: take.unit,
    decimals: take.decimals,
    low: ranged ? readable(take.low, take.decimals) : null,
    high: ranged ? readable(take.high, take.decimals) : charge.isBasis && known ? mostBasis(charge, place.step) : null,
    portions,
    ...(known ? targetWords(take, portions, mark) : { targetText: words.unknown, totalText: '', portionText: '' }),
    accepted: known ? acceptedText(charge, take, place, mark) : words.unknownAccepted,
    device: deviceWords(take, mark),
    readTwice: take.readTwice,
  };
}

/**
 * "3 × 40" with "120 mL in all" where the reading can show a portion exactly; else the whole large with "in 3 portions"
 * under it, so that the portions never add up to something else.
 */
function targetWords(
  take: Take,
  portions: number,
  mark: DecimalMark,
): Pick<ChargeEntry, 'targetText' | 'totalText' | 'portionText'> {
  const whole = formatDecimals(take.target, take.decimals, mark);
  if (portions === 1) return { targetText: whole, totalText: '', portionText: '' };
  const each = readingText(take.target / portions, take.unit, take.decimals, mark);
  if (Math.round(take.target * 10 ** take.decimals) % portions !== 0) {
    return { targetText: whole, totalText: words.inPortions(portions), portionText: words.aboutEach(each) };
  }
  const one = formatDecimals(take.target / portions, take.decimals, mark);
  return {
    targetText: `${portions} × ${one}`,
    totalText: words.inAll(readingText(take.target, take.unit, take.decimals, mark)),
    portionText: words.each(each),
  };
}

/** Without the noise of binary arithmetic: what the device can show. */
function readable(value: number | null, decimals: number): number | null {
  return value === null ? null : Number(value.toFixed(Math.min(decimals, 12)));
}

function acceptedText(charge: ChargePlan, take: Take, place: ChargePlace, mark: DecimalMark): string {
  if (charge.isBasis) return basisAccepted(charge, take, place, mark);
  // What is added until an end point has no range: the end point decides, up to the largest amount.
  if (charge.atMost !== null) return words.estimate(readingText(take.target * charge.atMost, take.unit, take.decimals, mark));
  if (take.low === null || take.high === null) return words.noRange;
  const range = words.range(formatDecimals(take.low, take.decimals, mark), formatDecimals(take.high, take.decimals, mark));
  return charge.noLess ? words.noLess(range) : range;
}

/** The basis has no tolerance, it is recorded; but only a whole dish is taken as it is, and an own limit stays one. */
function basisAccepted(charge: ChargePlan, take: Take, place: ChargePlace, mark: DecimalMark): string {
  const measured = take.by === 'volume' ? words.measureOut : words.weighOut;
  const how = takesWholeDish(charge, place.batches) ? words.asItIs : measured;
  const most = mostBasis(charge, place.step);
  return most === null ? how : `${how}; ${words.ownLimit(readingText(most, take.unit, take.decimals, mark))}`;
}

/** The most of the basis that the person's own limit allows in one batch, as it is taken, rounded down; else null. */
function mostBasis(charge: ChargePlan, step: StepPlan): number | null {
  const limit = step.batches.ownLimit;
  if (!limit || !charge.perGramBasis) return null;
  const shown = 10 ** charge.perBatch.decimals;
  return Math.floor(limit.grams * charge.perGramBasis.value * shown + 1e-6) / shown;
}

/** Moles and equivalents of the rounded target; of the exact amount where the plan gives no rounded ones. */
function amountsOf(charge: ChargePlan, take: Take, batches: number, mark: DecimalMark): string[] {
  const moles = take.moles ?? (charge.moles && charge.moles.value / batches);
  const equivalents = take.equivalents ?? charge.equivalents?.value ?? null;
  const lines: string[] = [];
  if (charge.supply.kind === 'utility') return lines;
  if (moles !== null) lines.push(amountText({ value: moles, unit: 'mol', digits: charge.moles?.digits ?? 3 }, mark));
  if (equivalents !== null && !charge.isBasis) {
    lines.push(words.equivalents(amountText({ value: equivalents, unit: '', digits: charge.equivalents?.digits ?? 3 }, mark)));
  }
  return lines;
}

function perGramOf(charge: ChargePlan, mark: DecimalMark): string {
  if (charge.isBasis) return words.basis;
  const ratio = charge.perGramBasis;
  if (!ratio) return '';
  const unit = ratio.unit === 'g/g' ? 'g' : 'mL';
  return words.perGram(amountText({ value: ratio.value, unit, digits: ratio.digits }, mark));
}

function massInstead(charge: ChargePlan, take: Take, mark: DecimalMark): string {
  if (take.by !== 'volume' || !charge.density || charge.supply.kind === 'utility') return '';
  return words.orByMass(
    amountText({ value: take.target * charge.density.value, unit: 'g', digits: charge.density.digits }, mark),
  );
}

/** Words where no code can be printed: never a dash, never nothing. */
function hazardWords(charge: ChargePlan): string {
  if (charge.hazards !== null && charge.hazards.length > 0) return '';
  if (charge.supply.kind === 'utility' || charge.hazards !== null) return words.noneListed;
  return words.noEntry;
}

function additionOf(charge: ChargePlan, batches: number, mark: DecimalMark): string {
  const parts: string[] = [];
  if (charge.carried) {
    const { millilitres, name } = charge.carried;
    parts.push(words.carried(amountText({ ...millilitres, value: millilitres.value / batches }, mark), name));
  }
  if (charge.overMinutes !== null) parts.push(words.over(durationText(charge.overMinutes, mark)));
  if (charge.temperature) parts.push(words.at(windowText(charge.temperature, mark)));
  if (charge.neutralises) parts.push(neutraliseText(charge.neutralises));
  if (charge.endPoint !== null) parts.push(words.untilEnd(charge.endPoint));
  return parts.join(', ');
}

/** The contained mass a person works out from a net that differs: "net", or "(net ÷ 1.02)". */
function containedWords(charge: ChargePlan, mark: DecimalMark): string {
  const ratio = charge.perGramBasis;
  if (!ratio || Math.abs(ratio.value - 1) < 5e-4) return words.netItself;
  return words.netOver(formatTrimmed(ratio.value, mark));
}
