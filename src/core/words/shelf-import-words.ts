import type { StrengthKnown } from '../matter/strength-known.ts';
import { formatSignificant } from '../quantity/format.ts';
import type { FieldName } from '../shelf/import/fields.ts';
import type { FateKind } from '../shelf/import/fate.ts';

const none = 'nothing';
const amountOf = (value: number, unit: string): string => `${value} ${unit}`;
const counted = (count: number, one: string, more: string): string => `${count.toLocaleString('en')} ${count === 1 ? one : more}`;

/** How the fields of a table are called on screen. */
const fields = {
  label: 'label of the bottle',
  name: 'material',
  formula: 'formula',
  cas: 'CAS number',
  kind: 'presented as',
  assay: 'assay, % w/w',
  assayOn: 'assay counts (as is, or anhydrous)',
  strength: 'strength',
  solvent: 'solvent',
  titrated: 'titrated on',
  density: 'density measured on the bottle, g/mL',
  celsius: 'that density at, °C',
  densitySource: 'source of that density',
  left: 'how much is in it',
  unit: 'unit of the amount',
  lot: 'lot',
  place: 'place',
  supplier: 'supplier',
  received: 'received',
  opened: 'opened',
  useBy: 'use by',
  heldBack: 'held back',
  note: 'note',
  tare: 'mass of the empty bottle, g',
  waterPercent: 'water, % w/w',
  price: 'price',
  tests: 'tests (JSON)',
  smiles: 'structure (SMILES)',
  synonyms: 'synonyms',
  state: 'state at 20 °C',
  pureDensity: 'density of the pure liquid, g/mL',
  pureCelsius: 'that density at, °C (pure)',
  pureSource: 'source of that density (pure)',
  solidDensity: 'density of the solid, g/mL',
  utility: 'needs no bottle',
  hazards: 'hazard statements',
  acidity: 'acidity',
  materialNote: 'note on the material',
} as const satisfies Record<FieldName, string>;

