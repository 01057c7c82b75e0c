import { useSignal } from '@preact/signals';
import { labelPaper } from '../../../core/label/label-paper.ts';
import type { LabelPaper } from '../../../core/paper/paper.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import type { LabelSize } from '../../../core/reference-rows.ts';
import { labelWords } from '../../../core/words/label-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { PREVIEW } from '../../paper/open-paper.ts';
import { dayText } from '../../parts/day-text.ts';
import { call } from '../../state/connection.ts';
import { reference, settings, today } from '../../state/workbook.ts';
import { labelSize, labelStart, sizeNamed } from './label-choice.ts';
import { pages } from './label-pages.ts';

const words = labelWords.form;

interface LabelFormProps {
  /** The bottles to label, or why there are none, in words. */
  readonly bottles: () => Promise<readonly BottleRow[] | string>;
}

/** On which labels, from which place of the sheet; to look at, or to issue for good. */
export function LabelForm({ bottles }: LabelFormProps) {
  const said = useSignal('');
  const sizes = reference.value?.rows.labelSizes ?? [];
  const size = sizeNamed(sizes, labelSize.value);
  if (!size) return null;
  const places = size.columns * size.rows;
  const start = readStart(labelStart.value, places);
  const make = async (use: (paper: LabelPaper) => void | Promise<string>): Promise<void> => {
    const made = await build(bottles, size, start ?? 1);
    said.value = typeof made === 'string' ? made : ((await use(made)) ?? '');
  };
  return (
    <div class="label-form">
      <label class="field">
        <span class="field-label">{words.size}</span>
        <select
          class="field-input"
          value={size.name}
          onChange={(event) => {
            labelSize.value = event.currentTarget.value;
          }}
        >
          {sizes.map((one) => (
            <option key={one.name}>{one.name}</option>
          ))}
        </select>
      </label>
      {places > 1 && <StartField places={places} wrong={start === null} />}
      <p class="solution-acts">
        <button type="button" class="button" disabled={start === null} onClick={() => void make(preview)}>
          {words.preview}
        </button>
        <button type="button" class="button button-first" disabled={start === null} onClick={() => void make(issue)}>
          {words.issue}
        </button>
        <span class="small" role="status">
          {said.value}
        </span>
      </p>
      <p class="soft small">
        {words.note} {words.scan}
      </p>
    </div>
  );
}

function StartField({ places, wrong }: { readonly places: number; readonly wrong: boolean }) {
  return (
    <label class="field">
      <span class="field-label">{words.start}</span>
      <input
        class="field-input"
        type="text"
        inputMode="numeric"
        value={labelStart.value}
        aria-invalid={wrong}
        onInput={(event) => {
          labelStart.value = event.currentTarget.value;
        }}
      />
      {wrong ? <strong role="alert">{words.badStart(places)}</strong> : <span class="field-from">{words.startHint(places)}</span>}
    </label>
  );
}

function readStart(text: string, places: number): number | null {
  const found = /^\s*(\d{1,4})\s*$/.exec(text);
  const start = Number(found?.[1] ?? 0);
  return start >= 1 && start <= places ? start : null;
}

async function build(bottles: LabelFormProps['bottles'], size: LabelSize, start: number): Promise<LabelPaper | string> {
  const tables = reference.value;
  const found = await bottles();
  if (typeof found === 'string') return found;
  if (!tables || found.length === 0) return words.failed('');
  const paper = settings.value?.paper ?? 'A4';
  return labelPaper(found, { size, start, paper, asOf: today.value, day: dayText }, tables);
}

function preview(paper: LabelPaper): void {
  sessionStorage.setItem(PREVIEW, JSON.stringify(paper));
  pages.open('./paper.html#paper=preview');
}

async function issue(paper: LabelPaper): Promise<string> {
  const title = paper.title.slice(0, LONGEST_TITLE);
  const answer = await call('papers.issue', { planId: null, state: null, kind: paper.kind, title, paper });
  if (!answer.ok) return words.failed(troubleWords(answer));
  pages.open(`./paper.html#paper=${answer.value.id}`);
  return '';
}

const LONGEST_TITLE = 300;
