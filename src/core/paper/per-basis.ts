import type { ChargePlan, StepPlan, Take } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { figureIn, readingParts, readingUnit } from '../quantity/reading.ts';
import { paperWords as words } from '../words/paper-words.ts';

/** Grams of the unit that a basis is written in. */
const GRAMS: Readonly<Record<string, number>> = { g: 1, kg: 1e3, t: 1e6 };

/** The unit the net of the basis is written in on a sheet: "g", or what its target is printed with, "kg", "t". */
export function basisUnit(step: StepPlan): string {
  const basis = step.operations.find((one) => one.kind === 'charge' && one.isBasis);
  if (basis?.kind !== 'charge' || basis.perBatch.unit !== 'g') return 'g';
  const { unit } = readingUnit(basis.perBatch.target, 'g', basis.perBatch.decimals);
  return unit in GRAMS ? unit : 'g';
}

/** A charge for each g, kg or t of basis, in the unit of its target: the pencil that multiplies it writes what stands beside it. */
export function perBasis(charge: ChargePlan, take: Take, step: StepPlan, mark: DecimalMark): string {
  if (charge.isBasis) return words.basis;
  const ratio = charge.perGramBasis;
  if (!ratio) return '';
  const unit = ratio.unit === 'g/g' ? 'g' : 'mL';
  const known = take.by !== 'unknown' && take.unit === unit && take.target > 0;
  const target = known ? readingParts(take.target / Math.max(1, charge.portions), unit, take.decimals, mark).unit : unit;
  const of = basisUnit(step);
  return words.perBasis(figureIn(ratio.value * (GRAMS[of] ?? 1), unit, target, ratio.digits, mark), of);
}
