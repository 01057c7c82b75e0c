const counted = (count: number, one: string, more: string): string => `${count.toLocaleString('en')} ${count === 1 ? one : more}`;
const listed = (names: readonly string[]): string =>
  names.length > 1 ? `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}` : (names[0] ?? '');

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
  encoding: {
    title: 'Which of these reads right?',
    text: 'The file does not say how its letters are encoded. Choose the one in which every letter is as it should be.',
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
    separators: { ',': 'comma', ';': 'semicolon', '\t': 'tab' },
    sheet: 'sheet',
    headingRow: 'headings in row',
    needsRow: 'a row number is needed here, from 1 on',
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
    missing: (names: readonly string[]) =>
      `No column is ${listed(names)}: a new bottle needs ${names.length > 1 ? 'them' : 'it'}.`,
  },
  rows: {
    title: 'What becomes of the rows',
    all: 'all',
    show: (what: string, count: number) => `${what}: ${count.toLocaleString('en')}`,
    list: 'Rows of the file',
    columns: { number: 'row', fate: 'fate', what: 'material', left: 'left', place: 'place', why: 'why, or what changes' },
    none: 'No row of the file is of this kind.',
    more: (count: number) => `and ${count} more`,
    detail: (row: number) => `Row ${row}`,
    label: (label: string) => `bottle ${label}`,
    noLabel: 'gets a label when it is written',
    wrongIn: (column: string, value: string) => (value === '' ? `${column}:` : `${column}, “${value}”:`),
    nothingElse: 'Nothing stands against it.',
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
        ...(duplicates > 0 ? [`${counted(duplicates, 'row is', 'rows are')} there already`] : []),
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
    another: 'Another file',
  },
  commands: {
    import: 'Take a file onto the shelf (CSV, XLSX, JSON)…',
    csv: 'Export the shelf as CSV',
    xlsx: 'Export the shelf as a workbook (XLSX)',
    json: 'Export the shelf as a shelf file (JSON)',
  },
  export: {
    button: 'Export',
    csv: 'CSV: every bottle, one a row',
    xlsx: 'Workbook (XLSX): bottles, ledger, packs',
    json: 'Shelf file (JSON): everything that can be taken in again',
    making: 'Making the file…',
    name: (day: string, as: string) => `shelf-${day}.${as}`,
  },
} as const;
