/** What the Bench place says. */
export const benchWords = {
  title: 'Bench',
  noPlan: {
    title: 'No plan is open',
    text: 'A plan says which batches there are to do. Open one, and its steps stand here.',
    toRoutes: 'Go to the routes',
  },
  unsolved: {
    title: 'There are no amounts yet',
    text: 'The plan cannot be worked out as it stands:',
    toPlan: 'Go to the plan',
  },
  idle: {
    title: 'Nothing has to be made',
    text: 'What is on the shelf already covers everything the plan asks for.',
  },
  loading: 'Opening the plan…',

  batches: {
    title: 'Batches',
    note: 'for this session',
    all: 'all',
    none: 'none',
    choose: 'Choose',
    chooseAll: 'Choose all batches',
    chooseNone: 'Choose none of the batches',
    step: (number: number, title: string) => `${number} · ${title}`,
    covered: 'covered by stock: nothing to do',
    one: 'one batch',
    several: (count: number, reason: string) => (reason === '' ? `${count} batches` : `${count} batches: ${reason}`),
    batch: (batch: number, batches: number) => `batch ${batch} of ${batches}`,
    gives: (basis: string, basisName: string, product: string, productName: string) =>
      `${basis} ${basisName} → ${product} ${productName}`,
    vessel: (name: string, percent: number, most: number, stage: string) =>
      percent > most
        ? `${name}, too small for the ${stage}: ${percent} % of it, ${most} % at most`
        : `${name}, filled to ${percent} % at most, in the ${stage}`,
    noVessel: 'no vessel of the list serves',
    volumeUnknown: 'volume not known, so no vessel is named',
  },

  check: {
    title: 'Stock check',
    note: 'for what is chosen',
    nothing: 'Choose a batch, and what it needs from the shelf stands here.',
    ready: 'Everything is at hand.',
    missing: (open: number, all: number) =>
      open === 1 ? `One of ${all} lines needs something first.` : `${open} of ${all} lines need something first.`,
    columns: { material: 'material', take: 'take', onHand: 'on hand', state: 'state' },
    lot: (lot: string) => (lot === '' ? 'no lot written' : `lot ${lot}`),
    openBottle: (lot: string) => `Open the bottle ${lot} on the shelf`,
    makeUp: (label: string) => `make-up ${label}`,
    whole: (state: string) => `${state} for the whole plan`,
    first: (steps: readonly number[]) => `${steps.length === 1 ? 'step' : 'steps'} ${steps.join(', ')} first`,
    lacks: (material: string, state: string) => `its ${material}: ${state}`,
  },

  papers: {
    title: 'Papers',
    nothing: 'Choose a batch, and its papers stand here.',
    weighing: (count: number) => (count === 1 ? 'Weighing sheet' : 'Weighing sheets'),
    weighingNote: (sheets: string) => `sheets ${sheets}`,
    weighingNoteOne: (sheet: string) => `sheet ${sheet}`,
    fetch: 'Fetch list',
    fetchNote: (lines: number, makeUps: number) =>
      `${lines === 1 ? '1 line' : `${lines} lines`}${makeUps === 0 ? '' : `, ${makeUps === 1 ? '1 make-up' : `${makeUps} make-ups`} first`}`,
    preview: 'Preview',
    issue: 'Issue and open',
    issueHint: 'Issuing gives the plan a revision and keeps the paper for ever, exactly as it is.',
    issuing: 'Saving the plan and issuing the paper…',
    unsaved: 'The plan could not be saved, so nothing was issued.',
    failed: (why: string) => `Nothing was issued. ${why}`,
    secondCheck: 'column for a second person’s initials',
    size: 'paper',
    sizes: { A4: 'A4', Letter: 'Letter' },
    sizeFailed: (why: string) => `The paper size is not kept: ${why}`,
    summary: 'Route summary',
    summaryNote: (steps: number) => (steps === 1 ? 'the cascade and its step' : `the cascade and its ${steps} steps`),
    issuedTitle: 'Issued from this plan',
    issuedNone: 'Nothing has been issued from this plan yet.',
    issued: (revision: number, when: string) => `revision ${revision} · ${when}`,
    earlier: 'from an earlier plan: the plan was changed since',
    open: 'Open',
    openPaper: (title: string) => `Open: ${title}`,
    pdf: 'PDF',
    pdfOf: (title: string) => `Save as PDF: ${title}`,
    makingPdf: 'Making the PDF…',
    print: 'Print',
    printOf: (title: string) => `Print: ${title}`,
    printing: 'Opening the printer…',
    printFailed: (why: string) => `Not printed. ${why}`,
    reading: 'Reading the list…',
    unread: (why: string) => `The list of papers could not be read. ${why}`,
  },
} as const;

/** What the Buy place says. */
export const buyWords = {
  title: 'Short for this plan',
  note: (count: number) => (count === 1 ? '1 line' : `${count} lines`),
  nothing: {
    title: 'Nothing is short',
    text: 'The shelf covers everything this plan needs, as it stands or made up from something stronger.',
  },
  columns: { material: 'material', need: 'needed', onHand: 'on hand', short: 'short', why: 'why', uses: 'for' },
  notOnShelf: 'none on the shelf',
  notEnough: 'not enough on the shelf',
  toBegin: 'to begin with: these steps feed each other, and give it back at the end',
  lot: (lot: string) => (lot === '' ? 'A bottle without a lot' : `Lot ${lot}`),
  use: (number: number, title: string) => `${number} · ${title}`,
  paper: 'Buying list',
  preview: 'Preview',
  issue: 'Issue and open',
} as const;