/** Everything said while a table is taken onto the shelf, or the shelf is given out as one. */
export const shelfImportWords = {
  fields,
  fates: { new: 'new', update: 'update', duplicate: 'duplicate', refused: 'refused' } satisfies Record<FateKind, string>,

  problems: {
    pointOrThousands: (got: string) =>
      `is ${got} a decimal or thousands? Other cells of this column have a decimal comma: say which sign it is above`,
    decimalSign: (sign: 'point' | 'comma') =>
      sign === 'point'
        ? 'a number with a decimal point is expected here, such as 1234.5'
        : 'a number with a decimal comma is expected here, such as 1234,5',
    parted: (got: string, plain: string) => `${got} has something between its digits: write ${plain} where it is one number`,
    needsUnit: 'a unit is needed: write it behind the number, or choose one for the column',
    percentBasis: 'a percentage needs its basis: % w/w, % w/v or % v/v. Write it behind the number, or choose it for the column',
    range: (got: string) => `${got} is a range: write the one value that stands on the certificate or was titrated`,
    twoSolvents: (column: string, strength: string) =>
      `two solvents are named: ${column} in its column, ${strength} behind the strength`,
    needsBasis: 'a strength needs its basis: write it behind the number, or choose one for the column',
    day: 'a day such as 2027-03-04 or 4.3.2027 is expected here',
    dayOrMonth: (got: string) => `is ${got} written with the day or the month first? Say so for the column`,
    noSuchDay: (got: string) => `there is no such day (got ${got})`,
    yesOrNo: 'yes or no is expected here',
    badText: 'the text holds a character that cannot be kept (NUL or half of a pair)',
    formula: 'this looks like the formula of a spreadsheet, not like its value: write what it stands for',
    shortened:
      'a spreadsheet has shortened this number, and others may now read the same: format the column as text and write it out',
    merged: (row: number) => `this cell is merged with the one in row ${row}: write its value in every row`,
    oneOf: (choices: readonly string[]) => `${choices.slice(0, -1).join(', ')} or ${choices.at(-1) ?? ''} is expected here`,
    onlySolution: 'only a solution has this',
    notNeat: 'a neat material has an assay, no strength: present it as a solution, or take the strength away',
    assayOrStrength: 'a bottle has either an assay (neat) or a strength (solution)',
    needsStrength: 'a solution needs a strength with its basis, such as 68 % w/w or 3 mol/L',
    assayOrSolution: (value: number) =>
      `is ${value} % w/w the purity of the neat material, or a solution? For a purity put it in a column “assay”; for a solution name its solvent in a column “solvent”`,
    unknownHolds: 'a bottle of unknown strength cannot have this',
    needsName: 'a name is needed: the built-in table does not know this CAS number',
    checkDigit: 'the check digit of this CAS number is wrong',
    needsAmount: (got: string) => `an amount in g or mL is expected here, such as 500 mL or 25 g (got ${got})`,
    oneBottle: (count: number) => `a row is one bottle: give ${count} rows, one for each`,
    tooMuch: 'an amount needs to be at most 1,000,000 g or mL',
    tooSmall: (unit: string) => `an amount needs to be zero, or at least 0.000001 ${unit}`,
    notJson: 'a list of tests in JSON is expected here, as our own files have it',
    noMaterial: 'a new bottle needs a material: a name or a CAS number',
    noAmount: 'a new bottle needs an amount: an unknown one is not zero',
    labelTwice: (label: string, row: number) =>
      `the label ${label} stands in the file more than once (first in row ${row}), with different contents`,
    labelNearly: (label: string, other: string) =>
      `the label ${label} differs from ${other} in nothing a scanner tells (capitals, blanks): write it as it stands on the bottle, or give this one another label`,
    otherMaterial: (label: string, there: string, file: string) =>
      `bottle ${label} holds ${there}; the file says ${file}. What a bottle holds does not change: give this one another label`,
    otherForm: (label: string, there: string, file: string) =>
      `bottle ${label} is ${there}; the file says ${file}. A strength changes by a recorded test or titration`,
    staysOutOfDate: (label: string) =>
      `bottle ${label} is out of date: only a recorded test or purification makes it usable again, no later date in a file`,
    otherUnit: (label: string, there: string, file: string) => `bottle ${label} is kept in ${there}; the file says ${file}`,
    ragged: (got: number, wanted: number) =>
      `the row has ${counted(got, 'field', 'fields')}, the headings are ${wanted}: a separator too many or too few, or a quote that was not closed`,
    strayQuote: 'a quote stands inside a field that is not quoted, or text behind a closing quote',
    openQuote: 'a quote is opened here and never closed',
    shownAsOther: (shown: string, held: number) => `the cell shows ${shown} but holds ${held}: which of them is it? Write it out`,
    noDay: (held: number) => `the cell is formatted as a day but holds ${held}, which is none: a sheet shows ##### for it`,
    cellError: (shown: string) => `the cell holds an error (${shown})`,
    structure: (why: string) => why,
  },

  remarks: {
    monthOnly: (day: string) => `only the month of the use-by date is given: taken as its last day, ${day}`,
    atLeast: (got: string, value: string) => `“${got}” is a least value: taken as ${value}`,
    about: (got: string, value: string) => `“${got}” is only about: taken as ${value}`,
    asAssay: (value: number) => `${value} % w/w without a solvent: taken as the assay (purity), not as a solution`,
    asSolution: (value: number) =>
      `${value} % w/w: taken as a solution in water. If it is the purity of the neat material, choose “assay” for the column`,
    noFormula:
      'no formula is given or known: plans can count it by mass or volume only, never in moles. A column “formula” would give it',
    fromRoute: (cas: string | undefined, formula: string | undefined, route: string) => {
      const filled = [cas && `CAS number ${cas}`, formula && `formula ${formula}`].filter(Boolean).join(' and ');
      return `${filled === '' ? 'its state' : filled} from your route “${route}”`;
    },
    strongerThanKnown: ({ most, basis, by, celsius, source }: StrengthKnown) => {
      const limit = `${formatSignificant(most, 3)} ${basis}`;
      return by === 'solubility'
        ? `stronger than water can hold at ${celsius} °C, ${limit}: taken in as it stands. Look at the label again (${source})`
        : `stronger than any density of it known here, which end at ${limit}: taken in as it stands. Look at the label again (${source})`;
    },
    strengthUnknown: 'no strength is given: taken in as of unknown strength',
    densityAt: (celsius: number) => `no temperature is given for the density: taken as ${celsius} °C`,
    formulaAsName: (formula: string, names: readonly string[]) =>
      `${formula} is a formula, of ${names.join(', ')} among others: nothing is taken from the built-in table; give its name or CAS number`,
    fromTable: (cas: string) => `CAS number ${cas} and formula from the built-in table, by the name`,
  },

  says: {
    sameRow: (row: number) => `the same as row ${row}`,
    onShelf: (label: string) => `on the shelf already, as ${label}`,
    likeRow: (row: number) => `reads exactly like row ${row}: a further bottle of it`,
    left: (from: number, to: number, unit: string) =>
      `left ${amountOf(from, unit)} → ${amountOf(to, unit)}, recorded as adjusted`,
    changed: (field: FieldName, from: string | number | boolean | undefined, to: string | number | boolean) =>
      field === 'heldBack'
        ? to === true
          ? 'will be held back'
          : 'will no longer be held back'
        : `${fields[field]} ${from === undefined || from === '' ? none : String(from)} → ${String(to)}`,
    factsKept: 'what the file says otherwise of the material is left aside',
    testsKept: 'its history of tests is not changed by a file',
  },

  file: {
    empty: 'The file is empty.',
    tooLarge: (most: number) => `The file is larger than ${Math.round(most / 1_000_000)} MB.`,
    orderHeadings: [
      'ordered',
      'material',
      'CAS number',
      'form',
      'packs',
      'pack size',
      'pack unit',
      'supplier',
      'price each',
      'expected',
      'came',
      'will not come',
      'bottles',
      'for plan',
      'note',
    ],
    unpacksTooLarge: (most: number) =>
      `Unpacked, the file would be larger than ${Math.round(most / 1_000_000)} MB. Nothing of it was read.`,
    tooManyRows: (most: number) => `The file has more than ${most.toLocaleString('en')} rows.`,
    tooManyCells: (most: number) => `The file has more than ${most.toLocaleString('en')} cells.`,
    tooManyColumns: (row: number, most: number) => `Row ${row} has more than ${most} columns.`,
    fieldTooLong: (row: number, most: number) =>
      `Row ${row} has a field of more than ${most.toLocaleString('en')} characters: perhaps a quote is not closed, or this is no table.`,
    nothingInIt: 'There is no row with anything in it below the headings.',
    notText: 'The file is no text: it holds NUL characters.',
    notEncoded: (encoding: string) => `The file cannot be read as ${encoding}.`,
    otherKind: (kind: string) => `The file is ${kind}, whatever its name says. A CSV, XLSX or shelf (JSON) file is expected.`,
    oldWorkbook:
      'The file is a workbook of the old kind (XLS), or one with a password. Save it as XLSX without a password, or as CSV.',
    notWorkbook: 'The file is an archive, but no XLSX workbook.',
    damagedWorkbook: 'The workbook cannot be read: it is damaged, or its parts contradict each other.',
    noSheet: 'The workbook has no sheet with anything in it.',
    gone: 'The file is no longer open here: choose it again.',
    cancelled: 'Stopped. Nothing was written.',
    moved: 'The shelf has changed since this preview. Look at it again: nothing was written.',
    nothingToWrite: 'There is nothing in the file to write.',
    twiceMapped: (field: FieldName) => `Two columns are both taken as ${fields[field]}.`,
    tooLongForSheet: (label: string) =>
      `Bottle ${label} has more written on it than a cell of a workbook takes: export as CSV or JSON.`,
    ledgerCut: (most: number) =>
      `Only the newest ${most.toLocaleString('en')} lines are here; the shelf file (JSON) has all of them.`,
    reason: (file: string) => `from the file ${file}`,
    busy: 'A file is being written to the shelf.',
    broke:
      'The file could not be worked on: it needs more memory than one file may take, or breaks the reader. Nothing was written.',
  },
} as const;
