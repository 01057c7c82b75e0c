import { runReport } from '../../../core/paper/run-report.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { weighWords } from '../../../core/words/weigh-words.ts';
import { clockTime, dayAndTime } from '../../parts/day-text.ts';
import { decimalMark } from '../../parts/locale.ts';
import { saveFile } from '../../parts/save-file.ts';
import { call } from '../../state/connection.ts';
import { runRows } from '../../state/run-rows.ts';
import { settings } from '../../state/workbook.ts';
import { openIssued, paperSaid } from './bench-store.ts';

const words = weighWords.runs;

/** Saves a run's whole record, chain and all, as a file. */
export async function exportRun(id: number): Promise<void> {
  const answer = await call('runs.export', { id });
  if (!answer.ok) paperSaid.value = words.exportFailed(troubleWords(answer));
  else saveFile(`run-${id}.json`, new Blob([answer.value.text], { type: 'application/json' }));
}

/** Issues the report of a run under the revision it was started from, and opens it. */
export async function issueReport(id: number): Promise<void> {
  paperSaid.value = '';
  const read = await call('runs.read', { id });
  if (!read.ok) {
    paperSaid.value = troubleWords(read);
    return;
  }
  const run = read.value;
  const paper = runReport(run, {
    size: settings.value?.paper ?? 'A4',
    mark: decimalMark,
    moment: dayAndTime,
    time: (iso) => clockTime(iso, new Date(iso)),
    cumulativePercent: runRows.value?.find((one) => one.id === id)?.cumulativePercent ?? null,
  });
  const { plan: planId, revision } = run.start;
  const issued = await call('papers.issue', { planId, state: 1, revision, kind: paper.kind, title: paper.title, paper });
  if (!issued.ok) paperSaid.value = troubleWords(issued);
  else openIssued(issued.value.id);
}
