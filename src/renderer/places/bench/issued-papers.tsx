import type { PaperEntry } from '../../../core/port/workbook.ts';
import { benchWords } from '../../../core/words/bench-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { dayAndTime } from '../../parts/day-text.ts';
import { savePdf } from '../../paper/save-pdf.ts';
import { call } from '../../state/connection.ts';
import { issuedPapers, openIssued, papersTrouble, paperSaid } from './bench-store.ts';

const words = benchWords.papers;

/** Every paper of the plan, newest first; each opens exactly as it was issued. */
export function IssuedPapers() {
  const papers = issuedPapers.value;
  return (
    <section class="issued" aria-labelledby="issued-title">
      <h2 id="issued-title">{words.issuedTitle}</h2>
      {papersTrouble.value !== '' && <p class="bench-said">{papersTrouble.value}</p>}
      {papers === null && papersTrouble.value === '' && <p class="soft">{words.reading}</p>}
      {papers?.length === 0 && <p class="soft">{words.issuedNone}</p>}
      {papers && papers.length > 0 && (
        <ol>
          {papers.map((paper) => (
            <Issued key={paper.id} paper={paper} />
          ))}
        </ol>
      )}
    </section>
  );
}

function Issued({ paper }: { readonly paper: PaperEntry }) {
  const { id, title } = paper;
  return (
    <li class="issued-paper">
      <button type="button" class="text-button issued-title" aria-label={words.openPaper(title)} onClick={() => openIssued(id)}>
        {title}
      </button>
      <span class="soft small">{words.issued(paper.revision, dayAndTime(paper.issued))}</span>
      {paper.earlier && (
        <strong class="issued-earlier small">
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <path d="M6 1 11.5 11H.5Z" />
          </svg>
          {words.earlier}
        </strong>
      )}
      <span class="issued-acts">
        <button type="button" class="text-button small" aria-label={words.pdfOf(title)} onClick={() => void pdf(id)}>
          {words.pdf}
        </button>
        <button type="button" class="text-button small" aria-label={words.printOf(title)} onClick={() => void print(id)}>
          {words.print}
        </button>
      </span>
    </li>
  );
}

async function pdf(id: number): Promise<void> {
  paperSaid.value = words.makingPdf;
  paperSaid.value = await savePdf(id, { call });
}

async function print(id: number): Promise<void> {
  paperSaid.value = words.printing;
  const answer = await call('papers.print', { id });
  paperSaid.value = answer.ok ? '' : words.printFailed(troubleWords(answer));
}
