import type { StartPlan } from '../plan/result.ts';

/** A percentage as it is said: whole, but never 0 or 100 where it is not quite that. */
const percent = (value: number): string => {
  if (value > 99 && value < 100) return value > 99.9 ? 'over 99.9' : value.toFixed(1);
  if (value > 0 && value < 1) return value < 0.1 ? 'under 0.1' : value.toFixed(1);
  return value.toFixed(0);
};

/** What is said about how sure a plan is: on screen, in the terminal, on paper. */
export const confidenceWords = {
  title: 'Chance of enough',
  percent,
  certain:
    'Every yield is taken as certain, so there is no chance to work out. Enter one as lowest / likeliest / highest, e.g. 65/72/80.',
  nothing: 'Nothing has to be started: nothing is drawn that stock does not cover. Stock is taken as certain (100 %).',
  /** The plan at the likeliest yields is seldom a fifty-fifty plan. */
  likeliest: (chance: number) =>
    `At the likeliest yields the chance that every draw is met is ${percent(chance)} %${Math.abs(chance - 50) < 2 ? '' : ', not fifty-fifty'}.`,
  follows: (start: StartPlan, chance: number | null): string => {
    const times = `aiming at ${start.multiplier.value.toFixed(3)} times what has to be made`;
    if (start.kind === 'likeliest') return 'Amounts follow the likeliest yields.';
    const sure = chance === null ? '' : `, a ${percent(chance)} % chance of enough`;
    if (start.kind === 'chance')
      return `Amounts follow the start chosen for a ${start.chancePercent} % chance of enough, ${times}.`;
    return `Amounts follow the start chosen by hand, ${times}${sure}.`;
  },
  heading: (start: StartPlan): string => {
    if (start.kind === 'likeliest') return 'at the likeliest yields';
    const times = `aiming at ${start.multiplier.value.toFixed(3)} times what has to be made`;
    return start.kind === 'chance' ? `for a ${start.chancePercent} % chance of enough, ${times}` : times;
  },
  paper: (start: StartPlan): string => {
    if (start.kind === 'likeliest') return '';
    const times = `aiming at ${start.multiplier.value.toFixed(3)} times what has to be made`;
    return start.kind === 'chance'
      ? `start chosen for a ${start.chancePercent} % chance of enough, ${times}`
      : `start chosen by hand, ${times}`;
  },
  now: 'this start',
  startFor: 'Start for a chance of',
  noStart: 'no start',
  times: 'times',
  choose: (of: number) => `Start for a ${of} % chance of enough`,
  chooseLikeliest: 'likeliest',
  chooseLikeliestLong: 'Start at the likeliest yields',
  gets: 'What each draw may get',
  getsHeads: ['1 in 10 below', 'half below', '1 in 10 above'],
  risk: 'Where the risk is',
  slopes: 'How each yield counts',
  started: 'started',
  riskHeads: ['step', 'risk', 'start, per point of yield'],
  noRange: 'certain',
  more: (unsettled: number) =>
    unsettled === 0
      ? 'Where the risk is, how each yield counts'
      : `The risk, how each yield counts, and ${unsettled === 1 ? 'one range' : `${unsettled} ranges`} to settle`,
  asked: (text: string) => `${text} asked`,
  chart: (material: string) => `Chance of enough against the amount of ${material} started`,
  chartMark: (grams: string, chance: string) => `${grams}: ${chance} %`,
  drag: 'Drag the mark, or use the arrow keys, to change the start',
  limits: {
    ask: (title: string, range: string) =>
      `${title}, ${range} %: are the outer two never passed, or passed about one time in ten each?`,
    absolute: 'never passed',
    'one in ten': 'one in ten',
  },
  edits: { start: 'the start', limits: (title: string) => `what the limits of ${title} mean` },
} as const;
