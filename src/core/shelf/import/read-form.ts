import { type Form, solventOf } from '../../matter/form.ts';
import { readPresented } from '../../matter/read-solution.ts';
import { UNCLEAR_UNITS } from '../../quantity/units.ts';
import type { Material } from '../../matter/material.ts';
import type { MaterialRow } from '../../reference-rows.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import type { CellReader } from './cell-reader.ts';
import { readQuantityCell } from './read-cells.ts';
import { strengthSaid } from './strength-cell.ts';

const KINDS = { neat: 'neat', pure: 'neat', solution: 'solution', 'a solution': 'solution', unknown: 'unknown' } as const;

/** What an assay counts: all that is weighed, or that without its water. */
const ASSAY_ON = {
  anhydrous: 'anhydrous',
  'anhydrous basis': 'anhydrous',
  'anhydrous substance': 'anhydrous',
  dried: 'anhydrous',
  'dried basis': 'anhydrous',
  'dried substance': 'anhydrous',
  dry: 'anhydrous',
  'as is': 'as is',
} as const;

/** g/mL and °C may stand behind their numbers. */
const DENSITY_UNIT = /\s*(g\s*\/\s*(ml|cm3|cm³)|g\s*ml-1)\s*$/i;
const CELSIUS_UNIT = /\s*°?\s*C\s*$/i;
export const PERCENT_UNIT = /\s*(%\s*(w\/w)?|wt\s*%)\s*$/i;
/** °C. A density without its temperature is taken at it, and the preview says so. */
const ROOM = 20;

interface Held {
  readonly material: Material;
  readonly row: MaterialRow | undefined;
}

/** What is known of a material and its bottle before its form is read. */
interface Of {
  readonly row: MaterialRow | undefined;
  readonly state: 'solid' | 'liquid' | 'gas' | null;
  readonly unit: 'g' | 'mL' | undefined;
}

/**
 * How a row's bottle is presented. What does not say is a neat material, taken as it is; of one that the trade sells
 * dissolved the strength is then unknown. Undefined where the row has something wrong about it.
 * @param held the row's material, with its row of the built-in table, if it has one. @param unit what the amount is kept in.
 */
export function readForm(reader: CellReader, held: Held | undefined, unit: 'g' | 'mL' | undefined): Form | undefined {
  const before = reader.problems.length;
  const kind = reader.choice('kind', KINDS) ?? (reader.has('kind') ? undefined : kindOf(reader, held?.row));
  const of = { row: held?.row, state: held?.material.state ?? held?.row?.state ?? null, unit };
  const form =
    kind === undefined ? undefined : { neat: neatForm, solution: solutionForm, unknown: unknownForm }[kind](reader, of);
  return reader.problems.length > before ? undefined : form;
}

/** Whether a row says anything of how its bottle is presented. */
export function saysForm(reader: CellReader): boolean {
  return (['kind', 'assay', 'assayOn', 'strength', 'solvent', 'titrated', 'density'] as const).some((field) => reader.has(field));
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
  const assayOn = reader.choice('assayOn', ASSAY_ON);
  return {
    kind: 'neat',
    ...(assayPercent === undefined ? {} : { assayPercent }),
    ...(assayOn === 'anhydrous' ? { assayOn } : {}),
    ...density,
  };
}

const LEAST = /^\s*(?:≥|>=|>|min\.?\s)\s*|(?<=\d)\s*\+(?=\s*%?\s*$)/i;

/** An assay; what labels give as a least value is taken as it stands, and the preview says so. */
function assayOf(reader: CellReader): number | undefined {
  const cell = reader.cell('assay');
  if (reader.exact || typeof cell !== 'string' || !LEAST.test(cell)) return reader.number('assay', PERCENT_UNIT);
  const value = reader.numberIn('assay', cell.replace(LEAST, ''), PERCENT_UNIT);
  if (value !== undefined) reader.remarks.push(words.remarks.atLeast(cell.trim(), `${value} %`));
  return value;
}

