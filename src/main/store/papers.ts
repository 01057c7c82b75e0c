import type { IssuedPaper } from '../../core/port/workbook.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Database } from './database.ts';
import { numberState, readPlan } from './plans.ts';
import { Refusal } from './refusal.ts';

interface NewPaper {
  readonly planId: number;
  readonly state: number;
  readonly kind: string;
  readonly title: string;
  /** JSON text of the paper's data. */
  readonly data: string;
  readonly at: string;
}

/** Issues a paper: its state gets a revision number and its data is kept for ever. Only inside a write. */
export function issuePaper(database: Database, paper: NewPaper): { readonly id: number; readonly revision: number } {
  const revision = numberState(database, paper.planId, paper.state, 'printed', paper.at);
  const id = database.run('INSERT INTO paper (plan, revision, kind, title, data, issued) VALUES (?, ?, ?, ?, ?, ?)', [
    paper.planId,
    revision,
    paper.kind,
    paper.title,
    paper.data,
    paper.at,
  ]);
  return { id, revision };
}

/** A paper exactly as it was issued. */
export function readPaper(database: Database, id: number): IssuedPaper {
  const row = database.get<Omit<IssuedPaper, 'paper'> & { data: string }>(
    'SELECT id, kind, title, revision, issued, data FROM paper WHERE id = ?',
    [id],
  );
  if (!row) throw new Refusal('not found', mainWords.noPaper(id));
  const { data, ...rest } = row;
  return { ...rest, paper: JSON.parse(data) as unknown };
}

/** The papers issued from a plan, newest first. */
export function listPapers(database: Database, planId: number): readonly Omit<IssuedPaper, 'paper'>[] {
  readPlan(database, planId);
  return database.all('SELECT id, kind, title, revision, issued FROM paper WHERE plan = ? ORDER BY id DESC', [planId]);
}
