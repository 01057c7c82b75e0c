import { useSignal } from '@preact/signals';
import type { Paper } from '../../../core/paper/paper.ts';
import { fetchPaper } from '../../../core/paper/fetch-list.ts';
import { routeSummary } from '../../../core/paper/route-summary.ts';
import type { PaperContext } from '../../../core/paper/context.ts';
import { sessionPapers } from '../../../core/paper/session-papers.ts';
import { weighingPaper } from '../../../core/paper/weighing-sheet.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { benchWords } from '../../../core/words/bench-words.ts';
import { sessionWords } from '../../../core/words/session-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { call } from '../../state/connection.ts';
import { planInput } from '../../state/plan-result.ts';
import { settings } from '../../state/workbook.ts';
import { paperContext, secondCheck } from '../../state/paper-context.ts';
import { chosenBatches, issuePaper, paperSaid, previewPaper } from './bench-store.ts';
import { Runs } from './runs.tsx';
import { sessionReading } from './session-store.ts';
import { IssuedPapers } from './issued-papers.tsx';

const words = benchWords.papers;

/** The papers for what is chosen, and every paper issued before. */
export function Papers({ result }: { readonly result: PlanResult }) {
  const batches = chosenBatches(result);
  const context = paperContext(result);
  return (
    <section class="bench-papers" aria-labelledby="papers-title">
      <header class="part-head">
        <h1 id="papers-title">{words.title}</h1>
      </header>
      {batches.length === 0 && <p class="soft">{words.nothing}</p>}
      {batches.length > 0 && context && (
        <>
          <AllPapers result={result} context={context} />
          <NewPaper
            title={words.weighing(batches.length)}
            note={sheetsNote(batches, result)}
            build={() => weighingPaper(batches, context)}
          />
          <FetchNewPaper build={() => fetchPaper(batches, context)} />
          <Options />
          <p class="soft small issue-hint">{words.issueHint}</p>
        </>
      )}
      {context && (
        <NewPaper title={words.summary} note={words.summaryNote(result.steps.length)} build={() => routeSummary(context)} />
      )}
      {paperSaid.value !== '' && (
        <p class="bench-said" role="status">
          {paperSaid.value}
        </p>
      )}
      <Runs />
      <IssuedPapers />
    </section>
  );
}

function sheetsNote(batches: ReturnType<typeof chosenBatches>, result: PlanResult): string {
  const ids = batches.map(({ step, batch }) => `${result.steps.find((one) => one.id === step)?.number ?? ''}-${batch}`);
  return ids.length === 1 ? words.weighingNoteOne(ids.join('')) : words.weighingNote(ids.join(', '));
}

/** The day, the fetch list, make-ups and sheets as one paper, for one print. */
function AllPapers({ result, context }: { readonly result: PlanResult; readonly context: PaperContext }) {
  const read = sessionReading.value;
  const input = planInput.value;
  if (!read.ok || !input) return null;
  const batches = chosenBatches(result);
  const build = () => sessionPapers(read.session, batches, { ...context, input, day: dayText });
  const { parts } = build();
  const lines = parts.reduce((sum, part) => (part.kind === 'fetch list' ? sum + part.lines : sum), 0);
  const makeUps = parts.filter((part) => part.kind === 'make-up').length;
  return (
    <NewPaper title={sessionWords.papers.all} note={sessionWords.papers.allNote(lines, makeUps, batches.length)} build={build} />
  );
}

function FetchNewPaper({ build }: { readonly build: () => ReturnType<typeof fetchPaper> }) {
  const paper = build();
  return <NewPaper title={words.fetch} note={words.fetchNote(paper.lines, paper.makeUps.length)} build={() => paper} />;
}

interface NewPaperProps {
  readonly title: string;
  readonly note: string;
  readonly build: () => Paper;
}

/** A paper that can be looked at, or issued for good. */
export function NewPaper({ title, note, build }: NewPaperProps) {
  return (
    <div class="new-paper">
      <p>
        <b>{title}</b>
        <span class="soft small">{note}</span>
      </p>
      <span class="new-paper-acts">
        <button type="button" class="button" aria-label={`${words.preview}: ${title}`} onClick={() => previewPaper(build())}>
          {words.preview}
        </button>
        <button
          type="button"
          class="button button-first"
          aria-label={`${words.issue}: ${title}`}
          onClick={() => void issuePaper(build())}
        >
          {words.issue}
        </button>
      </span>
    </div>
  );
}

function Options() {
  const wrong = useSignal('');
  const saveSize = async (paper: 'A4' | 'Letter'): Promise<void> => {
    const lab = settings.value;
    if (!lab) return;
    settings.value = { ...lab, paper };
    const answer = await call('settings.save', { settings: { ...lab, paper } });
    wrong.value = answer.ok ? '' : words.sizeFailed(troubleWords(answer));
  };
  return (
    <div class="paper-options">
      <label class="check-box">
        <input
          type="checkbox"
          checked={secondCheck.value}
          onChange={(event) => {
            secondCheck.value = event.currentTarget.checked;
          }}
        />
        {words.secondCheck}
      </label>
      <label class="paper-size">
        {words.size}{' '}
        <select
          value={settings.value?.paper ?? 'A4'}
          onChange={(event) => void saveSize(event.currentTarget.value === 'Letter' ? 'Letter' : 'A4')}
        >
          <option value="A4">{words.sizes.A4}</option>
          <option value="Letter">{words.sizes.Letter}</option>
        </select>
      </label>
      {wrong.value !== '' && (
        <p class="bench-said" role="alert">
          {wrong.value}
        </p>
      )}
    </div>
  );
}
