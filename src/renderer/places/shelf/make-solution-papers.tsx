import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { beginWith, type Draft, EMPTY_DRAFT, type Took } from './new-bottle-draft.ts';
import { type MakeUpContext, makeUpPaper } from '../../../core/paper/make-up-paper.ts';
import type { Portion, SolutionPlan } from '../../../core/matter/make-solution.ts';
import type { MakeUpPaper } from '../../../core/paper/paper.ts';
import type { PaperEntry } from '../../../core/port/workbook.ts';
import type { Reference } from '../../../core/reference.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { solutionWords } from '../../../core/words/solution-words.ts';
import { PREVIEW } from '../../paper/open-paper.ts';
import { dayAndTime } from '../../parts/day-text.ts';
import { decimalMark } from '../../parts/locale.ts';
import { written } from '../../parts/quantity-text.ts';
import { call } from '../../state/connection.ts';
import { settings, today } from '../../state/workbook.ts';
import type { SolutionDraft } from './make-solution-draft.ts';
import type { SolutionReading, Source } from './make-solution-read.ts';
import { panel } from './shelf-store.ts';

const words = solutionWords.papers;

/** Where the window goes; replaced by tests. */
export const pages = {
  open(address: string): void {
    globalThis.location.assign(address);
  },
};

interface SolutionPapersProps {
  readonly plan: SolutionPlan;
  readonly reading: SolutionReading;
  readonly draft: SolutionDraft;
  readonly operations: number;
  readonly tables: Reference;
}

/** The paper of the solution, to look at or to issue for good; what was issued before; and a bottle for it. */
export function SolutionPapers({ plan, reading, draft, operations, tables }: SolutionPapersProps) {
  const said = useSignal('');
  const lab = settings.value;
  if (!lab) return null;
  const give = async (): Promise<void> => {
    said.value = words.issuing;
    said.value = await issue(build());
  };
  const build = (): MakeUpPaper => {
    const sources = { source: sourceWords(reading.source), weaker: sourceWords(reading.weaker) };
    const context: MakeUpContext = {
      plan,
      reference: tables,
      settings: lab,
      mark: decimalMark,
      asOf: today.value,
      sources,
      purpose: draft.purpose,
      planName: draft.planName,
    };
    return makeUpPaper(context);
  };
  return (
    <section class="solution-papers" aria-labelledby="solution-papers">
      <h2 id="solution-papers">{words.section}</h2>
      <p class="soft small">{words.note(operations)}</p>
      <p class="solution-acts">
        <button type="button" class="button" onClick={() => preview(build())}>
          {words.preview}
        </button>
        <button type="button" class="button button-first" onClick={() => void give()}>
          {words.issue}
        </button>
        <button type="button" class="button" onClick={() => putOnShelf(plan, reading, draft)}>
          {solutionWords.putOnShelf}
        </button>
        <span class="small" role="status">
          {said.value}
        </span>
      </p>
      <p class="soft small">{solutionWords.putHint}</p>
      <IssuedSolutions />
    </section>
  );
}

function sourceWords(source: Source | null): string {
  if (!source) return '';
  const bottle = source.bottle?.bottle;
  if (!bottle) return solutionWords.paper.notOnShelf;
  const lot = bottle.lot ? solutionWords.paper.lot(bottle.lot) : solutionWords.paper.noLot;
  return bottle.place ? `${lot} · ${bottle.place}` : lot;
}

function preview(paper: MakeUpPaper): void {
  sessionStorage.setItem(PREVIEW, JSON.stringify(paper));
  open('preview');
}

/** Keeps the paper for ever and opens it. @returns why not, in words, or nothing. */
async function issue(paper: MakeUpPaper): Promise<string> {
  const answer = await call('papers.issue', { planId: null, state: null, kind: paper.kind, title: paper.title, paper });
  if (!answer.ok) return words.failed(troubleWords(answer));
  open(answer.value.id);
  return '';
}

function open(paper: number | 'preview'): void {
  pages.open(`./paper.html#paper=${paper}`);
}

/** Fills in a new bottle; nothing is on the shelf before the person puts it there. */
function putOnShelf(plan: SolutionPlan, reading: SolutionReading, draft: SolutionDraft): void {
  const { solute, form } = plan.ask;
  const { value, basis, equivalentsPerMole } = form.strength;
  const begun: Draft = {
    ...EMPTY_DRAFT,
    lookup: solute.name,
    name: solute.name,
    formula: solute.formula ?? '',
    cas: solute.cas ?? '',
    state: solute.state ?? '',
    kind: 'solution',
    strength: equivalentsPerMole === undefined ? `${value} ${basis}` : '',
    solvent: draft.solvent,
    amount: plan.millilitres.ok
      ? written(Number(plan.millilitres.figure.value.toPrecision(3)), 'mL')
      : plan.grams.ok
        ? written(Number(plan.grams.figure.value.toPrecision(3)), 'g')
        : '',
    opened: today.value,
  };
  beginWith(begun, [...tookOf(reading.source, plan.source), ...tookOf(reading.weaker, plan.rest)]);
  panel.value = { show: 'new' };
}

/** What is taken of a bottle, in its own unit; nothing where it is not on the shelf or that cannot be told. */
function tookOf(source: Source | null, { grams, millilitres }: Portion): readonly Took[] {
  const bottle = source?.bottle?.bottle;
  if (!bottle) return [];
  const amount = bottle.unit === 'g' ? grams : millilitres;
  const name = source?.bottle?.material.name ?? '';
  return amount.ok
    ? [{ id: bottle.id, amount: Number(amount.figure.value.toPrecision(4)), unit: bottle.unit, name, on: true }]
    : [];
}

const MOST_SHOWN = 8;

/** Solutions issued before, newest first; each opens exactly as it was issued. */
function IssuedSolutions() {
  const papers = useSignal<readonly PaperEntry[] | null>(null);
  const trouble = useSignal('');
  const read = async (): Promise<void> => {
    const answer = await call('papers.list', { planId: null });
    if (answer.ok) papers.value = answer.value;
    else trouble.value = words.unread(troubleWords(answer));
  };
  useEffect(() => void read(), []);
  if (trouble.value !== '') return <p class="shelf-trouble">{trouble.value}</p>;
  if (!papers.value || papers.value.length === 0) return null;
  return (
    <>
      <h3>{words.issued}</h3>
      <ol class="solution-issued">
        {papers.value.slice(0, MOST_SHOWN).map((paper) => (
          <li key={paper.id}>
            <button type="button" class="text-button" onClick={() => open(paper.id)}>
              {paper.title}
            </button>{' '}
            <span class="soft small">{dayAndTime(paper.issued)}</span>
          </li>
        ))}
      </ol>
    </>
  );
}
