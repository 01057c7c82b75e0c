// The shelf given out: as CSV with every bottle, or as a workbook that also has the ledger, the known packs and the orders.
import type { LedgerKind } from '../../core/port/shelf.ts';
import { OWN_HEADINGS } from '../../core/shelf/import/fields.ts';
import type { HeldBottle } from '../../core/shelf/import/fate.ts';
import type { Cell } from '../../core/shelf/import/table.ts';
import { bottleCells } from '../../core/shelf/import/write-row.ts';
import { formWords } from '../../core/words/form-words.ts';
import { heldBottles } from '../store/bottle-from-file.ts';
import { fromSmallest } from '../store/amounts.ts';
import type { Database } from '../store/database.ts';
import { readOrders } from '../store/orders.ts';
import { heldPacks } from '../store/shelf-file.ts';
import { fileWords, refuse } from './limits.ts';
import { csvText } from './write-csv.ts';
import { LONGEST_CELL, type SheetOut, xlsxBytes } from './write-xlsx.ts';

/** The whole shelf as a CSV file of bottles. */
export function shelfCsv(database: Database): string {
  return csvText(OWN_HEADINGS, heldBottles(database).map(bottleCells));
}

/** The whole shelf as a workbook: bottles, their ledgers, the packs that are known, and the orders. */
export function shelfXlsx(database: Database): Uint8Array {
  const bottles = heldBottles(database);
  const rows = bottles.map((bottle) => short(bottle, bottleCells(bottle)));
  return xlsxBytes([
    { name: 'bottles', headings: OWN_HEADINGS, rows },
    ledgerSheet(database),
    packSheet(database),
    orderSheet(database),
  ]);
}

function short(bottle: HeldBottle, cells: readonly Cell[]): readonly Cell[] {
  const long = cells.some((cell) => typeof cell === 'string' && cell.length > LONGEST_CELL);
  return long ? refuse(fileWords.tooLongForSheet(bottle.id)) : cells;
}

/** A sheet has 1,048,576 rows (ECMA-376); of a longer ledger the newest lines are there, and the last row says so. */
const MOST_LINES = 1_000_000;

export function ledgerSheet(database: Database, most = MOST_LINES): SheetOut {
  const lines = database.all<{
    id: number;
    code: string;
    kind: LedgerKind;
    change: number;
    unit: string;
    reason: string;
    at: string;
    undoes: number | null;
  }>(
    `SELECT ledger.id, code, kind, change, unit, reason, at, undoes FROM ledger JOIN bottle ON bottle.id = ledger.bottle
     WHERE taken_back = 0 ORDER BY ledger.id DESC LIMIT ?`,
    [most + 1],
  );
  const cut = lines.length > most;
  return {
    name: 'ledger',
    headings: ['line', 'bottle', 'when (UTC)', 'movement', 'change', 'unit', 'reason', 'undoes line'],
    rows: [
      ...lines
        .slice(0, most)
        .reverse()
        .map(({ id, code, at, kind, change, unit, reason, undoes }) => [
          id,
          code,
          at,
          kind,
          fromSmallest(change),
          unit,
          reason.slice(0, LONGEST_CELL),
          undoes ?? '',
        ]),
      ...(cut ? [[fileWords.ledgerCut(most)]] : []),
    ],
  };
}

function packSheet(database: Database): SheetOut {
  const packs = heldPacks(database);
  return {
    name: 'packs',
    headings: ['material', 'CAS number', 'form', 'amount', 'unit', 'supplier', 'price', 'lead time, days', 'least number'],
    rows: packs.map(({ holds, form, amount, unit, supplier, price, leadDays, minimum }) => [
      holds.name,
      holds.cas ?? '',
      form ? formWords(form) : '',
      amount,
      unit,
      supplier ?? '',
      price ?? '',
      leadDays ?? '',
      minimum ?? '',
    ]),
  };
}

function orderSheet(database: Database): SheetOut {
  return {
    name: 'orders',
    headings: fileWords.orderHeadings,
    rows: readOrders(database, Infinity)
      .toReversed()
      .map((one) => [
        one.ordered,
        one.material.name,
        one.material.cas ?? '',
        one.pack.form ? formWords(one.pack.form) : '',
        one.count,
        one.pack.amount,
        one.pack.unit,
        one.pack.supplier ?? '',
        one.pack.price ?? '',
        one.expected ?? '',
        one.received,
        one.cancelled,
        one.bottles.join('; ').slice(0, LONGEST_CELL),
        one.planName,
        one.note,
      ]),
  };
}
