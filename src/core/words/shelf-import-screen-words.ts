const counted = (count: number, one: string, more: string): string => `${count.toLocaleString('en')} ${count === 1 ? one : more}`;
const listed = (names: readonly string[]): string =>
  names.length > 1 ? `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}` : (names[0] ?? '');

const acted = (bottles: number, changed: number): string =>
  [
    ...(bottles > 0 ? [counted(bottles, 'bottle', 'bottles')] : []),
    ...(changed > 0 ? [counted(changed, 'change of a bottle that was there', 'changes of bottles that were there')] : []),
  ].join(' and ');
const shortList = (labels: readonly string[]): string =>
  labels.length > 8 ? `${labels.slice(0, 8).join(', ')} and ${labels.length - 8} more` : labels.join(', ');

/** The screen on which a file becomes bottles, and the ways the shelf is given out. */
export const importScreenWords = {
  title: 'A file for the shelf',
  choose: 'Choose another file',
  close: 'Close',
  reading: (name: string) => `Reading ${name}…`,
  readingOn: 'Reading the file…',
  judging: 'Holding every row against the shelf…',
  writing: (done: number, of: number) => `Writing: ${done.toLocaleString('en')} of ${of.toLocaleString('en')} rows`,
  rowsOf: (done: number, of: number) => `${done.toLocaleString('en')} of ${of.toLocaleString('en')}`,
  stop: 'Stop',
  stopping: 'Stopping…',
  notRead: (why: string) => `The file was not taken in. ${why}`,
  notReadAgain: (why: string) => `${why} What is below is as it was before.`,
  unreadable: 'The file could not be opened.',
  goneMeanwhile:
    'The window was loaded again and the program no longer holds the file. Choose it once more: nothing of it was written.',
  encoding: {
    title: 'Which of these reads right?',
    text: 'The file does not say how its letters are encoded. Choose the one in which every letter is as it should be.',
    none: 'If none does, save the file in your spreadsheet as “CSV UTF-8” or as a workbook (XLSX) and choose it again. Nothing is written until you say so.',
    names: {
      'utf-8': 'UTF-8',
      'utf-16le': 'UTF-16, little end first',
      'utf-16be': 'UTF-16, big end first',
      'windows-1252': 'Windows-1252 (Western Europe)',
      'windows-1250': 'Windows-1250 (Central Europe)',
      macintosh: 'Macintosh Roman',
    },
    use: (name: string) => `Read it as ${name}`,
  },
  how: {
    title: 'How it is read',
    encoding: 'letters',
    separator: 'fields parted by',
    separators: { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar' },
    sheet: 'sheet',
    headingRow: 'headings in row (0: none)',
    needsRow: 'a row number is needed here, or 0 where there are no headings',
    own: 'The headings are those of our own files: every cell is taken exactly as it stands.',
    workbook: 'Workbook: cells as they are shown; no formula is worked out.',
  },
  columns: {
    title: 'Columns',
    text: 'Say what each column is. What is left out is not read.',
    leaveOut: 'leave out',
    noHeading: (letters: string) => `column ${letters}`,
    use: (heading: string) => `what “${heading}” is`,
    unit: (heading: string) => `unit of “${heading}” where a cell has none`,
    noUnit: 'each cell says its unit',
    noBasis: 'each cell says its basis',
    decimal: (heading: string) => `decimal sign in “${heading}”`,
    decimals: { ask: 'decimal sign: ask', point: 'decimal point 1,234.5', comma: 'decimal comma 1.234,5' },
    dates: (heading: string) => `order of days in “${heading}”`,
    orders: { ask: '03/04/2027: ask', day: 'day first', month: 'month first' },
    twice: (headings: readonly string[]) =>
      `${headings.map((one) => `“${one}”`).join(', ')} ${headings.length === 1 ? 'heads' : 'each head'} more than one column: see below which of them is read.`,
    missing: (names: readonly string[]) =>
      `No column is ${listed(names)}: a new bottle needs ${names.length > 1 ? 'them' : 'it'}.`,
  },
  rows: {
    title: 'What becomes of the rows',
    all: 'all',
    show: (what: string, count: number) => `${what}: ${count.toLocaleString('en')}`,
    list: 'Rows of the file',
    columns: {
      number: 'row',
      fate: 'fate',
      what: 'material',
      left: 'left',
      place: 'place',
      why: 'why, or what changes: choose a row to read all of it',
    },
    none: 'No row of the file is of this kind.',
    noRows: 'There is no row below the headings: nothing can be written.',
    more: (count: number) => `+${count} more: choose the row to read all of it`,
    detail: (row: number) => `Row ${row}`,
    label: (label: string) => `bottle ${label}`,
    noLabel: 'gets a label when it is written',
    wrongIn: (column: string, value: string) => (value === '' ? `${column}:` : `${column}, “${value}”:`),
    nothingElse: 'Nothing stands against it.',
    reasons: 'Why rows are refused: choose a reason to see its rows',
    saveRefused: 'Save the refused rows with their reasons',
    refusedName: (file: string) => `${file.replace(/\.[A-Za-z0-9]+$/, '')}-refused.csv`,
    refusedSaved: (name: string) => `Saved as ${name}.`,
    takeDuplicates: 'Rows without a label that are on the shelf already: take them in as further bottles',
  },
  write: {
    sum: (added: number, updated: number) =>
      [
        ...(added > 0 ? [`${counted(added, 'bottle comes', 'bottles come')} to the shelf`] : []),
        ...(updated > 0 ? [`${counted(updated, 'is updated', 'are updated')}`] : []),
      ].join(', ') || 'Nothing is to be written',
    leftOut: (duplicates: number, refused: number) =>
      [
        ...(duplicates > 0
          ? [`${counted(duplicates, 'row is', 'rows are')} there already, on the shelf or further up in the file`]
          : []),
        ...(refused > 0 ? [`${counted(refused, 'row is', 'rows are')} refused and left out`] : []),
      ].join('; '),
    button: (rows: number) => (rows === 1 ? 'Write 1 row' : `Write ${rows.toLocaleString('en')} rows`),
    allOrNothing: 'All of it is written, or nothing.',
  },
  written: {
    title: 'It is on the shelf',
    text: (name: string, added: number, updated: number, leftOut: number) =>
      `From ${name}: ${counted(added, 'bottle', 'bottles')} added, ${updated.toLocaleString('en')} updated, ${counted(leftOut, 'row', 'rows')} left out.`,
    toShelf: 'To the shelf',
    wrong: 'Was it the wrong file?',
    another: 'Another file',
  },
  intakes: {
    title: 'Files taken in',
    open: 'Files taken in: take one back',
    working: 'Working on every bottle of it…',
    hint: 'Each is taken back as one, by counter-entries in the ledgers. What was used, changed or tested since stays as it is.',
    none: 'No file was taken onto this shelf yet.',
    came: (added: number, updated: number) =>
      [
        ...(added > 0 || updated === 0 ? [counted(added, 'bottle came', 'bottles came')] : []),
        ...(updated > 0 ? [counted(updated, 'bottle updated', 'bottles updated')] : []),
      ].join(', '),
    takenIn: 'taken in',
    backOn: 'taken back',
    takeBack: 'Take it back',
    bringBack: 'Bring it back',
    takenBack: (bottles: number, changed: number) => `Taken back: ${acted(bottles, changed)}.`,
    broughtBack: (bottles: number, changed: number) => `Brought back: ${acted(bottles, changed)}.`,
    stay: (labels: readonly string[]) =>
      `${shortList(labels)} ${labels.length === 1 ? 'was used or changed since and stays as it is' : 'were used or changed since and stay as they are'}.`,
    notBack: (labels: readonly string[]) =>
      `${shortList(labels)} could not be brought back: the label is on another bottle now, or it was changed since.`,
    failed: (why: string) => `Nothing was changed. ${why}`,
  },
  commands: {
    intakes: 'Files taken onto the shelf: take one back…',
    import: 'Take a file onto the shelf (CSV, XLSX, JSON)…',
    csv: 'Export the shelf as CSV',
    xlsx: 'Export the shelf as a workbook (XLSX)',
    json: 'Export the shelf as a shelf file (JSON)',
  },
  export: {
    button: 'Export',
    csv: 'CSV: every bottle, one a row',
    xlsx: 'Workbook (XLSX): bottles, ledger, packs, orders',
    json: 'Shelf file (JSON): everything that can be taken in again',
    making: 'Making the file…',
    name: (day: string, as: string) => `shelf-${day}.${as}`,
  },
} as const;
