import type { RunRow, RunStart } from '../port/runs.ts';
import type { Recorded } from './entry.ts';
import { EXACT, entered } from '../quantity/figure.ts';
import { known as knownFigure } from '../words/why.ts';
import { cumulativeYield, type EarlierRun, runOutcome } from './outcome.ts';
import { foldRun, type RunState } from './state.ts';

/** A run as it is kept. */
export interface KeptRun {
  readonly id: number;
  readonly start: RunStart;
  readonly entries: readonly Recorded[];
}

const ALL_OF_IT = knownFigure(entered('basis got back', 100, '%', 'unchanged', EXACT));

/**
 * What each run came to, the cumulative yields through the bottles that earlier runs filled. Order does not matter; a
 * bottle that feeds the run which filled it counts as bought.
 */
export function runHistory(runs: readonly KeptRun[]): readonly RunRow[] {
  const states = new Map(runs.map((run) => [run.id, foldRun(run.start.sheet, run.entries)]));
  const fillers = new Map<string, KeptRun>();
  for (const run of runs) {
    for (const one of states.get(run.id)?.products ?? []) if (one.bottle !== null) fillers.set(one.bottle, run);
  }
  const back = new Map<string, KeptRun>();
  for (const run of runs) {
    for (const one of states.get(run.id)?.recovered ?? []) if (one.bottle !== null) back.set(one.bottle, run);
  }
  const known = new Map<number, number | null>();
  const cumulative = (run: KeptRun, above: ReadonlySet<number>): number | null => {
    const found = known.get(run.id);
    if (found !== undefined) return found;
    const state = states.get(run.id);
    if (!state) return null;
    const got = cumulativeYield(state, runOutcome(run.start.sheet, state).yield, earlier(new Set([...above, run.id])));
    const percent = got.ok ? got.figure.value : null;
    known.set(run.id, percent);
    return percent;
  };
  /** What was got back went through the steps before its run, and not through that run. */
  const before = (run: KeptRun, above: ReadonlySet<number>): number | null => {
    const state = states.get(run.id);
    const got = state && cumulativeYield(state, ALL_OF_IT, earlier(new Set([...above, run.id])));
    return got?.ok ? got.figure.value : null;
  };
  const earlier =
    (path: ReadonlySet<number>) =>
    (bottle: string): EarlierRun | null => {
      const [filler, source] = [fillers.get(bottle), back.get(bottle)];
      if (filler && !path.has(filler.id)) return { cumulativePercent: cumulative(filler, path) };
      return source && !path.has(source.id) ? { cumulativePercent: before(source, path) } : null;
    };
  return runs.flatMap((run) => {
    const state = states.get(run.id);
    return state ? [rowOf(run, state, cumulative(run, new Set()))] : [];
  });
}

function rowOf({ id, start, entries }: KeptRun, state: RunState, cumulativePercent: number | null): RunRow {
  const { sheet } = start;
  const outcome = runOutcome(sheet, state);
  const factor = outcome.basisFactor;
  return {
    id,
    plan: start.plan,
    revision: start.revision,
    route: start.route,
    step: sheet.step,
    batch: sheet.batch,
    sheet: sheet.sheet.id,
    title: sheet.sheet.title,
    started: start.started,
    last: entries.at(-1)?.at ?? start.started,
    phase: state.phase,
    early: state.early !== '',
    weighed: state.charges.filter((one) => one.complete).length,
    charges: state.charges.length,
    basisFactor: factor.ok ? factor.figure.value : null,
    basisGrams: factor.ok ? factor.figure.value * sheet.basis.grams : null,
    productGrams: outcome.product.ok ? outcome.product.figure.value : null,
    yieldPercent: outcome.yield.ok ? outcome.yield.figure.value : null,
    uncorrected: outcome.yield.ok && outcome.yield.figure.label !== 'yield',
    cumulativePercent,
    bottles: [...state.products, ...state.recovered].flatMap((one) => (one.bottle === null ? [] : [one.bottle])),
  };
}
