/** What is said about yields learned from runs. */
export const learnedWords = {
  goingOn: (runs: readonly number[]) =>
    `Being weighed as ${runs.length === 1 ? 'run' : 'runs'} ${runs.join(', ')}: what was taken is off the shelf, and what comes of it is not counted until it is weighed.`,
  title: (count: number) => (count === 1 ? 'Yields of its run' : `Yields of its ${count} runs`),
  planned: {
    entered: (percent: string) => `Planned with the entered yield, ${percent}.`,
    learned: (percent: string, count: number) =>
      `Planned with ${percent}, learned from ${count === 1 ? 'one run' : `${count} runs`} and frozen with this plan.`,
  },
  newer: (count: number) =>
    count === 1
      ? 'One run is newer than this plan’s yield, or changed since.'
      : `${count} runs are newer than this plan’s yield, or changed since.`,
  predicts: (median: string, low: string, high: string) =>
    `The next run, from these and the entered yield as one more: ${median} as often more as less; ${low} to ${high} eight times in ten.`,
  columns: { run: 'run', day: 'day', basis: 'basis', yield: 'yield', weight: 'counts' },
  weight: (run: number) => `How much run ${run} counts`,
  weights: { '0': 'left out', '0.5': 'half', '1': 'once', '2': 'twice' },
  uncorrected: 'uncorrected',
  use: 'Plan with these runs',
  refresh: 'Refresh from these runs',
  drop: 'Plan with the entered yield',
  plot: (count: number) => `Yields of ${count === 1 ? 'one run' : `${count} runs`}, and against the amount of basis`,
  all: 'all runs',
  scale: 'against the basis, log scale',
  dot: (run: number, percent: string, basis: string) => `run ${run}: ${percent}${basis === '' ? '' : ` from ${basis}`}`,
  edit: (title: string) => `yield of ${title} from its runs`,
} as const;
