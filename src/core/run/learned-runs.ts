import type { LearnedRun } from '../plan/ask.ts';
import type { RunRow } from '../port/runs.ts';

/** Runs of a step whose yield is known, oldest first. */
export function runsOfStep(rows: readonly RunRow[], step: string): readonly (RunRow & { readonly yieldPercent: number })[] {
  return rows
    .flatMap((row) => (row.step === step && row.yieldPercent !== null ? [{ ...row, yieldPercent: row.yieldPercent }] : []))
    .sort((a, b) => a.id - b.id);
}

/**
 * What a plan made anew learns: every run of each step that has a yield, each counting once. What was saved of a run that
 * ended before its last operation says nothing of the step: it stands in the list and counts only where a person says so.
 */
export function learnedFromRows(rows: readonly RunRow[]): Readonly<Record<string, LearnedRun[]>> {
  const steps = [...new Set(rows.map((row) => row.step))];
  return Object.fromEntries(
    steps.flatMap((step): [string, LearnedRun[]][] => {
      const runs = runsOfStep(rows, step).map(
        ({ id, yieldPercent, early }): LearnedRun => ({ run: id, percent: yieldPercent, weight: early ? 0 : 1 }),
      );
      return runs.length === 0 ? [] : [[step, runs]];
    }),
  );
}
