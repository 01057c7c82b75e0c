import { useSignal } from '@preact/signals';
import { useEffect, useId, useRef } from 'preact/hooks';
import {
  type LabReading,
  readBalances,
  readLimits,
  readMeasures,
  readVessels,
  writeBalances,
  writeLimits,
  writeMeasures,
  writeVessels,
} from '../../../core/plan/lab-text.ts';
import type { Settings } from '../../../core/plan/settings.ts';
import { labWords as words } from '../../../core/words/lab-words.ts';
import { commitLab, editLab, labOpen, labTrouble, labUndo, takeBackLab, undoLab } from '../../state/lab-store.ts';
import { settings } from '../../state/workbook.ts';

/** What the laboratory has, each list a text with one line a thing; every plan follows as it is typed. */
export function Laboratory() {
  const lab = settings.value;
  const own = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (labOpen.value) own.current?.scrollIntoView({ block: 'nearest' });
  }, []);
  if (!lab) return null;
  return (
    <details
      ref={own}
      class="fold laboratory"
      open={labOpen.value}
      onToggle={(event) => {
        labOpen.value = event.currentTarget.open;
      }}
    >
      <summary>{words.title}</summary>
      {labOpen.value && <Lists lab={lab} />}
    </details>
  );
}

function Lists({ lab }: { readonly lab: Settings }) {
  const undo = labUndo.value;
  return (
    <div class="laboratory-lists">
      <p class="soft small">{words.note}</p>
      <ListField
        label={words.vessels}
        form={words.forms.vessels}
        text={writeVessels(lab.vessels)}
        read={(text) => reading(readVessels(text), (vessels) => ({ vessels }))}
      />
      <ListField
        label={words.balances}
        form={words.forms.balances}
        text={writeBalances(lab.balances)}
        read={(text) => reading(readBalances(text), (balances) => ({ balances }))}
      />
      <ListField
        label={words.measures}
        form={words.forms.measures}
        text={writeMeasures(lab.measures)}
        read={(text) => reading(readMeasures(text), (measures) => ({ measures }))}
      />
      <ListField
        label={words.limits}
        form={words.forms.limits}
        text={writeLimits(lab)}
        read={(text) => reading(readLimits(text, lab), (limits) => ({ coolingWatts: undefined, ...limits }))}
      />
      {labTrouble.value !== '' && <p role="alert">{labTrouble.value}</p>}
      {undo !== null && (
        <button type="button" class="text-button" onClick={() => void undoLab()}>
          {words.undo(undo)}
        </button>
      )}
    </div>
  );
}

function reading<T>(read: LabReading<T>, as: (value: T) => Partial<Settings>): LabReading<Partial<Settings>> {
  return read.ok ? { ok: true, value: as(read.value) } : read;
}

interface ListFieldProps {
  readonly label: string;
  readonly form: string;
  readonly text: string;
  readonly read: (text: string) => LabReading<Partial<Settings>>;
}

/** One list as text. What cannot be read stands under it with its line; until it is mended the list stands as it was. */
function ListField({ label, form, text, read }: ListFieldProps) {
  const id = useId();
  // What is typed, while the field has the focus or cannot be read; null where the list itself is shown.
  const typed = useSignal<string | null>(null);
  const shown = typed.value ?? text;
  const now = typed.value === null ? null : read(typed.value);
  const wrong = now && !now.ok ? now : null;
  const take = (next: string): void => {
    typed.value = next;
    const found = read(next);
    if (found.ok) editLab(found.value);
    else takeBackLab();
  };
  const leave = (): void => {
    if (!wrong) typed.value = null;
    void commitLab(label);
  };
  return (
    <div class={`field field-wide${wrong ? ' field-bad' : ''}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      <textarea
        id={id}
        class="field-input laboratory-text"
        rows={Math.min(12, shown.split('\n').length + 1)}
        spellcheck={false}
        autocomplete="off"
        value={shown}
        aria-invalid={wrong !== null}
        aria-describedby={`${id}-form${wrong ? ` ${id}-wrong` : ''}`}
        onInput={(event) => take(event.currentTarget.value)}
        onBlur={leave}
      />
      <span id={`${id}-form`} class="field-from">
        {form}
      </span>
      {wrong && (
        <span id={`${id}-wrong`} class="field-wrong" role="alert">
          <span class="field-problem-text" aria-hidden="true">
            <Line text={shown} at={wrong.at} />
          </span>{' '}
          {wrong.words}. {words.stands}
        </span>
      )}
    </div>
  );
}

/** The line a problem is in, marked from the character on. */
function Line({ text, at }: { readonly text: string; readonly at: number }) {
  const from = text.lastIndexOf('\n', Math.max(0, at - 1)) + 1;
  const end = text.indexOf('\n', at);
  return (
    <>
      {text.slice(from, at)}
      <mark>{text.slice(at, end < 0 ? undefined : end) || '\u00a0'}</mark>
    </>
  );
}
