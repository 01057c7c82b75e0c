import { hasRightCheckDigit, tidyCas } from '../../matter/cas.ts';
import { materialsCalled, materialsOfFormula } from '../../matter/find-material.ts';
import { parseFormula } from '../../matter/formula.ts';
import { Material } from '../../matter/material.ts';
import { tableDoubts } from '../../matter/table-doubts.ts';
import type { Reference } from '../../reference.ts';
import type { MaterialRow } from '../../reference-rows.ts';
import { readAcidity } from '../../route/acidity-text.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import { canonicalJson } from '../../canonical-json.ts';
import type { CellProblem } from './table.ts';
import type { CellReader } from './cell-reader.ts';
import type { FieldName } from './fields.ts';
import type { RouteMaterials } from './route-materials.ts';
import { pureDensity, solidDensityOf } from './read-form.ts';

const STATES = { solid: 'solid', liquid: 'liquid', gas: 'gas' } as const;

/** Fields that say what is in a bottle. */
const MATERIAL_FIELDS: readonly (readonly [start: string, FieldName])[] = [
  ['/name', 'name'],
  ['/formula', 'formula'],
  ['/cas', 'cas'],
  ['/smiles', 'smiles'],
  ['/synonyms', 'synonyms'],
  ['/state', 'state'],
  ['/density/celsius', 'pureCelsius'],
  ['/density/source', 'pureSource'],
  ['/density', 'pureDensity'],
  ['/solidDensity', 'solidDensity'],
  ['/utility', 'utility'],
  ['/hazards', 'hazards'],
  ['/acidity', 'acidity'],
  ['/note', 'materialNote'],
];

/** What checking a material found, kept for every row that holds the same one. */
export type CheckedMaterials = Map<string, readonly { readonly field: FieldName | null; readonly words: string }[]>;

/**
 * The material of a row, as its cells and, but for our own files, the built-in table have it. Undefined where the row
 * names none.
 */
export function readMaterial(
  reader: CellReader,
  reference: Reference,
  checked: CheckedMaterials,
  routes: RouteMaterials,
): { readonly material: Material; readonly row: MaterialRow | undefined } | undefined {
  const before = reader.problems.length;
  const name = reader.text('name');
  const typed = reader.text('cas');
  const cas = typed === undefined || reader.exact ? typed : tidyCas(typed);
  if (name === undefined && cas === undefined) return undefined;
  const row = reader.exact ? rowOf(cas, reference) : (rowOf(cas, reference) ?? calledSo(reader, name, cas, reference));
  const called = name ?? (reader.exact ? undefined : row?.name);
  if (called === undefined) {
    reader.wrong('name', words.problems.needsName);
    return undefined;
  }
  const said = { name: called, ...casAndFormula(reader, cas, row), ...furtherFacts(reader) };
  const material = reader.exact ? said : asRoutesHaveIt(reader, said, row, routes);
  if (reader.problems.length === before) check(reader, material, reference, checked);
  return { material, row };
}

function rowOf(cas: string | undefined, reference: Reference): MaterialRow | undefined {
  return cas === undefined ? undefined : reference.material.get(cas);
}

/** The one material of the table that a name means, where no CAS number is given. */
function calledSo(
  reader: CellReader,
  name: string | undefined,
  cas: string | undefined,
  reference: Reference,
): MaterialRow | undefined {
  if (name === undefined || cas !== undefined) return undefined;
  const [row, ...others] = materialsCalled(name, reference);
  if (!row) sayFormula(reader, name, reference);
  if (!row || others.length > 0) return undefined;
  reader.remarks.push(words.remarks.fromTable(row.cas));
  return row;
}

/** A formula where the name should stand: kept as it is written, and never taken for the isomer of the table. */
function sayFormula(reader: CellReader, name: string, reference: Reference): void {
  const rows = materialsOfFormula(name, reference);
  if (rows.length > 0)
    reader.remarks.push(
      words.remarks.formulaAsName(
        name,
        rows.map((row) => row.name),
      ),
    );
}

/** What neither the row nor the table says of a material and one of the routes does: number, formula, state. */
function asRoutesHaveIt(reader: CellReader, said: Material, row: MaterialRow | undefined, routes: RouteMaterials): Material {
  const known = row || said.formula !== undefined ? undefined : routes(said.name, said.cas);
  if (!known) return said;
  const { cas, formula, state } = known.material;
  const filled = {
    ...(said.cas === undefined && cas !== undefined ? { cas } : {}),
    ...(formula === undefined ? {} : { formula }),
    ...(said.state === undefined && state !== undefined ? { state } : {}),
  };
  if (Object.keys(filled).length > 0) reader.remarks.push(words.remarks.fromRoute(filled.cas, filled.formula, known.route));
  return { ...said, ...filled };
}

function casAndFormula(
  reader: CellReader,
  cas: string | undefined,
  row: MaterialRow | undefined,
): Pick<Material, 'cas' | 'formula'> {
  const number = cas ?? (reader.exact ? undefined : row?.cas);
  const formula = reader.text('formula') ?? (reader.exact || row?.formula === '' ? undefined : row?.formula);
  return { ...(number === undefined ? {} : { cas: number }), ...(formula === undefined ? {} : { formula }) };
}

/** What else a material may carry; what is not there is left out. */
function furtherFacts(reader: CellReader): Omit<Material, 'name' | 'cas' | 'formula'> {
  const facts = {
    smiles: reader.text('smiles'),
    synonyms: reader.list('synonyms'),
    state: reader.choice('state', STATES),
    density: pureDensity(reader),
    solidDensity: solidDensityOf(reader),
    utility: reader.truth('utility'),
    hazards: reader.list('hazards'),
    acidity: acidityOf(reader),
    note: reader.text('materialNote'),
  };
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined));
}

function acidityOf(reader: CellReader): Material['acidity'] {
  const text = reader.text('acidity');
  if (text === undefined) return undefined;
  const read = readAcidity(text);
  if (read.ok) return read.value;
  reader.wrong('acidity', read.words);
  return undefined;
}

function check(reader: CellReader, material: Material, reference: Reference, checked: CheckedMaterials): void {
  const key = canonicalJson([material, reader.has('formula')]);
  const known = checked.get(key);
  if (known) {
    for (const { field, words: said } of known) reader.wrong(field, said);
    return;
  }
  const from = reader.problems.length;
  const parsed = Material.safeParse(material);
  if (!parsed.success) reader.issues(parsed.error.issues, material, MATERIAL_FIELDS);
  else doubt(reader, material, reference);
  checked.set(
    key,
    reader.problems.slice(from).map((problem) => ({ field: fieldAt(reader, problem), words: problem.words })),
  );
}

function fieldAt(reader: CellReader, { column }: CellProblem): FieldName | null {
  return column === null ? null : reader.fieldOf(column);
}

function doubt(reader: CellReader, material: Material, reference: Reference): void {
  const { cas, formula } = material;
  if (cas !== undefined && !hasRightCheckDigit(cas)) reader.wrong('cas', words.problems.checkDigit);
  // A shelf may hold what is no formula (it says so there); our own table of it must come back.
  const read = formula === undefined || reader.exact ? null : parseFormula(formula, reference);
  if (read && !read.ok) reader.wrong('formula', read.words);
  // A formula that the table itself filled in by the number would always side with the number.
  const { formula: _filled, ...without } = material;
  const given = reader.has('formula') ? material : without;
  for (const { at, words: said } of tableDoubts({ m: given }, reference)) {
    reader.wrong(at.startsWith('/materials/m/cas') ? 'cas' : 'hazards', said);
  }
}
