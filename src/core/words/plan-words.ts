import { groupedDigits } from '../quantity/format.ts';
import type { Stage } from '../route/route.ts';
import type { Notice } from './notice.ts';
import { statusWords } from './status-words.ts';

/** What the Plan place says. */
export const planWords = {
  amountAtMost: (most: number, got: number, unit: string) =>
    `an amount needs to be at most ${groupedDigits(most)} ${unit} (got ${groupedDigits(got)} ${unit})`,
  loading: 'Opening the plan…',
  failed: 'The plan could not be opened',
  retry: 'Try again',
  none: {
    title: 'No plan is open',
    text: 'A plan scales a route to what is wanted. Choose a route and plan it.',
    toRoutes: 'Go to the routes',
    open: 'Open a plan',
  },
  unsolved: 'The plan cannot be worked out as it stands. What can be shown is shown.',

  cascade: {
    unplanned: (route: string) => `${route}, as it stands: its plan cannot be worked out yet`,
    title: 'Cascade',
    bandsIn: 'Bands in',
    moles: 'moles',
    grams: 'grams',
    zoom: 'Width of the cascade',
    wider: 'Wider steps',
    narrower: 'Narrower steps',
    all: 'all',
    showAll: 'Show all steps at once',
    picture: 'picture',
    asTable: 'table',
    shownAs: 'Cascade shown as',
    steps: 'Steps, in working order',
    label: (name: string, steps: number, draws: number) =>
      `Flow of material for ${name}: ${steps} ${steps === 1 ? 'step' : 'steps'}, ${draws} ${draws === 1 ? 'draw' : 'draws'}. The table holds the same figures.`,
    step: (of: {
      readonly number: number;
      readonly title: string;
      readonly basis: string;
      readonly product: string;
      readonly idle: boolean;
      readonly batches: number;
    }) =>
      `Step ${of.number}, ${of.title}: ${of.idle ? 'nothing to start' : `${of.basis} gives ${of.product}`}${of.batches > 1 && !of.idle ? `, in ${of.batches} batches` : ''}`,
    inAll: (material: string) => `${material} in all`,
    sum: 'sum of what leaves here',
    none: 'none needed',
    shelf: 'shelf',
    fromShelf: 'from the shelf',
    comesBack: (material: string) => `${material} comes back`,
    notStarted: 'covered by stock',
    table: {
      step: 'step',
      from: 'from',
      yield: 'yield',
      gives: 'gives',
      theory: 'at 100 %',
    },
  },

  /** While what was typed into a field cannot be taken. */
  stillPlannedFor: (amount: string) => `Still planned for ${amount}.`,
  stillPlannedWith: (percent: string) => `Still planned with ${percent}.`,

  yield: {
    /** What a refused number is, in its refusal. */
    what: 'a yield',
    label: (title: string) => `Yield of ${title}, per cent; one figure or lowest / likeliest / highest`,
    word: 'yield',
    over: (got: number) => `a yield needs to be at most 100 % (got ${got} %): is the product dry, and is its assay known?`,
    zero: 'a yield needs to be more than 0 %',
    fraction: (asTyped: string, timesHundred: string) =>
      `is this ${asTyped} % or ${timesHundred} %? Write “${asTyped} %” or “${timesHundred}”`,
    three: 'one figure, or three: lowest / likeliest / highest',
    order: 'the three need to rise: lowest / likeliest / highest',
  },

  target: {
    title: 'Target',
    note: 'flows back from here',
    amount: (product: string) => `Amount of ${product}`,
    product: 'Product',
    purpose: 'Purpose',
    purposeEmpty: 'purpose',
    date: 'Wanted by',
    dateEmpty: 'no date',
    use: 'to use',
    keep: 'to keep',
    useOrKeep: 'Use or keep',
    add: 'Add a draw',
    remove: (product: string) => `Take away the draw of ${product}`,
    together: 'together',
    contained: (product: string) => `${product} in all draws`,
    sum: 'sum of the draws',
    empty: 'Nothing is asked for yet. Add a draw: an amount, a product, what it is for.',
  },

  fromStock: {
    title: 'From what there is',
    open: 'What can I make from stock?',
    of: 'Make as much as possible of',
    limits: 'Limited by the stock of',
    noStock: 'None of the bought materials stands on the shelf in a form that serves.',
    onHand: 'on hand',
    most: 'At most',
    runsOut: (material: string) => `First to run out: ${material}.`,
    more: (amount: string, material: string, target: string, next: string) =>
      `${amount} more ${material} would bring ${target}; then ${next} limits.`,
    noBatch: (material: string, amount: string) => `Too little ${material} for another batch: ${amount} more would allow one.`,
    nothingElse: (material: string) => `Nothing else that was chosen limits beside ${material}.`,
    each: (unit: string, target: string, material: string, byBatch: boolean) =>
      `Each ${unit} more brings ${byBatch ? `at most ${target}, less where it takes another batch` : target}; nothing else that was chosen limits beside ${material}.`,
    planShort: (materials: string) =>
      `Only with several makers of one material side by side. A plan of this much runs the cheapest of them and is short of ${materials}.`,
    basis: 'At the likeliest yields, with all other draws met; what is not chosen is taken to be bought.',
    noLimit: 'Nothing that was chosen limits it.',
    nothing: (material: string | null) =>
      material
        ? `The other draws, or the first batch of this one, already take more ${material} than there is.`
        : 'The other draws cannot be met from this stock.',
    noPlan: 'The route cannot be planned as it stands: see the notices.',
    take: 'Plan this much',
  },

  fetch: {
    title: 'Fetch list',
    places: (count: number) => (count === 1 ? '1 place' : `${count} places`),
    lacking: (count: number, of: number) => `${count} of ${of} not ready`,
    notOnShelf: 'Not on the shelf',
    noPlace: 'No place noted',
    tap: 'Tap',
    steps: 'From a step',
    empty: 'Nothing has to be fetched.',
    notKnown: 'Not known while the plan cannot be worked out.',
    bars: (onHand: string, needed: string) => `${onHand} on hand, ${needed} needed`,
    onHand: 'on hand',
    net: 'used up in the end',
    goesIn: 'goes in; the rest is dissolved with it, as a stock solution',
    short: 'missing',
    lot: (lot: string) => (lot === '' ? 'no lot' : `lot ${lot}`),
    usedBy: (step: number, title: string, amount: string) => `step ${step} · ${title}${amount === '' ? '' : `: ${amount}`}`,
    usedAgain: (use: string, times: number) => `${use}, ${times === 2 ? 'twice' : `${times} times`}`,
    takeOf: (form: string, lot: string) => `take of ${form}${lot === '' ? '' : `, lot ${lot}`}`,
    makeUp: (from: string, lot: string) => `make up from ${from}${lot === '' ? '' : `, lot ${lot}`}`,
    take: 'take',
    water: 'water',
    gives: 'gives',
  },

  status: statusWords,

  step: {
    heads: {
      stage: 'stage',
      charge: 'charge',
      ratio: 'ratio',
      amount: 'amount',
      take: 'take',
      from: 'from',
    },
    stages: {
      reaction: 'reaction',
      quench: 'quench',
      'work-up': 'work-up',
      purification: 'purify',
    } satisfies Record<Stage, string>,
    unbalanced: 'does not balance',
    idle: {
      'nothing to make': 'Nothing to start: stock covers what this step would make, or nothing asks for it.',
      'left out': 'Left out of this plan: what only this step makes is bought.',
      'another makes it': 'Not run: another step makes the same at less cost of material.',
    },
    leaveOut: 'leave this step out',
    leaveOutAndBuy: (product: string) => `leave out and buy ${product}`,
    takeIn: 'let this step run again',
    edit: 'edit the step',
    editDone: 'done editing',
    and: 'and',
    carried: (amount: string, solvent: string) =>
      `in about ${amount} of ${solvent}, which comes along; the mass is what is contained`,
    yieldCountedIn: (number: number) => `its yield is counted in step ${number}`,
    basis: 'basis',
    equivalents: 'equiv',
    /** The rule whose ratio already says it. */
    equivalentsRule: 'equivalents',
    density: 'd',
    newVessel: 'new vessel',
    portions: (count: number, each: string) => `in ${count} portions of ${each}`,
    perBatch: (count: number, each: string) => `${count} × ${each}`,
    notKnown: 'not known',
    with: (device: string) => `with ${device}`,
    until: (endPoint: string) => `until ${endPoint}`,
    hold: 'hold',
    about: (minutes: string) => `about ${minutes}`,
    over: (minutes: string) => `over ${minutes}`,
    minutes: (count: number) =>
      count < 120 ? `${count} min` : `${Math.floor(count / 60)} h${count % 60 === 0 ? '' : ` ${count % 60} min`}`,
    check: (check: string) => `check: ${check}`,
    ifNot: (act: string) => `if not: ${act}`,
    stands: (how: string) => `may stand here: ${how}`,
    limit: (celsius: number, side: 'above' | 'below', action: string) =>
      `Limit: never ${side} ${celsius} °C. If passed: ${/[.!?]$/.test(action.trim()) ? action.trim() : `${action.trim()}.`}`,
    noEntry: 'no harmonised entry here: read the safety sheet',
    /** Of what the step makes. */
    formedNoEntry: (names: string) => `Formed, with no harmonised entry here: ${names}. Read the safety sheets, or ask.`,
    fromStep: (number: number) => `from step ${number}`,
    tap: 'tap',
    makeUp: 'make up',
    waste: (container: string) => `to “${container}”`,
    removals: {
      filter: 'filter',
      separate: 'separate the layers',
      distil: 'distil',
      dry: 'dry',
      'wash away': 'wash away',
      vent: 'vent',
    },
    leaves: (millilitres: number) => `until ${millilitres} mL per g are left`,
    gives: 'gives',
    theory: 'at 100 %',
    source: (source: string) => `after ${source}`,
    wear: (items: readonly string[]) => `wear and have ready: ${items.join(', ')}`,
  },

  batches: {
    count: (count: number) => (count === 1 ? 'one batch' : `${count} batches`),
    of: 'of',
    why: {
      'one is enough': 'by volume alone it fits one vessel',
      'own limit': 'own limit',
      vessel: 'the largest vessel',
      cooling: 'the cooling',
      'by hand': 'chosen by hand',
    },
    fewer: 'One batch fewer',
    more: 'One batch more',
    workOut: 'work it out',
    stays: 'of product stays behind in each',
    addition: 'at least, the addition of one batch, for the cooling: a screening figure',
    filled: (vessel: string, percent: number, most: number) => `${vessel}, filled to ${percent} % (${most} % at most)`,
    noVessel: (volume: string) => `no vessel for ${volume}`,
    volumeUnknown: 'volume not known, so no vessel is named',
    flask: (percent: number) => `Flask filled to ${percent} per cent`,
    heatOfBatch: 'given off by the reaction in a batch, a screening figure',
    heatUnknown: 'heat unknown',
    heatText: 'no figure is entered for this step: unknown is not safe',
    gas: (litres: string) => `by the equation, over the whole step; ${litres}. Never a closed vessel.`,
  },

  notices: {
    title: 'Notices',
    step: (number: number | undefined) => (number === undefined ? '' : `Step ${number}: `),
    none: 'No notice of the plan. Cautions stand before the operations of each step.',
    levels: {
      error: 'Error',
      caution: 'Caution',
      short: 'Short',
      assumption: 'Assumption',
      note: 'Note',
    } satisfies Record<Notice['level'], string>,
  },

  edits: {
    undo: 'undo',
    redo: 'redo',
    undone: (what: string) => `undone: ${what}`,
    redone: (what: string) => `done again: ${what}`,
    refused: (text: string) => `“${text}”, which was not taken`,
    elsewhere: 'the change made in another window',
    other: 'change',
    amount: (product: string) => `amount of ${product}`,
    product: 'product of a draw',
    purpose: 'purpose of a draw',
    date: 'date of a draw',
    kept: 'use or keep',
    add: 'a draw added',
    remove: 'a draw taken away',
    leaveOut: (step: string, out: boolean): string => (out ? `${step} left out` : `${step} taken in again`),
    yield: (step: string) => `yield of ${step}`,
    batches: (step: string) => `batches of ${step}`,
  },

  commands: {
    copy: 'Go on in a copy of the plan, with the plan beside it',
    edit: 'Edit the operations of the chosen step, or stop',
    next: 'Next step of the cascade',
    before: 'Step before in the cascade',
    table: 'Show the cascade as a table or as a picture',
    grams: 'Draw the cascade in grams or in moles',
    wider: 'Wider steps in the cascade',
    narrower: 'Narrower steps in the cascade',
    all: 'All steps of the cascade at once',
  },
} as const;
