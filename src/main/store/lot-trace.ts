import type { ExpiringBottle, LotTrace, LotUse } from '../../core/port/buy.ts';
import type { RunStart } from '../../core/port/runs.ts';
import type { Form } from '../../core/matter/form.ts';
import type { Material } from '../../core/matter/material.ts';
import { foldText } from '../../core/shelf/find/search-text.ts';
import { fromSmallest } from './amounts.ts';
import { rowsCalled } from './called.ts';
import type { Database } from './database.ts';
import { newestInChain } from './ledger.ts';
import { runsAfter } from './run-chain.ts';

interface TracedBottle {
  readonly id: number;
  readonly code: string;
  readonly lot: string;
  readonly place: string;
  readonly unit: 'g' | 'mL';
  readonly amount_left: number;
  readonly name: string;
}

const BOTTLES = `SELECT bottle.id, code, lot, place, unit, amount_left, json_extract(material.data, '$.name') AS name
  FROM bottle JOIN material ON material.id = bottle.material`;
const MOST_LINES = 5000;

/**
 * Where the bottles of a lot went, and everything that was made from them, and from that, as far as it goes: by a run, by
 * the runs that went on with what stood in no bottle, and by making a solution. A lot is found by its own text, also where
 * that was changed since, or by the label of a bottle; capitals, accents, kinds of dash and blanks aside. What was split off,
 * and the bottle that came in the place of one entered wrong or was there before it, hold the same. What was taken back is
 * not a use; what was brought back is.
 */
export function traceLot(database: Database, lot: string): LotTrace {
  let level = bottlesCalled(database, lot);
  const seen = new Set<number>();
  const followed = new Set<number>();
  const bottles: LotTrace['bottles'][number][] = [];
  const uses: LotUse[] = [];
  for (let depth = 0; level.length > 0 && uses.length < MOST_LINES; depth += 1) {
    const made: TracedBottle[] = [];
    for (const bottle of level) {
      if (seen.has(bottle.id)) continue;
      seen.add(bottle.id);
      const { code: id, lot: of, name: material, unit, place } = bottle;
      bottles.push({ id, lot: of, material, left: fromSmallest(bottle.amount_left), unit, place, depth });
      for (const use of usesOf(database, bottle)) {
        // The same contents in another bottle are looked at beside it, what was made of them one step on.
        const same = use.run === null ? bottlesIn(database, SPLIT_OFF, use.line) : [];
        const other = use.run === null ? bottlesIn(database, MADE_INTO, use.line) : filledBy(database, use.run);
        uses.push(useOf(database, bottle, use, [...same, ...other], depth));
        level.push(...same);
        made.push(...other);
        if (use.run !== null) made.push(...carriedOn(database, use.run, depth, followed, uses));
      }
      level.push(...bottlesIn(database, CORRECTED, bottle.id));
    }
    level = made;
  }
  return { bottles, uses: uses.slice(0, MOST_LINES), cut: uses.length >= MOST_LINES };
}

/** The bottles with a lot or label, as it is searched for on the shelf, and those that once had that lot written on them. */
function bottlesCalled(database: Database, lot: string): TracedBottle[] {
  const asked = foldText(lot);
  if (asked === '') return [];
  const before = database.all<{ bottle: number; lot: string }>(
    `SELECT bottle, before ->> 'lot' AS lot FROM bottle_edit_line CROSS JOIN bottle ON bottle.id = bottle_edit_line.bottle
     WHERE before ->> 'lot' <> '' AND taken_back = 0`,
  );
  const once = before.filter((one) => foldText(one.lot) === asked).map(({ bottle }) => bottle);
  const rows = new Set([...rowsCalled(database, lot), ...once]);
  return [
    ...database.all<TracedBottle>(
      `SELECT traced.* FROM json_each(?) CROSS JOIN (${BOTTLES}) AS traced ON traced.id = json_each.value ORDER BY traced.id`,
      [JSON.stringify([...rows])],
    ),
  ];
}

interface UseRow {
  readonly line: number;
  readonly change: number;
  readonly at: string;
  readonly reason: string;
  readonly run: number | null;
}

function usesOf(database: Database, bottle: TracedBottle): readonly UseRow[] {
  return database
    .all<UseRow & { undone: number }>(
      `SELECT ledger.id AS line, change, at, reason, run_ledger.run AS run,
         EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id) AS undone
       FROM ledger LEFT JOIN run_ledger ON run_ledger.ledger = ledger.id
       WHERE bottle = ? AND kind = 'used' ORDER BY ledger.id`,
      [bottle.id],
    )
    .filter(({ undone, line }) => undone === 0 || newestInChain(database, line).length % 2 === 1);
}

