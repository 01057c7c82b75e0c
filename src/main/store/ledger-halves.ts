import type { LineHalf } from '../../core/port/shelf.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Database } from './database.ts';
import { newestInChain, undoLine } from './ledger.ts';
import { Refusal } from './refusal.ts';

/*
 * Some acts are two lines in two bottles: what was split off one is received in another, and a bottle entered wrong is
 * emptied where the right one comes. The halves are taken back together or not at all, and so are their counter-entries.
 *
 *   line ◀─undoes─ counter ◀─undoes─ brought back …      the chain of one half; its newest line is the one to undo
 *     │ split or correction
 *   line ◀─undoes─ counter ◀─undoes─ brought back …      the chain of the other, as long as the first
 */

interface Root {
  readonly root: number;
  readonly bottle: number;
}

function rootOf(database: Database, line: number): Root | null {
  return (
    database.get<Root>(
      `WITH RECURSIVE chain (id, bottle, undoes) AS (
         SELECT id, bottle, undoes FROM ledger WHERE id = ?
         UNION ALL SELECT ledger.id, ledger.bottle, ledger.undoes FROM chain JOIN ledger ON ledger.id = chain.undoes)
       SELECT id AS root, bottle FROM chain WHERE undoes IS NULL`,
      [line],
    ) ?? null
  );
}

interface Partner {
  readonly act: LineHalf['act'];
  readonly line: number;
  readonly bottle: number;
  readonly code: string;
}

/** The other half of a line, by the first line of its chain; null where it stands alone, or the other went with its file. */
function partnerOf(database: Database, root: number): Partner | null {
  const found = database.get<Partner>(
    `SELECT act, other.line AS line, ledger.bottle AS bottle, bottle.code AS code FROM (
       SELECT 'correction' AS act, came AS line FROM correction WHERE emptied = ?
       UNION ALL SELECT 'correction', emptied FROM correction WHERE came = ?
       UNION ALL SELECT 'split', came FROM split WHERE taken = ?
       UNION ALL SELECT 'split', taken FROM split WHERE came = ?) AS other
     CROSS JOIN ledger ON ledger.id = other.line CROSS JOIN bottle ON bottle.id = ledger.bottle
     WHERE taken_back = 0`,
    [root, root, root, root],
  );
  return found ?? null;
}

/** What a line is a half of; null where it stands alone. */
export function halfOf(database: Database, line: number): LineHalf | null {
  const root = rootOf(database, line);
  const partner = root && partnerOf(database, root.root);
  if (partner) return { act: partner.act, other: partner.code };
  const made = root && madeOf(database, root.root);
  return made ? { act: 'made', other: made } : null;
}

/** The bottle that what a line took was made into; null where it is none, or off the shelf. */
function madeOf(database: Database, line: number): string | null {
  const found = database.get<{ code: string }>(
    `SELECT code FROM made_into CROSS JOIN ledger ON ledger.id = made_into.came CROSS JOIN bottle ON bottle.id = ledger.bottle
     WHERE taken = ? AND taken_back = 0`,
    [line],
  );
  return found?.code ?? null;
}

/** Takes a line back, and its other half with it where it has one; gives the counter-entry. Only inside a write. */
export function undoWithHalf(database: Database, bottle: number, line: number, at: string): number {
  const root = rootOf(database, line);
  const partner = root?.bottle === bottle ? partnerOf(database, root.root) : null;
  if (!partner) return undoLine(database, bottle, line, at);
  // What is put back comes first, so that neither bottle is short in between.
  const other = (): number => undoOther(database, partner, at);
  const own = (): number => undoLine(database, bottle, line, at);
  const gives = database.get<{ change: number }>('SELECT change FROM ledger WHERE id = ?', [line])?.change ?? 0;
  if (gives < 0) {
    const counter = own();
    other();
    return counter;
  }
  other();
  return own();
}

function undoOther(database: Database, partner: Partner, at: string): number {
  try {
    return undoLine(database, partner.bottle, newestInChain(database, partner.line).newest, at);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new Refusal(error.code, mainWords.otherHalf(partner.code, error.message));
  }
}
