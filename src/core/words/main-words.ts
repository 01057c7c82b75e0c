/** What the main process says to the person: refusals, storage trouble, the terminal lines and the start-up screens. */
export const mainWords = {
  unknownProcedure: (name: string) => `"${name}" is nothing this program can do.`,
  invalidInput: (at: string, why: string) =>
    at === '' ? `The input is not right: ${why}.` : `The input is not right at ${at}: ${why}.`,
  tooLarge: (most: number) => `That is more than this program takes at once (${Math.round(most / 1024)} KiB).`,
  badText: 'The text holds a character that cannot be kept (NUL or half of a pair).',
  notJson: 'The request is not JSON.',
  tooDeep: (most: number) => `The data is nested deeper than ${most} levels.`,
  badFile: 'The file did not arrive as it was sent.',
  notPlain: 'The data holds something that is not plain data.',
  fileProblems: (count: number) =>
    count === 1 ? 'The file has one problem; nothing was taken in.' : `The file has ${count} problems; nothing was taken in.`,
  constraint: 'The workbook refused it, because it would contradict what is already written there. Nothing was saved.',
  notOurWindow: 'The call did not come from a window of this program.',
  internal: 'Something went wrong inside the program. Nothing was saved.',

  supplierNamed: 'A supplier needs a name.',
  noPack: 'That pack is not on the price list any more.',
  noOrder: (id: number) => `There is no order ${id}.`,
  orderWithoutPlan: 'The plan the order is for is not there any more.',
  moreThanOrdered: (open: number, count: number) =>
    open === 0 ? 'Nothing of this order is open any more.' : `Only ${open} of this order are open, not ${count}.`,
  noOrderEvent: (id: number) => `There is no entry ${id} of an order that could be taken back.`,
  receivedWasUsed: (bottles: readonly string[]) =>
    `${bottles.join(', ')} ${bottles.length === 1 ? 'was' : 'were'} used, tested or written on since: put right there what is wrong.`,
  receivedOfOrder: (id: number) => `received, order ${id}`,
  noBottle: (id: string) => `There is no bottle ${id} on the shelf.`,
  routeChanged: (after: number, newest: number) =>
    `The route was changed elsewhere meanwhile: revision ${newest} is the newest, not ${after}. Open it again.`,
  noRoute: (id: number) => `There is no route with the number ${id}.`,
  noRevision: (id: number, revision: number) => `The route with the number ${id} has no revision ${revision}.`,
  noPlan: (id: number) => `There is no plan with the number ${id}.`,
  noState: (state: number) => `The plan has no saved state ${state}.`,
  noPlanRevision: (revision: number) => `The plan has no revision ${revision}.`,
  noPaper: (id: number) => `There is no issued paper with the number ${id}.`,
  noSession: (id: number) => `There is no session ${id}.`,
  sessionMoved: (state: number) => `The session was changed in another window (now its state ${state}).`,
  noRun: (id: number) => `There is no run with the number ${id}.`,
  runGoesOn: (id: number) => `This batch is being weighed already, as run ${id}: go on with that one.`,
  runMoved: (newest: number) => `Something was added to this run meanwhile: entry ${newest} is its newest. Look at it first.`,
  runChanged: (id: number, entry: number) =>
    `The record of run ${id} was changed outside this program ${entry === 0 ? 'where it begins' : `at entry ${entry}`}. Nothing more is written into it; a backup may hold it as it was.`,
  lineOfRun: (run: number) => `Run ${run} wrote this line: correct its entry in the record of the run, and the shelf follows.`,
  bottleHoldsLess: (code: string, left: number, unit: string, taken: number) =>
    `By its ledger ${code} holds ${left} ${unit}, and ${taken} ${unit} were taken from it.`,
  bottleDiscarded: (code: string, day: string) =>
    `${code} was discarded on ${day} by its ledger. Look at its label: take another bottle, or say that it is this one.`,
  ledgerPutRight: (sheet: string) => `more was in it than the ledger said: weighed for ${sheet}`,
  usedFor: (run: number, sheet: string, material: string) => `run ${run}, sheet ${sheet}: ${material}`,
  madeBy: (run: number, sheet: string, crop: number) =>
    crop === 1 ? `run ${run}, sheet ${sheet}` : `run ${run}, sheet ${sheet}, crop ${crop}`,
  gotBackBy: (run: number, sheet: string) => `run ${run}, sheet ${sheet}, got back`,
  notFromShelf: (code: string) => `${code} was not charged: its unit needs a density, and none is known. Adjust it by hand.`,
  measuredAfter: (code: string, day: string) =>
    `${code} was left as it is: what is in it was measured on ${day}, which counts this in.`,
  noSettings: 'The workbook holds no settings.',
  staysOutOfDate: (codes: readonly string[]) =>
    `${codes.slice(0, 5).join(', ')}${codes.length > 5 ? ` and ${codes.length - 5} more` : ''} ${codes.length === 1 ? 'is' : 'are'} out of date: record a test or a purification, and the new date goes with it.`,
  noEdit: (edit: number) => `There is no change with the number ${edit}.`,
  editUndone: 'That change is undone already.',
  changedAgain: (codes: readonly string[]) =>
    `${codes.slice(0, 5).join(', ')} ${codes.length === 1 ? 'was' : 'were'} changed again since: nothing was put back.`,
  needsWater: (code: string) =>
    `The assay of ${code} is on the anhydrous basis: it needs the water found, below 100 % w/w. Nothing was changed.`,
  shelfFile: 'a shelf file',
  noIntake: (intake: number) => `No file with the number ${intake} was taken onto this shelf.`,
  intakeTakenBack: 'That file is taken back already.',
  intakeIsIn: 'That file was not taken back.',
  intakeAllChanged: (codes: readonly string[]) =>
    codes.length === 0
      ? 'Nothing of that file is on the shelf any more: nothing was changed.'
      : `Nothing is left as the file left it (${codes.slice(0, 5).join(', ')}${codes.length > 5 ? ' …' : ''}): nothing was changed.`,
  shelfMoved: (total: number) => `The shelf changed meanwhile: the search finds ${total} now. Look at them first.`,
  madeInto: (code: string) => `made into ${code}`,
  splitInto: (code: string) => `split into ${code}`,
  splitFrom: (code: string) => `split from ${code}`,
  enteredWrong: (code: string) => `entered wrong: ${code} in its place`,
  inPlaceOf: (code: string) => `in place of ${code}, which was entered wrong`,
  correctEmpty: (code: string) => `${code} is empty: there is nothing in it to put right. Add the right bottle as a new one.`,
  correctDrawn: (code: string, run: number) =>
    `Run ${run} took from ${code}, and its record names this bottle for ever, so it cannot be replaced. What can be put right: what is left, with Adjust; its strength, with a test; place, lot and dates where they stand. A weighing that named the wrong bottle is corrected in the record of the run.`,
  correctMade: (code: string, run: number) =>
    `Run ${run} made what is in ${code}: correct its entry in the record of the run, and the shelf follows.`,
  otherHalf: (code: string, why: string) =>
    `Its other half is in ${code}, and that cannot be taken back: ${why} Nothing was changed.`,
  weighed: (gross: number, tare: number) => `weighed: ${gross} g with the bottle, ${tare} g of it the bottle`,
  weighedDensity: (density: number) => `, at ${Number(density.toPrecision(5))} g/mL`,
  noTare: (code: string) => `What ${code} weighs empty is not known: enter its tare first.`,
  lighterThanEmpty: (gross: number, tare: number) =>
    `The mass needs to be at least that of the empty bottle, ${tare} g (got ${gross} g).`,
  noDensity: (code: string) => `${code} is kept by volume, and no density is known to turn its mass into millilitres.`,
  weighedAsKept: 'That is what the ledger says already: nothing was recorded.',
  noLine: (line: number) => `The bottle has no ledger line ${line}.`,
  noBackup: (name: string) => `There is no backup named ${name}.`,
  noReason: (kind: string) => `A movement of the kind "${kind}" needs a reason.`,
  noChange: 'A movement needs an amount other than zero.',
  wrongSign: (kind: string, sign: 'more' | 'less') =>
    sign === 'more' ? `"${kind}" needs an amount above zero.` : `"${kind}" takes out: it needs an amount below zero.`,
  tooSmall: (got: number, unit: string) => `The amount needs to be at least 0.000001 ${unit} (got ${got} ${unit}).`,
  belowZero: (left: number, unit: string, taken: number) =>
    `The bottle holds ${left} ${unit}: ${taken} ${unit} cannot be taken out of it.`,
  tooFull: 'The bottle would hold more than a bottle can be entered with.',
  undoneAlready: (line: number) => `Ledger line ${line} is already undone.`,
  measuredSince: (day: string) =>
    `What was really in the bottle was measured on ${day}, and that counts everything before it in. Undo that measurement first, or adjust the bottle again.`,
  testAhead: (on: string) => `A test needs a date that is not ahead (got ${on}).`,
  titratedNothing: 'A titration needs the strength or assay it found.',
  wrong: (why: string) => `${why.slice(0, 1).toUpperCase()}${why.slice(1)}.`,
  bottleExists: (id: string) => `a bottle ${id} is already on the shelf`,
  bottleTwice: (id: string) => `the bottle ${id} is in the file twice`,
  materialMissing: (key: string) => `the file names no material "${key}"`,
  planMoved: (newest: number) => `The plan has been changed meanwhile: its newest state is ${newest}.`,
  received: 'received',
  countedOnEntry: 'entered with this amount',
  importedFromFile: 'from a shelf file',
  demonstration: 'ready example',
  planMade: 'Plan made',

  storage: {
    full: 'The disk is full. Nothing was saved; what you typed is still here.',
    readOnly: 'The data file cannot be written: it or its folder is read-only. Nothing was saved.',
    busy: 'Another program holds the data file. Nothing was saved; try again.',
    damaged:
      'The data file is damaged. Nothing was saved. Start the program again: it will set the file aside and offer the backups.',
    inputOutput: 'The disk reported an error. Nothing was saved.',
    other: 'The data file could not be used. Nothing was saved.',
    closed: 'The data file is not open.',
  },

  mayNotBegin: 'An empty workbook is only started where the present one is damaged or missing.',
  backupNotSound: (name: string) => `The backup ${name} is not sound and was not used. Your data is as it was.`,
  backupFailed: (why: string) => `No backup could be made: ${why}`,

  paper: {
    noBrowser:
      'A PDF needs a Chromium-family browser (Chromium, Chrome, Edge, Brave, Vivaldi) on this machine, and none was found.',
    nothing: 'The paper cannot be read, so there is nothing to print.',
    notReady: 'The paper did not finish laying itself out in time. Try again.',
    noWindow: 'There is no screen here to show a print dialog on. Save the PDF and print that.',
    failed: 'The paper could not be printed.',
  },
} as const;