function solutionForm(reader: CellReader, of: Of): Form | undefined {
  if (reader.has('assay')) reader.wrong('assay', words.problems.assayOrStrength);
  if (reader.has('assayOn')) reader.wrong('assayOn', words.problems.assayOrStrength);
  const density = densityOf(reader);
  const titrated = reader.date('titrated');
  if (!reader.has('strength')) {
    reader.wrong('strength', words.problems.needsStrength);
    return undefined;
  }
  const form = strengthOf(reader, of);
  if (form?.kind !== 'solution') return form && { ...form, ...density };
  return { ...form, strength: { ...form.strength, ...(titrated === undefined ? {} : { titrated }) }, ...density };
}

/** What the cell of the strength says, and the solvent from it or from its own column; undefined where it cannot be read. */
function strengthOf(reader: CellReader, of: Of): Form | undefined {
  const wrong = (said: string): undefined => {
    reader.wrong('strength', said);
    return undefined;
  };
  const cell = reader.cell('strength');
  const own = reader.text('solvent');
  const { row } = of;
  const names = ([reader.text('name'), reader.text('formula'), row?.name, row?.formula] as const).filter(
    (one) => one !== undefined,
  );
  const said = reader.exact || typeof cell === 'number' ? null : strengthSaid(cell, names);
  // The solvent is kept as text: it is looked through as one.
  if (said?.solvent !== undefined) reader.text('strength');
  if (said?.range) return wrong(words.problems.range(String(cell).trim()));
  const use = reader.use('strength');
  const read = readQuantityCell(said?.text ?? cell, use, reader.commas('strength'), use.unit ?? '');
  if (!read.ok) return wrong(read.words === words.problems.needsUnit ? words.problems.needsBasis : read.words);
  const inIt = said?.solvent === undefined || isWater(said.solvent) ? undefined : said.solvent;
  if (own !== undefined && said?.solvent !== undefined && solventOf({ solvent: own }) !== solventOf({ solvent: inIt })) {
    return wrong(words.problems.twoSolvents(own, said.solvent));
  }
  const presented = readPresented(read.value.text, own ?? inIt);
  if (!presented.ok) return wrong(presented.words === UNCLEAR_UNITS['%'] ? words.problems.percentBasis : presented.words);
  if (presented.form.kind !== 'solution') return wrong(words.problems.needsStrength);
  if (said?.loosely)
    reader.remarks.push(words.remarks[said.loosely === 'least' ? 'atLeast' : 'about'](String(cell).trim(), read.value.text));
  return reader.exact || said?.solvent !== undefined ? presented.form : notDissolved(reader, presented.form, of);
}

const isWater = (solvent: string): boolean => /^(?:dist\.?\s+|distilled\s+)?(?:water|h2o|h₂o)$/i.test(solvent.trim());

/** From this on a percentage by mass is the purity of what is not sold dissolved: no such solution of it exists. % w/w. */
const PURE = { solid: 90, liquid: 97, gas: 101 } as const;

/**
 * A percentage by mass that is the purity of a substance that is not sold dissolved, as its assay; else the solution as it is.
 * Of what is weighed, named without a solvent and not in the table, nobody can tell a smaller one: it is asked about.
 */
function notDissolved(reader: CellReader, form: Extract<Form, { kind: 'solution' }>, { row, state, unit }: Of): Form | undefined {
  const { value, basis } = form.strength;
  const said = (['assay', 'solvent', 'titrated', 'kind'] as const).some((field) => reader.has(field));
  const open = !said && basis === '% w/w';
  if (!open || row?.suppliedAs === 'solution' || value > 100) return form;
  const weighed = unit === 'g' && state !== 'gas';
  if (value >= PURE[state ?? (weighed ? 'solid' : 'liquid')]) {
    reader.remarks.push(words.remarks.asAssay(value));
    return { kind: 'neat', assayPercent: value };
  }
  if (!weighed) return form;
  if (row) reader.remarks.push(words.remarks.asSolution(value));
  else reader.wrong('strength', words.problems.assayOrSolution(value));
  return form;
}

function unknownForm(reader: CellReader): Form {
  for (const field of ['assay', 'assayOn', 'strength', 'titrated', 'density'] as const) {
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
