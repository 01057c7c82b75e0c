import './caution-line.css';
import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { type Acknowledged, readBy, type SaidNow } from '../../../core/caution/acknowledgement.ts';
import { cautionWords as words } from '../../../core/words/caution-words.ts';
import type { Notice } from '../../../core/words/notice.ts';
import { dayAndTime } from '../../parts/day-text.ts';
import { NoticeMark } from '../../parts/notices.tsx';
import { acknowledge, acknowledged } from '../../state/acknowledged.ts';
import { who } from '../../state/who.ts';

interface CautionLineProps {
  readonly mark: Pick<Notice, 'level' | 'code'>;
  readonly caution: SaidNow;
  /** Words of everything said before the same operation. */
  readonly here: readonly string[];
}

/** A caution, who has read it, and where to write one's own initials. It stays, whoever has read it. */
export function CautionLine({ mark, caution, here }: CautionLineProps) {
  const { now, earlier } = readBy(caution, acknowledged.value, here);
  const last = earlier.at(-1);
  return (
    <div class={`caution-line caution-${mark.level}`}>
      <NoticeMark notice={mark} />
      <p>
        {caution.words}
        {now.length > 0 && <span class="caution-read">{firstOfEach(now).map(readWords).join(' · ')}</span>}
        {now.length === 0 && last && (
          <span class="caution-read">{words.readEarlier(last.by, dayAndTime(last.at), last.ended)}</span>
        )}
      </p>
      {mark.level !== 'note' && <InitialsField caution={caution} />}
    </div>
  );
}

const readWords = ({ by, at }: Acknowledged): string => words.read(by, dayAndTime(at));

/** Who has read it more than once is named once, by the first time. */
function firstOfEach(all: readonly Acknowledged[]): readonly Acknowledged[] {
  return all.filter((one, at) => all.findIndex((other) => other.by === one.by) === at);
}

/** A button that turns into a small field: Enter writes, Escape leaves it. What was typed stays until it is written. */
function InitialsField({ caution }: { readonly caution: SaidNow }) {
  const text = useSignal<string | null>(null);
  const wrong = useSignal('');
  const field = useRef<HTMLInputElement>(null);
  const open = text.value !== null;
  // Before the next key: what is typed at once would be lost to a later selection.
  useLayoutEffect(() => field.current?.select(), [open]);
  const write = async (): Promise<void> => {
    wrong.value = await acknowledge(caution, (text.value ?? '').trim());
    if (wrong.value === '') text.value = null;
  };
  if (text.value === null) {
    return (
      <button
        type="button"
        class="text-button small caution-initial"
        aria-label={words.acknowledgeFor(caution.words)}
        onClick={() => {
          text.value = who.value;
        }}
      >
        {words.acknowledge}
      </button>
    );
  }
  return (
    <span class="caution-field">
      <input
        ref={field}
        type="text"
        value={text.value}
        aria-label={words.initials}
        aria-invalid={wrong.value !== ''}
        maxLength={20}
        autocomplete="off"
        spellcheck={false}
        onInput={(event) => {
          text.value = event.currentTarget.value;
        }}
        onKeyDown={(event) => {
          event.stopPropagation();
          if (event.key === 'Enter') void write();
          if (event.key === 'Escape') {
            text.value = null;
            wrong.value = '';
          }
        }}
      />
      {wrong.value !== '' && (
        <span class="caution-wrong" role="alert">
          {wrong.value}
        </span>
      )}
    </span>
  );
}
