import type { IssuedPaper } from '../../core/port/workbook.ts';
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
    'SELECT id, kind, title, coalesce(revision, 0) AS revision, issued, data FROM paper WHERE id = ?',
    [id],
  );
  if (!row) throw new Refusal('not found', mainWords.noPaper(id));
  const { data, ...rest } = row;
  return { ...rest, paper: JSON.parse(data) as unknown };
}

/** The papers issued from a plan, or with null those of no plan; newest first. */
export function listPapers(database: Database, planId: number | null): readonly Omit<IssuedPaper, 'paper'>[] {
  if (planId !== null) readPlan(database, planId);
  return database.all(
    'SELECT id, kind, title, coalesce(revision, 0) AS revision, issued FROM paper WHERE plan IS ? ORDER BY id DESC',
    [planId],
  );
}
