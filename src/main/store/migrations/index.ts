import { tables } from './001-tables.ts';
import { search } from './002-search.ts';
import { papersWithoutPlan } from './003-papers-without-plan.ts';
import { bottleTests } from './004-bottle-tests.ts';
import { runs } from './005-runs.ts';
import { shelfActs } from './006-shelf-acts.ts';
import { sessions } from './007-sessions.ts';
import { acknowledgements } from './008-acknowledgements.ts';
import { runHeads } from './009-run-heads.ts';
import { orders } from './010-orders.ts';
import { intakes } from './011-intakes.ts';
import { orderUndo } from './012-order-undo.ts';
import { madeInto } from './013-made-into.ts';
import { runLast } from './014-run-last.ts';
import { suppliers } from './015-suppliers.ts';
import type { Migration } from './migration.ts';

/** In order, numbered from 1 without a gap. */
export const migrations: readonly Migration[] = [
  tables,
  search,
  papersWithoutPlan,
  bottleTests,
  runs,
  shelfActs,
  sessions,
  acknowledgements,
  runHeads,
  orders,
  intakes,
  orderUndo,
  madeInto,
  runLast,
  suppliers,
];

/** The version this program writes; a file with a greater one was made by a newer program. */
export const NEWEST_VERSION = migrations.length;
