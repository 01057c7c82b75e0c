import { hazardsOf } from '../../core/bench/hazards.ts';
import { factsOf } from '../../core/matter/facts.ts';
import { meantMaterials } from '../../core/matter/meant-materials.ts';
import type { BottleRow } from '../../core/port/shelf.ts';
import type { Reference } from '../../core/reference.ts';
import { type ShelfColumns, versionOf } from '../../core/shelf/find/columns.ts';
import { findBottles, type FoundBottles, type Question } from '../../core/shelf/find/find-bottles.ts';
import { type HazardGroup, hazardGroups } from '../../core/shelf/find/hazard-groups.ts';
import { BOTTLE_COLUMNS, bottleRow, type BottleRecord } from './bottles.ts';
import type { Database } from './database.ts';
import { shelfColumns } from './shelf-index.ts';

export interface Page {
  readonly from: number;
  readonly count: number;
}

export interface BottlePage {
  readonly total: number;
  readonly rows: readonly BottleRow[];
  readonly nearly: readonly string[];
}

/** The rows of a page in its order (json_each keeps it); nothing but these rows is read. */
export const READ_PAGE = `SELECT ${BOTTLE_COLUMNS} FROM json_each(?) AS asked CROSS JOIN bottle ON bottle.id = asked.value
  CROSS JOIN material ON material.id = bottle.material ORDER BY asked.key`;

/** A page of the shelf with the number of all bottles found. */
export function listBottles(database: Database, question: Question, { from, count }: Page, reference: Reference): BottlePage {
  const { columns, found } = ask(database, question, reference);
  const asked = [...found.positions.subarray(from, from + count)].map((position) => columns.row[position] ?? 0);
  const rows = asked.length === 0 ? [] : database.all<BottleRecord>(READ_PAGE, [JSON.stringify(asked)]);
  return { total: found.positions.length, rows: rows.map(bottleRow), nearly: found.nearly };
}

/** The rows of every bottle found, in their order. */
export function foundBottles(database: Database, question: Question, reference: Reference): readonly number[] {
  const { columns, found } = ask(database, question, reference);
  return [...found.positions].map((position) => columns.row[position] ?? 0);
}

interface Answered {
  readonly key: string;
  readonly columns: ShelfColumns;
  readonly version: number;
  readonly reference: Reference;
  readonly found: FoundBottles;
}

/** The last question of each workbook: its further pages are cut from the same answer. */
const answered = new WeakMap<Database, Answered>();

function ask(database: Database, question: Question, reference: Reference): Pick<Answered, 'columns' | 'found'> {
  const columns = shelfColumns(database);
  const key = JSON.stringify(question);
  const last = answered.get(database);
  const same =
    last?.key === key && last.columns === columns && last.version === versionOf(columns) && last.reference === reference;
  if (same) return last;
  const knowing = { meant: (typed: string) => meantMaterials(typed, reference), hazards: hazardsIn(columns, reference) };
  const fresh = { key, columns, version: versionOf(columns), reference, found: findBottles(columns, question, knowing) };
  answered.set(database, fresh);
  return fresh;
}

const hazardsKnown = new WeakMap<ShelfColumns, { readonly reference: Reference; readonly groups: ReadonlySet<HazardGroup>[] }>();

/** Hazard groups of each material at its strength, worked out once for each. */
function hazardsIn(columns: ShelfColumns, reference: Reference): (presented: number) => ReadonlySet<HazardGroup> {
  const known = hazardsKnown.get(columns);
  const { groups } = known?.reference === reference ? known : { groups: [] };
  hazardsKnown.set(columns, { reference, groups });
  return (presented) => {
    const kept = groups[presented];
    if (kept) return kept;
    const shown = columns.presentations[presented];
    const material = shown && columns.holdings[shown.holding]?.material;
    const found = material ? hazardsOf(factsOf(material, reference), shown.form, reference) : null;
    const made = hazardGroups(found?.statements ?? null);
    groups[presented] = made;
    return made;
  };
}
