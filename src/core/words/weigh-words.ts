/** What weighing mode says. */
export const weighWords = {
  label: 'Weighing',
  sheet: (id: string, run: number | null) => (run === null ? `Sheet ${id}` : `Sheet ${id} · run ${run}`),
  progress: (weighed: number, all: number) => `${weighed} of ${all} weighed`,
  by: (initials: string) => `by ${initials}`,
  leave: 'Leave (the run stays open)',

  acts: {
    weigh: 'Weigh',
    measure: 'Measure',
    weighBasis: 'Weigh the basis first: the others follow it. Do not add it yet.',
    add: 'Add',
    hold: 'Hold',
    removal: 'Do',
    rescale: 'Scale what follows?',
    product: 'Product',
    who: 'Who is weighing?',
    paused: 'Paused',
    finished: 'Finished',
  },

  asWeighed: (amount: string) => `${amount}, as weighed`,
  wasteTo: (container: string) => `Waste to “${container}”.`,
  leavesScaled: (volume: string, factor: string) => `down to ${volume}: scaled by ${factor} to the basis as weighed`,
  pausedSince: (time: string, initials: string) => `since ${time}, by ${initials}`,
  nextIs: (operation: string) => `Next: ${operation}`,
  pageDown: 'Page Down',
  moreToRead: 'There is more to read.',

  portion: (portion: number, portions: number) =>
    portion > portions ? `a further part, ${portion}` : `portion ${portion} of ${portions}`,
  shareOf: (whole: string) => `from this source; ${whole} in all, the rest from the next`,
  inAll: (amount: string) => `${amount} in all`,
  inAllAtMost: (amount: string, most: string) => `${amount} in all, ${most} at most`,
  range: (low: string, high: string) => `${low} to ${high}`,
  atMost: (most: string) => `${most} at most`,
  recordOnly: 'no range: it is recorded as it is',
  noTarget: 'no target is known: it is recorded as it is',
  untold: 'no target can be told',
  untoldRange: 'no range',
  rescaled: (factor: string, was: string) => `scaled by ${factor} to the basis as weighed; planned ${was}`,
  plannedForm: (form: string) => (form === '' ? '' : `planned ${form}`),
  stockOf: (material: string) => `stock solution of ${material}`,
  ofStock: (dissolved: string, from: string) =>
    `Of the stock solution, not of the material itself: made as it says before this. The shelf is not charged: take what was dissolved${dissolved === '' ? '' : ` (${dissolved} as planned)`} out of its bottle there${from === '' ? '' : ` (${from})`}.`,
  soFar: (amount: string) => `${amount} so far`,
  tare: (amount: string) => `tare ${amount}: the next reading is the gross`,

  from: {
    bottle: (code: string, form: string, lot: string, place: string) =>
      [code, form, lot === '' ? 'no lot' : `lot ${lot}`, place].filter(Boolean).join(' · '),
    left: (amount: string) => `${amount} left`,
    none: 'from no bottle of the shelf: the shelf is not charged',
    tap: 'tap or ice machine',
    wholeDish: 'Type “all” where the whole dish goes in and is not weighed.',
    scan: 'Scan or type another label to change it.',
    named: (name: string) => `from ${name}, on no shelf: the shelf is not charged`,
    planned: (source: string) => `Planned: ${source}.`,
    choices: 'Bottles of it on the shelf',
    choice: (label: string, form: string, lot: string, place: string, left: string) =>
      [label, form, lot === '' ? 'no lot' : `lot ${lot}`, place, left].filter(Boolean).join(' · '),
    pastDate: 'past its date',
    otherStrength: 'another strength than planned',
    noneThere: 'There is no bottle of it on the shelf: say what it is taken from.',
    whichOne: 'Say which: a number of the list, a label or a lot, 0, or what it is taken from in words.',
    noChoice: (number: number) => `The list has no number ${number}.`,
    alsoLabel: (line: string) => `${line} is a number of this list and also stands on a bottle: scan the bottle’s code.`,
    fromNone: 'Taken from no bottle of the shelf: the shelf is not charged.',
    namedDone: (name: string) => `Taken from “${name}”, on no shelf: the shelf is not charged.`,
    chosen: (code: string) => `Taken from ${code}.`,
    other: (code: string, material: string) => `${code} is not a bottle of ${material} on the shelf.`,
    several: (line: string, labels: readonly string[], by: 'label' | 'lot') =>
      by === 'lot'
        ? `${labels.join(' and ')} are both of lot ${line}: scan or type the label of the one in your hand.`
        : `${labels.join(' and ')} differ in nothing a scanner tells: type the label as it stands on the bottle, or its lot.`,
    alsoWeight: (line: string, unit: string) =>
      `${line} is a weight and also stands on a bottle: write “${line} ${unit}” for the weight, or scan the bottle’s code. Nothing was taken.`,
    outOfDate: (code: string) =>
      `${code} is past its date: not to be used before it has been tested or purified and that is recorded on the Shelf.`,
    gone: (codes: readonly string[]) =>
      `${codes.join(', ')}, which was planned for this, has been emptied or discarded since: scan another bottle.`,
    /** Of another strength or assay than planned, this or a part before. */
    strength: (begun: boolean) =>
      `Worked out for its strength${begun ? ' and for what the parts before brought' : ', which is not the planned one'}; the water or solvent that comes with it differs.`,
    strengthUntold: (code: string) =>
      `How strong ${code === '' ? 'this' : code} is, or a part before, is not known: put its strength and density on the Shelf and scan it, or scan another bottle.`,
  },

  verdict: {
    inRange: (amount: string) => `In range: ${amount}`,
    free: (amount: string) => `${amount} on the balance`,
    below: (amount: string, by: string) => `${amount}: ${by} below the range`,
    above: (amount: string, by: string) => `${amount}: ${by} above the range`,
    far: (amount: string, times: string) => `${amount}: ${times} times what is planned`,
    again: 'Not taken yet. Weigh all of it again, or take it as it is (F2) or as a part (F4).',
    taken: (material: string, amount: string) => `${material}: ${amount} taken.`,
    confirmed: 'Confirmed.',
    written: 'Written.',
  },

  ask: {
    reading: 'Reading of the balance, or a label',
    measured: 'Volume measured, or a label',
    bottle: 'What is it taken from? Number, label or lot; 0: no bottle of the shelf; or its name (a make-up: M1)',
    why: 'Why is it taken out of range?',
    whyNoMore: 'Nothing more of it: why? (The end point is reached; no more in the bottle)',
    checker: 'Second person: look at it, and type your initials',
    who: 'Initials',
    whoAgain: (initials: string) => `Initials (Enter: ${initials})`,
    remark: 'Remark',
    deviation: 'What was done differently?',
    readBy: (initials: string) => `I have read this: type your initials (${initials})`,
    holdBy: (initials: string) => `It is so: type your initials (${initials})`,
    notMet: 'What was found?',
    met: 'What was checked, and what was found?',
    done: 'Enter: done',
    rescale: 'Enter: scale what follows',
    adjust: 'Enter: record it, and put the bottle’s ledger right; or type another amount',
    resume: 'Enter: go on',
    correctWhich: (last: number | null) =>
      last === null
        ? 'Number of the entry that is wrong'
        : `Number of the entry that is wrong (Enter: ${last}, the last weighing)`,
    correctValue: (number: number, was: string, how: string) =>
      `Entry ${number} says: ${was} What should it say?${how === '' ? '' : ` ${how}.`} (Enter: it should not be there)`,
    correctReason: 'Why is it corrected?',
    spilledReason: (number: number) => `Entry ${number} was spilled: it is weighed again. What happened?`,
    end: 'Why does the run end here, before its last operation? (Escape: it goes on)',
    takeOutReason: (number: number) => `Entry ${number} should not be there. Why?`,
  },

  celsius: {
    written: (celsius: string) => `${celsius} written.`,
    outside: (celsius: string, window: string) => `${celsius} written: outside ${window}.`,
    limit: (celsius: string, side: 'above' | 'below', limit: string, action: string) =>
      `${celsius} written: ${side} the limit ${limit}. ${action}`,
  },
  read: {
    title: 'Read first',
    makeUp: (label: string, title: string, parts: string, gives: string) => `${label} ${title}: ${parts}; ${gives}`,
    statement: (code: string, words: string) => `${code} ${words}`,
  },

  rescale: {
    text: (real: string, planned: string, percent: string, more: boolean) =>
      `The basis weighed holds ${real}, ${percent} ${more ? 'more' : 'less'} than the planned ${planned}.`,
    columns: { material: 'charge', planned: 'planned', scaled: 'scaled' },
    fixed: 'fixed amount, stays',
    ask: (factor: string) => `Enter multiplies the targets of what follows by ${factor}. Nothing is changed unless you say so.`,
    kept: 'The targets stay as planned.',
    done: (factor: string) => `What follows is scaled by ${factor}.`,
  },

  refused: (why: string) => `Not written. ${why}`,
  notMine: (initials: string) => `To confirm, type the initials of who is here (${initials}).`,
  sameChecker: 'The second check needs another person.',
  badInitials: 'Initials need one to twenty letters or figures, a letter among them.',
  needsReason: 'A reason is needed.',
  cameLate: (lines: readonly string[]) =>
    `Came while the line before was being written, and not taken: ${lines.map((one) => `“${one}”`).join(', ')}. Look whether it belongs here: Enter takes it.`,
  keysLate: (keys: readonly string[]) =>
    `${keys.join(', ')} came while an entry was being written, and ${keys.length === 1 ? 'did' : 'all did'} nothing: look what stands here, and press again.`,
  othersWrote: (text: string) =>
    text === ''
      ? 'Not written. Another window wrote just now: look what stands here, then Enter.'
      : `Not written. While “${text}” was typed, another window wrote: look what stands here now. Enter takes it for that.`,
  cameTwice: (text: string) => `“${text}” came twice at once: it was taken once. Enter takes it again, for what stands here now.`,
  notWords: (text: string) =>
    `“${text}” reads like what a balance types, and words are needed here: Enter alone takes it as it stands; Escape goes back to the weighing.`,
  noSource: (text: string) => `“${text}” is what a balance types: words are needed here. Escape goes back to the weighing.`,
  /** How the right content of an entry is typed, by its kind. */
  correctHow: {
    started: 'The initials of who began',
    reading: 'A reading',
    charged: 'An amount, the label or the lot of the bottle it came from, or “spilled”: used up, and weighed again',
    temperature: '°C',
    check: '“met: …” or “not met: …”',
    deviation: '',
    rescaled: 'A factor',
    product: 'A mass, “nothing”, “assay 98 %”, “no assay”, “wet”, “dry”, “crop 2”, “place …”',
    recovered: 'A mass, “assay 98 %”, “no assay”, “wet”, “dry”, “place …”',
    remark: '',
    file: 'The name of the file',
  } as Readonly<Record<string, string>>,
  correctTheFirst: (of: number) => `That is a correction itself: correct entry ${of} again, the last correction counts.`,
  startStays: 'A run stays begun: who began it can be put right. End it (F10) where it should not go on.',
  noEntry: (number: string) => (number === '' ? 'There is no weighing to correct yet.' : `The record has no entry ${number}.`),
  loading: 'Opening the run…',

  operations: 'Operations of this sheet',
  states: { done: 'done', now: 'now', next: 'to come' },
  lastEntries: 'Written last',
  cautions: 'Before this',
  notes: 'Notes on this',
  broken: (entry: number) =>
    `This record was changed outside the program ${entry === 0 ? 'where it begins' : `at entry ${entry}`}. Nothing more is written into it.`,
  brokenBanner: (list: string) =>
    `The record of a run was changed outside this program: ${list}. A backup may hold it as it was.`,
  brokenLine: (entry: number, bottle: string) =>
    `${bottle === '' ? 'A line in a bottle’s ledger' : `The ledger of ${bottle}`} was changed outside the program: it no longer says what entry ${entry} took or made.`,
  brokenOne: (id: number, sheet: string, entry: number) =>
    `run ${id}${sheet === '' ? '' : ` (sheet ${sheet})`} ${entry === 0 ? 'where it begins' : `at entry ${entry}`}`,
  brokenLineOf: (id: number, sheet: string, entry: number, bottle: string) =>
    `${bottle === '' ? 'a line of a bottle’s ledger' : `the ledger of ${bottle}`}, against entry ${entry} of run ${id} (sheet ${sheet})`,

  commands: {
    start: 'Weigh the first chosen batch, or go on with it',
    takeAsIs: 'Take it as it is',
    enough: 'No more of it',
    part: 'Take it as a part',
    bottle: 'Taken from',
    notMet: 'Not met',
    check: 'Check that is met',
    keepTargets: 'Targets as planned',
    correct: 'Correct; spilled',
    end: 'End it here',
    pause: 'Pause here',
    remark: 'Remark',
    deviation: 'Deviation',
    who: 'Another person',
    unasked: 'Back to the weighing',
    leave: 'Leave weighing mode',
  },

  product: {
    title: (name: string) => `Product: ${name}`,
    expected: (expected: string, theory: string) => `expected ${expected} from the real basis; ${theory} in theory`,
    crop: (crop: number) => (crop === 1 ? 'first crop' : crop === 2 ? 'second crop' : `crop ${crop}`),
    wetCrop: (crop: number) =>
      `${crop === 1 ? 'first crop' : crop === 2 ? 'second crop' : `crop ${crop}`} as weighed wet, not counted`,
    mass: 'Mass of the product',
    carried:
      'It goes on as it is, so there is nothing to weigh: finish the run. Its yield is counted with the step that follows.',
    massHint: 'as the balance types it; tare, then gross, if it is weighed in its bottle',
    wet: 'still wet',
    assay: 'Assay, % w/w',
    assayHint: 'empty: not determined, taken as 100 %',
    place: 'Where it stands',
    record: 'Record the product',
    nothing: 'Nothing was obtained',
    nothingRecorded: 'Recorded: this crop gave nothing.',
    recorded: (code: string) => `Recorded; it stands on the shelf as ${code}.`,
    wetRecorded: 'Recorded as wet; it goes to the shelf when it is weighed dry.',
    noMass: 'The product needs a mass, such as 8.914 g.',
    noAssay: 'An assay needs a number above 0, up to 100.',
    tareAndNet: (tare: string, net: string | null) => (net === null ? `tare ${tare}: now the gross` : `tare ${tare}, net ${net}`),
    tareFirst: (amount: string) => `Tare ${amount} noted: now the gross.`,
    endedEarly: (why: string) => `Ended before its last operation: ${why}. Record what was saved of it, if anything was.`,
    finish: 'Finish the run',
    back: 'Back to the bench',
    file: 'Name a file in the record',
    another: 'Another crop, or weighed again dry',
    basisBack: (basis: string) => `Basis got back: ${basis}`,
    basisMass: (basis: string) => `Mass of ${basis} got back`,
    recordBasis: 'Record what was got back',
    basisNeedsMass: 'What was got back needs a mass, such as 1.25 g.',
    notNow: 'Nothing was got back',
  },

  outcome: {
    title: 'What it came to',
    basis: 'basis really charged',
    theory: 'theory, from the real basis',
    product: 'product, contained',
    yield: 'yield',
    uncorrected: 'yield, uncorrected (no assay: taken as 100 %)',
    planned: 'planned yield',
    expected: 'the plan would have given',
    cumulative: 'yield over all steps',
    recovered: 'basis got back, contained',
    recovery: 'basis got back, of what was charged',
    overWhole: 'Yield and basis got back are more than all of the basis: something is wet still, or a weighing is wrong.',
  },

  again: {
    title: 'The rest of the plan',
    working: 'Working out what it means for the rest…',
    otherPlan: 'Open the plan of this run on the Plan place, and its rest is planned again here.',
    unknown: 'The rest cannot be planned: the plan’s notices say why.',
    short: (amount: string, product: string) => `${amount} less ${product} than planned.`,
    surplus: (amount: string, product: string) => `${amount} more ${product} than planned.`,
    asPlanned: (product: string) => `As much ${product} as planned: the rest stays as it is.`,
    nothingChanged: 'Ways to go on. Nothing is changed until you take one; undo on the Plan place takes it back.',
    keep: 'Keep every draw',
    keepWith: (amount: string, product: string) => `Keep every draw and repeat the step for ${amount} ${product}`,
    keepLittle: (amount: string, product: string) =>
      `Keep every draw: ${amount} ${product} lacks, about what a balance rounds; the plan asks for a batch of it`,
    surplusStays: 'Keep every draw; what is over stays on the shelf',
    scale: (percent: string) => `Scale the rest: every draw to ${percent}`,
    lower: (what: string, from: string, to: string) => `Lower the draw of ${what} from ${from} to ${to}`,
    raise: (what: string, from: string, to: string) => `Raise the draw of ${what} from ${from} to ${to}`,
    take: 'Take this',
    nothingToTake: 'Nothing to press: the plan stays as it is.',
    nothingToTakeAgain: 'Nothing to press: the plan stays as it is, and the batch it asks for is on the Bench.',
    takeOne: (what: string) => `Take this: ${what}`,
    taken: 'Taken: the plan follows. Undo takes it back.',
    changes: 'What it changes, against the batch as planned',
    planned: 'as planned',
    afterwards: 'then',
    none: 'Changes nothing else.',
    more: (count: number) => (count === 1 ? 'and 1 more line' : `and ${count} more lines`),
    edit: (what: string) => `planned again after a run: ${what}`,
  },

  runs: {
    title: 'Runs of this plan',
    none: 'Nothing has been weighed for this plan yet.',
    open: (sheet: string) => `Go on with sheet ${sheet}`,
    look: (sheet: string) => `Open the record of sheet ${sheet}`,
    weigh: 'Weigh',
    weighBatch: (sheet: string) => `Weigh sheet ${sheet}`,
    goOn: 'Go on',
    show: 'Open',
    phase: { running: 'being weighed', paused: 'paused', finished: 'finished' },
    endedEarly: 'ended early',
    weighed: (weighed: number, all: number) => `${weighed} of ${all} weighed`,
    yield: (percent: string, uncorrected: boolean) => `yield ${percent}${uncorrected ? ', uncorrected' : ''}`,
    cumulative: (percent: string) => `${percent} over all steps`,
    exported: 'Export',
    exportOf: (id: number) => `Save the record of run ${id} as JSON`,
    exportFailed: (why: string) => `Not saved. ${why}`,
    report: 'Report',
    reportOf: (id: number) => `Report of run ${id}`,
    unread: (why: string) => `The runs could not be read. ${why}`,
  },
} as const;