/** The bottle that a line was split off into. */
const SPLIT_OFF = `SELECT ledger.bottle FROM split JOIN ledger ON ledger.id = split.came WHERE split.taken = ?`;
/** The bottle that what a line took was made into. */
const MADE_INTO = `SELECT ledger.bottle FROM made_into JOIN ledger ON ledger.id = made_into.came WHERE made_into.taken = ?`;
/** The bottle that came in the place of one, or in whose place one came. */
const CORRECTED = `SELECT CASE WHEN emptied.bottle = asked.bottle THEN came.bottle ELSE emptied.bottle END
  FROM (SELECT ? AS bottle) AS asked CROSS JOIN correction
    JOIN ledger AS emptied ON emptied.id = correction.emptied JOIN ledger AS came ON came.id = correction.came
  WHERE asked.bottle IN (emptied.bottle, came.bottle)`;

function bottlesIn(database: Database, which: string, value: number): readonly TracedBottle[] {
  return database.all<TracedBottle>(`${BOTTLES} WHERE bottle.id IN (${which}) ORDER BY bottle.id`, [value]);
}

function filledBy(database: Database, run: number): readonly TracedBottle[] {
  return database.all<TracedBottle>(
    `${BOTTLES} WHERE bottle.id IN (
       SELECT ledger.bottle FROM run_ledger JOIN ledger ON ledger.id = run_ledger.ledger
       WHERE run_ledger.run = ? AND ledger.kind = 'made'
         AND NOT EXISTS (SELECT 1 FROM ledger AS later WHERE later.undoes = ledger.id))
     ORDER BY bottle.id`,
    [run],
  );
}

function useOf(
  database: Database,
  bottle: TracedBottle,
  { change, at, reason, run }: UseRow,
  filled: readonly TracedBottle[],
  depth: number,
): LotUse {
  return {
    bottle: bottle.code,
    lot: bottle.lot,
    material: bottle.name,
    amount: fromSmallest(-change),
    unit: bottle.unit,
    at,
    reason,
    ...inRun(database, run),
    carriedFrom: null,
    made: filled.map(({ code }) => code),
    depth,
  };
}

/** A run with the plan and the sheet it belongs to. */
function inRun(database: Database, run: number | null): Pick<LotUse, 'run' | 'plan' | 'sheet'> {
  const row = database.get<{ data: string; plan: number }>('SELECT data, plan FROM run WHERE id = ?', [run]);
  if (!row) return { run, plan: '', sheet: '' };
  const plan = database.get<{ name: string }>('SELECT name FROM plan_state WHERE plan = ? ORDER BY state DESC LIMIT 1', [
    row.plan,
  ]);
  return { run, plan: plan?.name ?? '', sheet: (JSON.parse(row.data) as RunStart).sheet.sheet.id };
}

/**
 * The runs that went on with what a run made where it was charged from no bottle, and so on from those: each is written as a
 * use, once; gives the bottles they filled. Which batch it was of is not recorded, so every later run of the plan that charged it counts.
 */
function carriedOn(
  database: Database,
  run: number,
  depth: number,
  followed: Set<number>,
  uses: LotUse[],
): readonly TracedBottle[] {
  if (followed.has(run)) return [];
  followed.add(run);
  return runsAfter(database, run).flatMap((next) => {
    if (followed.has(next.run)) return [];
    const filled = filledBy(database, next.run);
    uses.push({
      bottle: '',
      lot: '',
      reason: '',
      carriedFrom: run,
      depth,
      made: filled.map(({ code }) => code),
      ...next,
      ...inRun(database, next.run),
    });
    return [...filled, ...carriedOn(database, next.run, depth, followed, uses)];
  });
}

const MOST_EXPIRING = 500;

/** Bottles not empty whose date is past or lies up to a day, the earliest first; at most 500. */
export function expiringBottles(database: Database, until: string): readonly ExpiringBottle[] {
  const rows = database.all<TracedBottle & { form: string; data: string; use_by: string }>(
    `SELECT bottle.id, code, lot, place, unit, amount_left, form, material.data, use_by
     FROM bottle JOIN material ON material.id = bottle.material
     WHERE use_by <= ? AND amount_left > 0 AND taken_back = 0 ORDER BY use_by, bottle.id LIMIT ${MOST_EXPIRING}`,
    [until],
  );
  return rows.map((row) => ({
    id: row.code,
    material: JSON.parse(row.data) as Material,
    form: JSON.parse(row.form) as Form,
    left: fromSmallest(row.amount_left),
    unit: row.unit,
    lot: row.lot,
    place: row.place,
    useBy: row.use_by,
  }));
}
