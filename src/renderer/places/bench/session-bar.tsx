import { untracked, useSignalEffect } from '@preact/signals';
import { useId } from 'preact/hooks';
import { sessionName } from '../../../core/paper/session-papers.ts';
import { sessionWords as words } from '../../../core/words/session-words.ts';
import { dayAndTime, dayText } from '../../parts/day-text.ts';
import { chosen } from './bench-store.ts';
import { SessionNotes } from './session-notes.tsx';
import type { SessionField } from './session-draft.ts';
import {
  archiveSession,
  editSession,
  keepSession,
  openedSession,
  pickSession,
  saveSoon,
  sessionDraft,
  sessionReading,
  sessions,
  sessionSaid,
} from './session-store.ts';

/** Which session: its name, day, beginning and hours. A kept one saves itself. */
export function SessionBar() {
  useSignalEffect(() => {
    void chosen.value;
    untracked(saveSoon);
  });
  const draft = sessionDraft.value;
  const read = sessionReading.value;
  const problems = read.ok ? {} : read.problems;
  return (
    <section class="session-bar" aria-label={words.title}>
      <SessionPicker />
      <div class="session-fields">
        <SessionText label={words.name} value={draft.name} wide onInput={(name) => editSession({ name })} />
        <SessionText label={words.date} value={draft.date} date field="date" problem={problems.date} />
        <SessionText label={words.starts} value={draft.starts} field="starts" problem={problems.starts} />
        <SessionText label={words.hours} value={draft.hours} field="hours" problem={problems.hours} />
      </div>
      <SessionNotes />
      <Keep />
      {sessionSaid.value !== '' && (
        <p class="bench-said" role="alert">
          {sessionSaid.value}
        </p>
      )}
    </section>
  );
}

function SessionPicker() {
  const list = sessions.value ?? [];
  const id = useId();
  if (list.length === 0) return null;
  return (
    <p class="session-pick">
      <label for={id} class="small soft">
        {words.pick}
      </label>
      <select
        id={id}
        class="field-input"
        value={openedSession.value?.id ?? 0}
        onChange={(event) => pickSession(Number(event.currentTarget.value))}
      >
        <option value={0}>{words.none}</option>
        {list.map((one) => (
          <option key={one.id} value={one.id}>
            {sessionName(one.session, dayText)}
            {one.session.name === '' ? '' : ` · ${dayText(one.session.date)}`}
            {one.archived ? ` (${words.archived})` : ''}
          </option>
        ))}
      </select>
    </p>
  );
}

function Keep() {
  const open = openedSession.value;
  if (!open) {
    return (
      <p class="session-keep">
        <button
          type="button"
          class="button"
          disabled={!sessionReading.value.ok || chosen.value.size === 0}
          onClick={() => void keepSession()}
        >
          {words.keep}
        </button>
      </p>
    );
  }
  return (
    <p class="session-keep small">
      <span class="soft" role="status">
        {words.kept(dayAndTime(open.saved))}
        {open.archived && `, ${words.archived}`}
      </span>
      <button type="button" class="text-button" onClick={() => void archiveSession(!open.archived)}>
        {open.archived ? words.takeBack : words.archive}
      </button>
    </p>
  );
}

interface SessionTextProps {
  readonly label: string;
  readonly value: string;
  readonly date?: boolean;
  readonly wide?: boolean;
  readonly field?: SessionField;
  readonly problem?: string | undefined;
  readonly onInput?: (text: string) => void;
}

function SessionText({ label, value, date = false, wide = false, field, problem, onInput }: SessionTextProps) {
  const id = useId();
  const common = {
    id,
    class: 'field-input',
    autocomplete: 'off',
    value,
    'aria-invalid': problem !== undefined,
    'aria-describedby': problem === undefined ? undefined : `${id}-problem`,
    onInput: (event: { readonly currentTarget: HTMLInputElement }) => {
      const text = event.currentTarget.value;
      if (onInput) onInput(text);
      else if (field) editSession({ [field]: text });
    },
  } as const;
  return (
    <p class={wide ? 'session-field session-wide' : 'session-field'}>
      <label for={id} class="small soft">
        {label}
      </label>
      {date ? <input type="date" {...common} /> : <input type="text" maxLength={300} {...common} />}
      {problem !== undefined && (
        <span id={`${id}-problem`} class="session-problem small" role="alert">
          {problem}
        </span>
      )}
    </p>
  );
}
