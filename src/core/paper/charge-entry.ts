import type { ChargePlan, StepPlan, Take } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { isTiny, readingIn, readingUnit } from '../quantity/reading.ts';
import { deviceParts } from '../words/device-words.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, celsiusText, durationText, rangeText, readingText, windowText } from './amounts.ts';
import { type ChargePlace, sourcesOf, takesWholeDish } from './charge-sources.ts';
import { cautionsAt, nameOf, type PaperContext, warningsAt, warningsOf } from './context.ts';
import { densityParts } from './density-words.ts';
import { perBasis } from './per-basis.ts';
import type { ChargeEntry, Warning } from './sheet.ts';
import { neutraliseText } from '../words/routes-words.ts';

/** One charge as the sheet prints it, for one batch. */
export function chargeEntry(charge: ChargePlan, place: ChargePlace, context: PaperContext): ChargeEntry {
  const { result, mark } = context;
  const take = charge.perBatch;
  const density = densityParts(charge.supply.kind === 'utility' ? null : charge.density, mark);
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
    perGram: perBasis(charge, take, place.step, mark),
    density: density.density,
    densityFrom: density.from,
    orByMass: massInstead(charge, take, mark),
    hazards: [...(charge.hazards ?? [])],
    hazardWords: hazardWords(charge),
    addition: additionOf(charge, place.batches, mark),
    note: charge.note,
  };
}

/** Limit, the route's own caution, then what the program found; all of it stands before the charge. */
function chargeWarnings(charge: ChargePlan, step: StepPlan, context: PaperContext): Warning[] {
  const { mark } = context;
  const warnings: Warning[] = [];
  if (charge.caution !== '') warnings.push({ kind: 'caution', words: charge.caution });
  if (charge.limit) {
    const { side, celsius, action } = charge.limit;
    warnings.push({ kind: 'limit', words: words.limit(side, celsiusText(celsius, mark), action) });
  }
  warnings.push(...bottleWarnings(charge, step, context));
  const own = new Set(warnings.map((warning) => warning.words));
  const found = cautionsAt(context, step, charge.id, charge.before);
  return [...warnings, ...warningsAt(charge.id, step, context, found).filter((warning) => !own.has(warning.words))];
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
  | 'targetUnit'
  | 'totalText'
  | 'portionText'
  | 'accepted'
  | 'device'
  | 'deviceFrom'
  | 'readTwice'
>;

function targetOf(charge: ChargePlan, take: Take, place: ChargePlace, mark: DecimalMark): Target {
  const known = take.by !== 'unknown' && take.exact !== null && Number.isFinite(take.target);
  const portions = Math.max(1, charge.portions);
  const device = deviceParts(take, mark);
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
    device: take.stock ? words.asStock(device.device) : device.device,
    deviceFrom: device.from,
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
): Pick<ChargeEntry, 'targetText' | 'targetUnit' | 'totalText' | 'portionText'> {
  if (isTiny(take.decimals)) return tinyWords(take, portions, mark);
  const unit = readingUnit(take.target / portions, take.unit, take.decimals);
  const targetUnit = unit.unit === take.unit ? {} : { targetUnit: unit.unit };
  const whole = readingIn(take.target, unit, mark);
  if (portions === 1) return { targetText: whole, ...targetUnit, totalText: '', portionText: '' };
  const each = readingText(take.target / portions, take.unit, take.decimals, mark);
  if (Math.round(take.target * 10 ** take.decimals) % portions !== 0) {
    return { targetText: whole, ...targetUnit, totalText: words.inPortions(portions), portionText: words.aboutEach(each) };
  }
  return {
    targetText: `${portions} × ${readingIn(take.target / portions, unit, mark)}`,
    ...targetUnit,
    totalText: words.inAll(readingText(take.target, take.unit, take.decimals, mark)),
    portionText: words.each(each),
  };
}

/** The same for what no balance here shows, in the unit that suits it. */
function tinyWords(
  take: Take,
  portions: number,
  mark: DecimalMark,
): Pick<ChargeEntry, 'targetText' | 'targetUnit' | 'totalText' | 'portionText'> {
  const each = readingText(take.target / portions, take.unit, take.decimals, mark);
  const [number = '', targetUnit = take.unit] = each.split('\u00a0');
  if (portions === 1) return { targetText: number, targetUnit, totalText: '', portionText: '' };
  const whole = readingText(take.target, take.unit, take.decimals, mark);
  return { targetText: `${portions} × ${number}`, targetUnit, totalText: words.inAll(whole), portionText: words.each(each) };
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
  const one = { ...take, target: take.target / Math.max(1, charge.portions) };
  const range = rangeText(take.low, take.high, one, mark);
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

/** Digits of a ratio that stand in the column beside their unit; more of them have it under them. */
const LONGEST_RATIO = 7;

/** Moles and equivalents of the rounded target; of the exact amount where the plan gives no rounded ones. */
function amountsOf(charge: ChargePlan, take: Take, batches: number, mark: DecimalMark): string[] {
  const moles = take.moles ?? (charge.moles && charge.moles.value / batches);
  const equivalents = take.equivalents ?? charge.equivalents?.value ?? null;
  const lines: string[] = [];
  if (charge.supply.kind === 'utility') return lines;
  if (moles !== null) lines.push(amountText({ value: moles, unit: 'mol', digits: charge.moles?.digits ?? 3 }, mark));
  if (equivalents !== null && !charge.isBasis) {
    const text = amountText({ value: equivalents, unit: '', digits: charge.equivalents?.digits ?? 3 }, mark);
    lines.push(words.equivalents(text, text.length > LONGEST_RATIO));
  }
  return lines;
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
  if (charge.supply.kind === 'utility') return words.noneListed;
  if (charge.hazards !== null) return words.noneAtStrength;
  return words.noEntry;
}

function additionOf(charge: ChargePlan, batches: number, mark: DecimalMark): string {
  const parts: string[] = [];
  if (charge.carried) {
    const { millilitres, name } = charge.carried;
    parts.push(words.carried(amountText({ ...millilitres, value: millilitres.value / batches }, mark), name));
  }
  if (charge.overMinutes !== null) parts.push(words.over(durationText(charge.overMinutes, mark)));
  if (charge.temperature) {
    const window = windowText(charge.temperature, mark);
    parts.push('bath' in charge.temperature ? window : words.at(window));
  }
  if (charge.neutralises) parts.push(neutraliseText(charge.neutralises));
  if (charge.endPoint !== null) parts.push(words.untilEnd(charge.endPoint));
  return parts.join(', ');
}

/**
 * The contained mass a person works out from a net that differs: "net", or "net ÷ 1.0309", to four decimals, so that the
 * target itself gives the planned mass to the digits a balance shows.
 */
function containedWords(charge: ChargePlan, mark: DecimalMark): string {
  const ratio = charge.perGramBasis;
  if (!ratio || Math.abs(ratio.value - 1) < 5e-5) return words.netItself;
  return words.netOver(String(Number(ratio.value.toFixed(4))).replace('.', mark));
}
