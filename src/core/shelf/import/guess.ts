import { UNITS, unitSymbol } from '../../quantity/units.ts';
import { FIELD_NAMES, OWN_HEADINGS, SHELF_FIELDS, type FieldName } from './fields.ts';
import type { Cell, ColumnUse, Mapping } from './table.ts';

/** A heading as letters and digits alone: case, accents, signs and what stands in brackets aside. */
function foldHeading(heading: string): string {
  return heading
    .normalize('NFKD')
    .replace(/\p{Mn}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, '');
}

const BY_HEADING: ReadonlyMap<string, FieldName> = new Map(
  FIELD_NAMES.flatMap((name) =>
    [SHELF_FIELDS[name].heading, ...SHELF_FIELDS[name].also].map((heading) => [foldHeading(heading), name] as const),
  ).reverse(),
);

/** A unit at the end of a heading: "amount (g)", "Menge [mL]", "concentration, mol/L". */
const WITH_UNIT = /^(.*?)\s*(?:\(([^()]*)\)|\[([^[\]]*)\]|,\s*([^,]+)|\bin\s+(\S+))\s*$/;

/** Whether a table is headed exactly as our own files are: then every cell is read back exactly as it stands. */
export function isOwnTable(headings: readonly Cell[]): boolean {
  const told = headings.map(String);
  while (told.at(-1) === '') told.pop();
  return told.length === OWN_HEADINGS.length && OWN_HEADINGS.every((heading, at) => told[at] === heading);
}

/**
 * What each column is most likely for, by its heading alone; each use is given to the first column that asks for it.
 * Null where a heading says nothing known here.
 */
export function guessMapping(headings: readonly Cell[]): Mapping {
  const taken = new Set<FieldName>();
  return headings.map((heading) => {
    const use = guessUse(String(heading));
    if (!use || taken.has(use.field)) return null;
    taken.add(use.field);
    return use;
  });
}

function guessUse(heading: string): ColumnUse | null {
  const whole = BY_HEADING.get(foldHeading(heading));
  if (whole) return { field: whole };
  const either = eitherOf(heading);
  if (either) return { field: either };
  const found = WITH_UNIT.exec(heading);
  const field = found ? BY_HEADING.get(foldHeading(found[1] ?? '')) : undefined;
  if (!found || !field) return null;
  const unit = unitIn(field, found[2] ?? found[3] ?? found[4] ?? found[5] ?? '');
  return unit === null ? { field } : { field, unit };
}

/** "Lot/Batch", "Location or room": two words for one field; null where they are of two, or one is none. */
function eitherOf(heading: string): FieldName | null {
  const parts = heading.split(/\s*[/|]\s*|\s+or\s+/i);
  const fields = new Set(parts.map((part) => BY_HEADING.get(foldHeading(part))));
  const [field] = fields;
  return parts.length > 1 && fields.size === 1 ? (field ?? null) : null;
}

/** The unit a heading names, where it is one that the field takes. */
function unitIn(field: FieldName, text: string): string | null {
  const symbol = unitSymbol(text);
  return unitsOf(field).includes(symbol) ? symbol : null;
}

const DIMENSIONS: Partial<Record<FieldName, readonly string[]>> = { left: ['mass', 'volume'], strength: ['strength'] };

/** The units a column of bare numbers may be in; none for a field that needs no unit. */
export function unitsOf(field: FieldName): readonly string[] {
  const dimensions = DIMENSIONS[field] ?? [];
  return Object.entries(UNITS).flatMap(([symbol, unit]) =>
    dimensions.includes(unit.dimension) && symbol !== 'eq/L' ? [symbol] : [],
  );
}

const LOOKED_AT = 20;

/** The row that most likely holds the headings, among the first twenty: the one with the most known ones. Index; 0 where none is. */
export function guessHeadingRow(rows: readonly (readonly Cell[])[]): number {
  const known = (row: readonly Cell[]): number => guessMapping(row).filter((use) => use !== null).length;
  const counts = rows.slice(0, LOOKED_AT).map(known);
  const most = Math.max(0, ...counts);
  return most === 0 ? 0 : counts.indexOf(most);
}