const withBackups = (backups: number): string =>
  backups === 0
    ? 'There is no backup in the data folder.'
    : `There ${backups === 1 ? 'is one backup' : `are ${backups} backups`} below; putting one back deletes nothing.`;

/** The start-up screens: title and paragraphs for each reason why the workbook is not open. */
export const startWords = {
  damaged: (backups: number) => ({
    title: 'The workbook is damaged',
    paragraphs: [
      'The file with your shelf, routes and plans cannot be read any more. It was renamed and nothing in it was changed: keep it, a specialist may still read parts of it.',
      withBackups(backups),
    ],
  }),
  missing: (backups: number) => ({
    title: 'The workbook is not where it was',
    paragraphs: [
      'The data folder holds traces of a workbook, but not the workbook itself. If you moved it, put it back and start the program again.',
      withBackups(backups),
    ],
  }),
  newer: {
    title: 'The workbook was made by a newer version',
    paragraphs: [
      'A newer version of this program has written this workbook. This version does not touch it: nothing was changed.',
      'Start the newer version, or bring this one up to date.',
    ],
  },
  notOurs: {
    title: 'The file in the data folder is not a workbook',
    paragraphs: [
      'A file with the name of the workbook lies in the data folder, but another program made it. It was not touched.',
      'Move it elsewhere, or choose another data folder with the environment variable BACKWEIGH_DATA.',
    ],
  },
  networkShare: (share: string) => ({
    title: 'The data folder lies on a network share',
    paragraphs: [
      `On a network share (${share}) a workbook can be damaged without anyone noticing, so none is opened there. Nothing was written.`,
      'Choose a folder on this machine with the environment variable BACKWEIGH_DATA; backups may be copied to the share.',
    ],
  }),
  notWritable: (detail: string) => ({
    title: 'The workbook cannot be opened for writing',
    paragraphs: [
      `The system said ${detail}. Nothing was changed.`,
      'Make the folder and the file writable, or make room on the disk, or end the other program that holds the file; then start again.',
    ],
  }),
  lies: 'It lies here:',
  backups: 'Backups, newest first',
  restore: 'Put this one back',
  begin: 'Start an empty workbook',
  again: 'Try again',
  backup: (made: string, reason: string, bytes: number) => `${made} · ${reason} · ${Math.max(1, Math.round(bytes / 1024))} KiB`,
} as const;

