import type { RunRow } from '../port/runs.ts';
import type { StepPlan } from '../plan/result.ts';
import type { Notice } from '../words/notice.ts';

/** More than this over the largest recorded run asks for a pause: domain rule; common practice, no source. */
const TENFOLD = 10;
/** Rounding of a planned batch does not make a jump. */
const ROUNDING = 1e-9;

/** What is known of a run, as far as its scale goes. */
export type ScaleRun = Pick<RunRow, 'id' | 'step' | 'phase' | 'early' | 'basisGrams'>;

/**
 * How one batch of a step stands to the largest run recorded of it: a jump of more than tenfold, no run, runs that were
 * not read, or a basis whose mass is not known. Null where it is within tenfold.
 * @param runs of the step's route; null where they were not read. Only those carried to their end count.
 */
export function scaleCaution(step: StepPlan, runs: readonly ScaleRun[] | null): Omit<Notice, 'at'> | null {
  const title = { step: step.title };
  if (runs === null) return { level: 'note', code: 'scale: runs not read', values: title };
  const grams = step.batches.basisGrams.value;
  const done = runs.filter((run) => run.step === step.id && run.phase === 'finished' && !run.early);
  if (done.length === 0) return { level: 'assumption', code: 'scale: no run recorded', values: title };
  const weighed = done.flatMap(({ id, basisGrams }) => (basisGrams === null || !(basisGrams > 0) ? [] : [{ id, basisGrams }]));
  const largest = weighed.reduce<(typeof weighed)[number] | null>(
    (most, one) => (most && most.basisGrams >= one.basisGrams ? most : one),
    null,
  );
  if (!largest || !Number.isFinite(grams)) return { level: 'assumption', code: 'scale: not known', values: title };
  const fold = grams / largest.basisGrams;
  if (fold <= TENFOLD * (1 + ROUNDING)) return null;
  const between = Math.sqrt(grams * largest.basisGrams);
  const values = {
    ...title,
    grams,
    largest: largest.basisGrams,
    run: largest.id,
    fold,
    between,
    most: largest.basisGrams * TENFOLD,
  };
  return { level: 'error', code: 'scale: jump', values };
}
