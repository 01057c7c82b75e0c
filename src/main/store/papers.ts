import type { IssuedPaper, PaperEntry } from '../../core/port/workbook.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Database } from './database.ts';
import { numberState, readPlan } from './plans.ts';
import { Refusal } from './refusal.ts';

interface NewPaper {
  /** Null where the paper belongs to no plan. */
  readonly plan: { readonly id: number; readonly state: number } | null;
  readonly kind: string;
  readonly title: string;
  /** JSON text of the paper's data. */
  readonly data: string;
  readonly at: string;
}

/** Issues a paper: its plan's state gets a revision number and its data is kept for ever. Only inside a write. */
export function issuePaper(database: Database, paper: NewPaper): { readonly id: number; readonly revision: number } {
  const revision = paper.plan ? numberState(database, paper.plan.id, paper.plan.state, 'printed', paper.at) : null;
  const id = database.run('INSERT INTO paper (plan, revision, kind, title, data, issued) VALUES (?, ?, ?, ?, ?, ?)', [
    paper.plan?.id ?? null,
    revision,
    paper.kind,
    paper.title,
    paper.data,
    paper.at,
  ]);
  return { id, revision: revision ?? 0 };
}

/** A paper exactly as it was issued. */
export function readPaper(database: Database, id: number): IssuedPaper {
  const row = database.get<Omit<IssuedPaper, 'paper'> & { data: string }>(
    'SELECT id, kind, title, plan, coalesce(revision, 0) AS revision, issued, data FROM paper WHERE id = ?',
    [id],
  );
  if (!row) throw new Refusal('not found', mainWords.noPaper(id));
  const { data, ...rest } = row;
  return { ...rest, paper: JSON.parse(data) as unknown };
}

/** What a plan asks of which route; its name alone makes no other plan of it. */
const ASKED = (state: string): string =>
  `SELECT json_remove(ask, '$.name') || ' ' || route || ' ' || route_revision FROM plan_state
   WHERE plan_state.plan = paper.plan AND state = (${state})`;
const AS_ISSUED = 'SELECT state FROM revision WHERE revision.plan = paper.plan AND number = paper.revision';
const NEWEST = 'SELECT max(state) FROM plan_state AS other WHERE other.plan = paper.plan';

/** The papers issued from a plan, or with null those of no plan; newest first. */
export function listPapers(database: Database, planId: number | null): readonly PaperEntry[] {
  if (planId !== null) readPlan(database, planId);
  const rows = database.all<Omit<PaperEntry, 'earlier'> & { earlier: number }>(
    `SELECT id, kind, title, plan, coalesce(revision, 0) AS revision, issued,
       plan IS NOT NULL AND (${ASKED(AS_ISSUED)}) IS NOT (${ASKED(NEWEST)}) AS earlier
     FROM paper WHERE plan IS ? ORDER BY id DESC`,
    [planId],
  );
  return rows.map((row) => ({ ...row, earlier: row.earlier === 1 }));
}