/** Lines of the terminal. */
export const hostWords = {
  window: 'Backweigh is open in a window of its own. Close the window to end it.',
  address: (address: string) => `Backweigh is ready. Open this address in a browser on this machine:\n${address}`,
  noSandbox: 'Running as root: the browser is started without its sandbox (--no-sandbox).',
} as const;

/** Messages the window's own system dialogs show; the first button is the first answer. */
export const windowWords = {
  gone: {
    type: 'error',
    message: 'The window has stopped.',
    detail: 'Everything that was saved is safe. Load the window again to go on.',
    buttons: ['Load it again', 'Close'] as string[],
    defaultId: 0,
    cancelId: 1,
  },
  outside: (address: string) => ({
    type: 'question' as const,
    message: 'Open this address in your browser?',
    detail: address,
    buttons: ['Open it', 'Stay here'],
    defaultId: 1,
    cancelId: 1,
  }),
} as const;

/** What `npm start` says. */
export const startLines = {
  buildFailed: 'Backweigh could not be built; the lines above say why.',
  unknownHost: (got: string) => `BACKWEIGH_HOST needs to be "electron" or "browser" (got "${got}").`,
  noElectron: (reason: string) => `Electron was asked for, but ${reason}.`,
  browser: (reason: string) => `Using the machine's own browser as the window: ${reason}.`,
  asked: 'BACKWEIGH_HOST asks for it',
  noDisplay: 'there is no display for a window',
  root: 'Electron does not run as root with its sandbox on',
  notFetched: "Electron's binary is not here and could not be fetched",
  electronFailed: 'Electron could not open a window here',
  notStarted: (why: string) => `Backweigh could not be started: ${why}`,
} as const;
