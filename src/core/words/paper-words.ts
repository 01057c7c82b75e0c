import { makeUpExcess } from './make-up-excess.ts';
import type { Status } from '../plan/result.ts';
import type { Stage } from '../route/route.ts';
import { statusWords } from './status-words.ts';

/** No-break space: a number never parts from its unit at the end of a line. */
const NB = '\u00a0';

/** Ends a text as a sentence, once. */
const ended = (text: string): string => (/[.!?]$/.test(text.trim()) ? text.trim() : `${text.trim()}.`);

/** What the builders of papers say; what is printed around their data stands in paper-page-words.ts. */
export const paperWords = {
  stages: {
    reaction: 'Reaction',
    quench: 'Quench',
    'work-up': 'Work-up',
    purification: 'Purification',
  } satisfies Record<Stage, string>,

  weighingTitle: (sheets: string) => `Weighing sheets ${sheets}`,
  weighingTitleOne: (sheet: string) => `Weighing sheet ${sheet}`,
  batch: (batch: number, batches: number) => `batch ${batch} of ${batches}`,
  expected: (product: string, grams: string, percent: string, theory: string) =>
    `expected ${grams} ${product} (${percent} of ${theory})`,
  followsSingle: (percent: string) => `amounts follow a yield of ${percent}, taken as certain`,
  followsRuns: (percent: string, runs: number) =>
    `amounts follow a yield of ${percent}, learned from ${runs === 1 ? 'one run' : `${runs} runs`}`,
  followsRange: (likeliest: string, lowest: string, highest: string) =>
    `amounts follow the likeliest yield, ${likeliest} (${lowest} to ${highest})`,
  yieldOf: (theory: string) => `yield, % of ${theory}`,
  source: (words: string) => `Procedure: ${words}`,
  unbalanced: 'This equation does not balance: check the step before weighing.',
  gas: (name: string, amounts: string, worst: string) =>
    `Frees ${name}: ${amounts} by the equation. ${worst}${worst === '' ? '' : ' '}Never close the vessel.`,
  basisFirst: (number: number, measured: boolean) =>
    `${measured ? 'Measure' : 'Weigh'} charge ${number}, the basis, before the others: their amounts follow it.`,

  boxes: { conditions: 'Conditions', vessel: 'Vessel', ready: 'Wear and have ready' },
  noConditions: 'none written in the route',
  shortestAddition: (time: string) => `Add over ${time} at least, for the cooling: a screening figure, local rules decide.`,
  staysBehind: (grams: string) => `${grams} of product is taken to stay behind in the vessel.`,
  noProtection: 'nothing written in the route: follow local rules',
  heat: (kilojoules: string) => `heat given off: ${kilojoules} a batch, a screening figure`,
  heatUnknown: 'heat of reaction: no figure entered, unknown',
  spill: (words: string) => `Spill: ${words}`,
  firstAid: (words: string) => `First aid: ${words}`,
  spillUnknown: 'Spill: nothing written in the route. Read the safety sheets before starting.',
  firstAidUnknown: 'First aid: nothing written in the route. Read the safety sheets before starting.',
  emergencyUnknown: 'Spill and first aid: nothing written in the route. Read the safety sheets before starting.',
  keep: (list: string, batches: number) => `Put aside to keep${batches > 1 ? ', of all batches together' : ''}: ${list}`,
  keeps: (how: string) => `Keeps ${how}.`,
  keepOne: (amount: string, purpose: string) => (purpose === '' ? amount : `${amount} (${purpose})`),
  noVessel: 'no vessel of the list serves',
  volumeUnknown: 'volume not known, so no vessel is named',
  thenVessels: (list: string) => `then ${list}`,
  overfilled: (millilitres: string, percent: string) => `too small: ${millilitres} would be in it, ${percent}`,
  filledTo: (millilitres: string, percent: string) => `filled to ${millilitres}, ${percent}`,
  stillIn: (vessel: string) => `still in the ${vessel}`,
  runsOff: (millilitres: string) =>
    `filtrate and washings up to ${millilitres}: the filter flask holds them, or is emptied between`,
  volumeOnly: (millilitres: string) => `up to ${millilitres}`,
  atMost: (fraction: string) => `${fraction} at most`,
  fractions: { half: 'half', twoThirds: 'two thirds' },

  asItIs: 'all of it as it is, record it',
  weighOut: 'weigh out, record it',
  measureOut: 'measure out, record it',
  ownLimit: (most: string) => `${most} at most`,
  unknown: 'unknown',
  unknownAccepted: 'fill in before weighing',
  noLess: (range: string) => `${range}, no less`,
  noRange: 'no range given',
  estimate: (most: string) => `an estimate; ${most} at most`,
  inAll: (amount: string) => `${amount} in all`,
  inPortions: (count: number) => `in ${count} portions`,
  each: (amount: string) => `${amount} each`,
  aboutEach: (amount: string) => `about ${amount} each`,
  basis: 'basis',
  equivalents: (value: string, long = false) => `${value}${long ? ' ' : NB}equiv`,
  asStock: (device: string) => `${device}, as the stock solution above`,
  perBasis: (amount: string, of: string) => `${amount}/${of}`,
  netItself: 'net',
  netOver: (perGram: string) => `net ÷ ${perGram}`,
  density: (value: string) => `d${NB}${value}`,
  orByMass: (amount: string) => `or ${amount}`,
  noEntry: 'no harmonised entry here: read the safety sheet',
  noEntrySentence: 'No harmonised entry here: read the safety sheet.',
  noneListed: 'none listed',
  noneAtStrength: 'none listed here holds at this strength: read the safety sheet',
  formed: (name: string) => `${name} (formed)`,
  freed: (name: string) => `${name} (freed)`,
  unlisted: (names: string) => `No harmonised entry here, read the safety sheet: ${names}.`,
  noSentence: 'not in the table of sentences: read the safety sheet.',

  lot: (lot: string) => `lot ${lot}`,
  noLot: 'no lot written',
  fromStep: (number: number) => `dish of step ${number}`,
  fromBatch: (batch: number) => `what batch ${batch} gave`,
  ownNotYet: 'this step makes it: it must be in hand before, from elsewhere',
  fromStepUnknown: 'dish of an earlier step',
  ofDish: (part: string, whole: string) => `${part} of about ${whole}, not all of it`,
  cameBack: (batch: number) => `first what came back of batch ${batch}`,
  about: (amount: string) => (amount === '' ? '' : `about ${amount}`),
  tap: 'tap or ice machine',
  makeUp: (label: string) => `make-up ${label}`,
  makeUpFirst: (label: string) => `make up ${label}`,
  missing: {
    enough: 'not on the shelf',
    'make up': 'to be made up',
    short: 'not on the shelf',
    'out of date': 'only past its date on the shelf',
    'unknown strength': 'only of unknown strength on the shelf',
    'from a step': 'from an earlier step',
    tap: 'tap or ice machine',
  } satisfies Record<Status, string>,
  rest: (why: string) => `the rest: ${why}`,
  over: (time: string) => `add over ${time}`,
  at: (window: string) => `at ${window}`,
  carried: (amount: string, solvent: string) =>
    `it comes in about ${amount} of ${solvent}: the mass is what is contained, not what is on the balance`,
  untilEnd: (endPoint: string) => `until ${endPoint}`,

  limit: (side: 'above' | 'below', celsius: string, action: string) => `Limit ${celsius}. If ${side} it: ${ended(action)}`,
  holdUntil: (until: string) => `until ${until}`,
  aboutTime: (time: string) => `about ${time}`,
  check: (check: string) => `Check: ${ended(check)}`,
  ifNot: (action: string) => `If not: ${ended(action)}`,
  stands: (how: string) => `By the route it may stand here: ${ended(how)}`,
  ifNotUnknown: 'If not: do not go on; ask the responsible person.',

  removals: { filter: 'Filter', separate: 'Separate', distil: 'Distil', dry: 'Dry', 'wash away': 'Wash away', vent: 'Vent' },
  takesOff: (list: string) => `takes off ${list}`,
  taken: {
    liquids: 'the liquids',
    solids: 'the solids',
    'aqueous layer': 'the aqueous layer',
    'organic layer': 'the organic layer',
    'all but the product': 'all but the product',
  },
  part: (what: string, percent: string) => `${what} (${percent})`,
  leaves: (amount: string, perGram: string) => `down to ${amount} (${perGram} per g of basis)`,

  water: 'water',
  makeUpGives: (amount: string, excessPercent: number) => `gives ${amount}, ${makeUpExcess(excessPercent)}`,
  makeUpShare: (whole: string) => `enough for this batch; the fetch list makes the whole ${whole} at once`,

  /** What a session waits for: the steps to do before it, and what those lack. */
  notMadeYet: (first: readonly number[], lacks: readonly string[]) =>
    `not made yet: ${first.length === 1 ? 'step' : 'steps'}${NB}${first.join(', ')} first${lacks.length === 0 ? '' : `, which ${first.length === 1 ? 'lacks' : 'lack'} ${lacks.join(', ')}`}`,
  lacking: (material: string, status: Status) => `${material} (${statusWords[status]})`,

  fetch: {
    title: (plan: string) => `Fetch list for ${plan}`,
    session: (parts: string) => `for ${parts}`,
    sessionStep: (number: number, batches: string) => `step ${number} batch ${batches}`,
    whole: 'for the whole plan',
    noPlace: 'Place not written',
    fromSteps: 'From earlier steps',
    tap: 'Tap and ice machine',
    notOnShelf: 'Not on the shelf',
    expectedUse: (amount: string) => `expected use: ${amount}`,
    goesIn: (amount: string) => `dissolved as a stock solution; goes in: ${amount}`,
    uses: (steps: readonly number[]) => `${steps.length === 1 ? 'step' : 'steps'}${NB}${steps.join(', ')}`,
    lot: (lot: string, amount: string) => `${lot}: ${amount}`,
    forMakeUp: (lot: string, form: string, amount: string) => `made from ${lot}, ${form}: ${amount}`,
    passedOver: (lot: string, why: string) => `not ${lot}: ${why}`,
    hereOnly: (here: string, whole: string) => `${here} here; ${whole} for the whole plan`,
  },
  summary: {
    title: (plan: string) => `Summary of ${plan}`,
    kept: (purpose: string) => (purpose === '' ? 'to keep' : `to keep: ${purpose}`),
    range: (lowest: string, likeliest: string, highest: string) => `${likeliest} (${lowest} to ${highest})`,
    batches: (count: number, vessel: string) => (count === 1 ? `one batch, ${vessel}` : `${count} batches, ${vessel}`),
    idle: 'not run',
  },
  buy: {
    title: (plan: string) => `Buying list for ${plan}`,
    step: (number: number, title: string) => `step ${number}, ${title}`,
  },
  statuses: { ...statusWords, 'not made yet': 'not made yet' },
} as const;
