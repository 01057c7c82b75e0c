import type { Form } from '../../matter/form.ts';
import { readPresented } from '../../matter/read-solution.ts';
import type { MaterialRow } from '../../reference-rows.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import type { CellReader } from './cell-reader.ts';
import { readQuantityCell } from './read-cells.ts';

const KINDS = { neat: 'neat', pure: 'neat', solution: 'solution', 'a solution': 'solution', unknown: 'unknown' } as const;

/** g/mL and °C may stand behind their numbers. */
const DENSITY_UNIT = /\s*(g\s*\/\s*(ml|cm3|cm³)|g\s*ml-1)\s*$/i;
const CELSIUS_UNIT = /\s*°?\s*C\s*$/i;
export const PERCENT_UNIT = /\s*(%\s*(w\/w)?|wt\s*%)\s*$/i;
/** °C. A density without its temperature is taken at it, and the preview says so. */
const ROOM = 20;

/**
 * How a row's bottle is presented. What does not say is a neat material, taken as it is; of one that the trade sells
 * dissolved the strength is then unknown. Undefined where the row has something wrong about it.
 * @param row the material's row of the built-in table, if it has one.
 */
export function readForm(reader: CellReader, row: MaterialRow | undefined): Form | undefined {
  const before = reader.problems.length;
  const kind = reader.choice('kind', KINDS) ?? (reader.has('kind') ? undefined : kindOf(reader, row));
  const form = kind === undefined ? undefined : { neat: neatForm, solution: solutionForm, unknown: unknownForm }[kind](reader);
  return reader.problems.length > before ? undefined : form;
}

/** Whether a row says anything of how its bottle is presented. */
export function saysForm(reader: CellReader): boolean {
  return (['kind', 'assay', 'strength', 'solvent', 'titrated', 'density'] as const).some((field) => reader.has(field));
}

function kindOf(reader: CellReader, row: MaterialRow | undefined): Form['kind'] {
  if (reader.has('strength')) return /^\s*(neat|pure|assay)\b/i.test(String(reader.cell('strength'))) ? 'neat' : 'solution';
  if (reader.has('assay')) return 'neat';
  if (!reader.has('solvent') && row?.suppliedAs !== 'solution') return 'neat';
  reader.remarks.push(words.remarks.strengthUnknown);
  return 'unknown';
}

function neatForm(reader: CellReader): Form {
  const density = densityOf(reader);
  for (const field of ['solvent', 'titrated'] as const) if (reader.has(field)) reader.wrong(field, words.problems.onlySolution);
  const presented = reader.has('strength') ? readPresented(String(reader.cell('strength')), undefined) : null;
  if (presented && !presented.ok) reader.wrong('strength', presented.words);
  else if (presented?.ok && presented.form.kind !== 'neat') reader.wrong('strength', words.problems.notNeat);
  const said = presented?.ok && presented.form.kind === 'neat' ? presented.form.assayPercent : undefined;
  const assayPercent = assayOf(reader) ?? said;
  return { kind: 'neat', ...(assayPercent === undefined ? {} : { assayPercent }), ...density };
}

const LEAST = /^\s*(?:≥|>=|>|min\.?\s)\s*|(?<=\d)\s*\+(?=\s*%?\s*$)/i;

/** An assay; what labels give as a least value is taken as it stands, and the preview says so. */
function assayOf(reader: CellReader): number | undefined {
  const cell = reader.cell('assay');
  if (reader.exact || typeof cell !== 'string' || !LEAST.test(cell)) return reader.number('assay', PERCENT_UNIT);
  const value = reader.numberIn('assay', cell.replace(LEAST, ''), PERCENT_UNIT);
  if (value !== undefined) reader.remarks.push(words.remarks.atLeast(cell.trim(), value));
  return value;
}

function solutionForm(reader: CellReader): Form | undefined {
  if (reader.has('assay')) reader.wrong('assay', words.problems.assayOrStrength);
  const density = densityOf(reader);
  const solvent = reader.text('solvent');
  const titrated = reader.date('titrated');
  if (!reader.has('strength')) {
    reader.wrong('strength', words.problems.needsStrength);
    return undefined;
  }
  const use = reader.use('strength');
  const read = readQuantityCell(reader.cell('strength'), use, reader.commas('strength'), use.unit ?? '');
  if (!read.ok) {
    reader.wrong('strength', read.words === words.problems.needsUnit ? words.problems.needsBasis : read.words);
    return undefined;
  }
  const presented = readPresented(read.value.text, solvent);
  if (!presented.ok || presented.form.kind !== 'solution') {
    reader.wrong('strength', presented.ok ? words.problems.needsStrength : presented.words);
    return undefined;
  }
  const { form } = presented;
  return { ...form, strength: { ...form.strength, ...(titrated === undefined ? {} : { titrated }) }, ...density };
}

function unknownForm(reader: CellReader): Form {
  for (const field of ['assay', 'strength', 'titrated', 'density'] as const) {
    if (reader.has(field)) reader.wrong(field, words.problems.unknownHolds);
  }
  const solvent = reader.text('solvent');
  return { kind: 'unknown', ...(solvent === undefined ? {} : { solvent }) };
}

type Density = Pick<Extract<Form, { kind: 'neat' }>, 'density'>;

function densityOf(reader: CellReader): Density {
  const gramsPerMillilitre = reader.number('density', DENSITY_UNIT);
  const celsius = reader.number('celsius', CELSIUS_UNIT, true);
  const source = reader.text('densitySource');
  if (gramsPerMillilitre === undefined) return {};
  if (!reader.has('celsius')) reader.remarks.push(words.remarks.densityAt(ROOM));
  return { density: { gramsPerMillilitre, celsius: celsius ?? ROOM, ...(source === undefined ? {} : { source }) } };
}

/** Density of a pure substance from its own columns; at no temperature where none is said. */
export function pureDensity(
  reader: CellReader,
): { readonly gramsPerMillilitre: number; readonly celsius?: number; readonly source?: string } | undefined {
  const gramsPerMillilitre = reader.number('pureDensity', DENSITY_UNIT);
  const celsius = reader.number('pureCelsius', CELSIUS_UNIT, true);
  const source = reader.text('pureSource');
  if (gramsPerMillilitre === undefined) return undefined;
  return { gramsPerMillilitre, ...(celsius === undefined ? {} : { celsius }), ...(source === undefined ? {} : { source }) };
}

/** Density of a solid from its own column. */
export function solidDensityOf(reader: CellReader): number | undefined {
  return reader.number('solidDensity', DENSITY_UNIT);
}
