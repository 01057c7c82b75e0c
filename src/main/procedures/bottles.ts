import { factsOf } from '../../core/matter/facts.ts';
import type { Form } from '../../core/matter/form.ts';
import type { Material } from '../../core/matter/material.ts';
import { gramsPerMillilitre } from '../../core/matter/solution.ts';
import { strengthDoubt } from '../../core/matter/strength-doubt.ts';
import type { ProcedureInput } from '../../core/port/port.ts';
import type { Reference } from '../../core/reference.ts';
import { weighedLeft } from '../../core/shelf/weighed.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { materialWords } from '../../core/words/material-words.ts';
import { fromSmallest, toSmallest } from '../store/amounts.ts';
import { correctBottle, splitBottle } from '../store/bottle-acts.ts';
import { editBottles, undoEdit } from '../store/bottle-edits.ts';
import { foundBottles } from '../store/bottle-list.ts';
import { type BottleRecord, readBottle, readBottlesIn } from '../store/bottles.ts';
import { amountLeft, appendLine } from '../store/ledger.ts';
import type { Database } from '../store/database.ts';
import { Refusal } from '../store/refusal.ts';
import type { Context, Procedures } from './context.ts';
import { indexed } from './read-file.ts';

export type BottleName = 'shelf.correct' | 'shelf.changeMany' | 'shelf.undoChange' | 'shelf.weigh' | 'shelf.split';

/** Acts on bottles that are more than one line of one ledger. */
export const bottleProcedures: Procedures<BottleName> = {
  'shelf.correct': ({ keeper, clock, reference }, { id, bottle: { material, amount, ...rest } }) => {
    const database = keeper.database();
    const doubt = strengthDoubt(material, rest.form, indexed(reference()));
    if (doubt) throw new Refusal('invalid input', mainWords.wrong(materialWords.strengthDoubt(doubt)));
    const meant = { ...rest, holds: material, left: amount };
    const moment = { at: clock.now(), today: clock.today() };
    return database.write(() => ({ id: correctBottle(database, id, meant, moment) }));
  },

  'shelf.changeMany': (context, { bottles, change }) => {
    const { keeper, clock } = context;
    const database = keeper.database();
    const rows = 'ids' in bottles ? null : foundRows(context, bottles);
    return database.write(() => {
      const records = 'ids' in bottles ? named(database, bottles.ids) : readBottlesIn(database, rows ?? []);
      return editBottles(database, records, change, { at: clock.now(), today: clock.today() });
    });
  },

  'shelf.undoChange': ({ keeper, clock }, { edit }) => {
    const database = keeper.database();
    return database.write(() => undoEdit(database, edit, clock.now()));
  },

  'shelf.weigh': ({ keeper, clock, reference }, { id, gross, reason }) => {
    const database = keeper.database();
    return database.write(() => {
      const bottle = readBottle(database, id);
      const { left, said } = weighed(bottle, gross, indexed(reference()));
      const change = toSmallest(left) - bottle.amount_left;
      if (change === 0) throw new Refusal('refused', mainWords.weighedAsKept);
      const remark = reason.trim() === '' ? said : `${said}; ${reason.trim()}`;
      const line = appendLine(database, { bottle: bottle.id, kind: 'adjusted', change, reason: remark, at: clock.now() });
      return { left: amountLeft(database, bottle.id), line };
    });
  },

  'shelf.split': ({ keeper, clock }, { id, amount, place }) => {
    const database = keeper.database();
    return database.write(() => {
      const made = splitBottle(database, id, { amount, place, at: clock.now() });
      return { id: made, left: amountLeft(database, readBottle(database, id).id) };
    });
  },
};

type Found = Exclude<ProcedureInput<'shelf.changeMany'>['bottles'], { readonly ids: unknown }>;

function named(database: Database, ids: readonly string[]): readonly BottleRecord[] {
  return [...new Set(ids)].map((code) => readBottle(database, code));
}

/** The rows of all that a search finds, if they are as many as the person saw. */
function foundRows({ keeper, clock, reference }: Context, { search, filter, total }: Found): readonly number[] {
  const question = { search, filter, sort: 'name', down: false, today: clock.today() } as const;
  const found = foundBottles(keeper.database(), question, indexed(reference()));
  if (found.length !== total) throw new Refusal('conflict', mainWords.shelfMoved(found.length));
  return found;
}

/** What is left by the balance, g or mL, and how it was found. */
function weighed(record: BottleRecord, gross: number, reference: Reference): { readonly left: number; readonly said: string } {
  const { code, unit } = record;
  const tare = record.tare === null ? null : fromSmallest(record.tare);
  const density = unit === 'g' ? null : densityOf(record, reference);
  const read = weighedLeft({ gross, tare, unit, density });
  if (read.ok) {
    const said = mainWords.weighed(gross, tare ?? 0) + (density === null ? '' : mainWords.weighedDensity(density));
    return { left: read.left, said };
  }
  const why = {
    'no tare': mainWords.noTare(code),
    'lighter than empty': mainWords.lighterThanEmpty(gross, tare ?? 0),
    'no density': mainWords.noDensity(code),
  };
  throw new Refusal('refused', why[read.why]);
}

function densityOf({ material_data, form }: BottleRecord, reference: Reference): number | null {
  const facts = factsOf(JSON.parse(material_data) as Material, reference);
  const density = gramsPerMillilitre(facts, JSON.parse(form) as Form, reference);
  return density.ok ? density.figure.value : null;
}
