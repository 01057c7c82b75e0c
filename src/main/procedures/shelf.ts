import type { LedgerKind } from '../../core/port/shelf.ts';
import { strengthDoubt } from '../../core/matter/strength-doubt.ts';
import { placesOf } from '../../core/shelf/find/places.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { materialWords } from '../../core/words/material-words.ts';
import { toSmallest, type AmountUnit } from '../store/amounts.ts';
import { readTests } from '../store/bottle-tests.ts';
import { listBottles } from '../store/bottle-list.ts';
import { editBottles, readEdits } from '../store/bottle-edits.ts';
import { labelsLike } from '../store/called.ts';
import { makeBottle } from '../store/bottle-acts.ts';
import { bottleRow, nextCode, readBottle } from '../store/bottles.ts';
import { amountLeft, appendLine, readLedger } from '../store/ledger.ts';
import { halfOf, undoWithHalf } from '../store/ledger-halves.ts';
import { recordTest } from '../store/record-test.ts';
import { Refusal } from '../store/refusal.ts';
import { runOfLine } from '../store/run-shelf.ts';
import { shelfColumns } from '../store/shelf-index.ts';
import { shelfSnapshot } from '../store/shelf-file.ts';
import type { BottleName } from './bottles.ts';
import type { Procedures } from './context.ts';
import { fileDesk } from '../files/file-desk.ts';
import { shelfFileText, takeInText } from '../files/shelf-file-text.ts';
import { indexed } from './read-file.ts';

type ShelfName = Exclude<Extract<keyof Procedures, `shelf.${string}`>, BottleName>;

export const shelfProcedures: Procedures<ShelfName> = {
  'shelf.list': ({ keeper, clock, reference }, { search, sort, down = false, filter = {}, ...page }) => {
    const question = { search, sort, down, filter, today: clock.today() };
    return listBottles(keeper.database(), question, page, indexed(reference()));
  },

  'shelf.places': ({ keeper }) => placesOf(shelfColumns(keeper.database())),

  'shelf.labelled': ({ keeper }, { typed }) => labelsLike(keeper.database(), typed),

  'shelf.bottle': ({ keeper }, { id }) => {
    const record = readBottle(keeper.database(), id);
    return {
      bottle: bottleRow(record),
      ledger: readLedger(keeper.database(), record.id).map((line) => {
        const half = halfOf(keeper.database(), line.id);
        return half ? { ...line, half } : line;
      }),
      tests: readTests(keeper.database(), record.id),
      edits: readEdits(keeper.database(), record.id),
    };
  },

  'shelf.add': ({ keeper, clock, reference }, { material, amount, took = [], ...rest }) => {
    const database = keeper.database();
    const doubt = strengthDoubt(material, rest.form, indexed(reference()));
    if (doubt) throw new Refusal('invalid input', mainWords.wrong(materialWords.strengthDoubt(doubt)));
    return database.write(() => {
      const id = nextCode(database);
      const bottle = { ...rest, id, holds: material, left: amount, received: clock.today() };
      makeBottle(database, bottle, took, clock.now());
      return { id };
    });
  },

  'shelf.change': ({ keeper, clock }, { id, ...change }) => {
    const database = keeper.database();
    const moment = { at: clock.now(), today: clock.today() };
    database.write(() => editBottles(database, [readBottle(database, id)], change, moment));
    return { id };
  },

  'shelf.move': ({ keeper, clock }, { id, kind, change, reason }) => {
    const database = keeper.database();
    return database.write(() => {
      const bottle = readBottle(database, id);
      const amount = movement(kind, change, bottle.unit, reason.trim());
      const line = appendLine(database, { bottle: bottle.id, kind, change: amount, reason: reason.trim(), at: clock.now() });
      return { left: amountLeft(database, bottle.id), line };
    });
  },

  'shelf.undo': ({ keeper, clock }, { id, line }) => {
    const database = keeper.database();
    return database.write(() => {
      const bottle = readBottle(database, id);
      const run = runOfLine(database, line);
      if (run !== null) throw new Refusal('refused', mainWords.lineOfRun(run));
      const counter = undoWithHalf(database, bottle.id, line, clock.now());
      return { left: amountLeft(database, bottle.id), line: counter };
    });
  },

  'shelf.test': ({ keeper, clock, reference }, { id, ...found }) => {
    const database = keeper.database();
    if (found.on > clock.today()) throw new Refusal('invalid input', mainWords.testAhead(found.on));
    if (found.done === 'titrated' && !found.form) throw new Refusal('invalid input', mainWords.titratedNothing);
    return database.write(() => {
      const bottle = bottleRow(readBottle(database, id));
      const doubt = found.form ? strengthDoubt(bottle.material, found.form, indexed(reference())) : null;
      if (doubt) throw new Refusal('invalid input', mainWords.wrong(materialWords.strengthDoubt(doubt)));
      recordTest(database, id, found, clock.now());
      return { id };
    });
  },

  'shelf.snapshot': ({ keeper }, { materials }) => shelfSnapshot(keeper.database(), materials),

  'shelf.import': ({ keeper, clock, reference, report }, { file = mainWords.shelfFile, text }) =>
    text.length > LARGE
      ? fileDesk(keeper).takeIn({ file, text }, report)
      : takeInText({ file, text }, keeper.database(), { tables: reference, clock }),

  'shelf.export': ({ keeper }) => ({ text: shelfFileText(keeper.database()) }),
};

/** Letters. A longer file is taken in by a worker, while the window goes on. */
const LARGE = 1_000_000;

const SIGN: Partial<Record<LedgerKind, 'more' | 'less'>> = { received: 'more', made: 'more', used: 'less', discarded: 'less' };
const NEEDS_REASON: ReadonlySet<LedgerKind> = new Set<LedgerKind>(['adjusted', 'discarded']);

/** A typed movement in µg or nL, or the refusal that says what is wrong with it. */
function movement(kind: LedgerKind, change: number, unit: AmountUnit, reason: string): number {
  if (NEEDS_REASON.has(kind) && reason === '') throw new Refusal('invalid input', mainWords.noReason(kind));
  if (change === 0) throw new Refusal('invalid input', mainWords.noChange);
  const sign = SIGN[kind];
  if ((sign === 'more' && change < 0) || (sign === 'less' && change > 0)) {
    throw new Refusal('invalid input', mainWords.wrongSign(kind, sign));
  }
  const amount = toSmallest(change);
  if (amount === 0) throw new Refusal('invalid input', mainWords.tooSmall(Math.abs(change), unit));
  return amount;
}
