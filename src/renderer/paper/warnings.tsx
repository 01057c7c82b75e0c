import type { Warning } from '../../core/paper/sheet.ts';
import { cautionWords } from '../../core/words/caution-words.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';

interface WarningRowsProps {
  readonly warnings: readonly Warning[];
  /** "Before 2:" */
  readonly lead: string;
  readonly columns: number;
}

/**
 * Cautions and limits as a row of the operation's own table body, so that no page break parts them from it: what may
 * hurt a line each, with one place for the initials of who has read it; then what is only to be known.
 */
export function WarningRows({ warnings, lead, columns }: WarningRowsProps) {
  if (warnings.length === 0) return null;
  const serious = warnings.filter((warning) => warning.kind !== 'note');
  const notes = warnings.filter((warning) => warning.kind === 'note');
  const signed = serious.length > 0;
  return (
    <tr class={signed ? 'warning warning-serious' : 'warning'}>
      <td colSpan={signed ? columns - 1 : columns}>
        {serious.map((warning, at) => (
          <WarningLine key={at} warning={warning} lead={at === 0 ? lead : ''} />
        ))}
        <Notes notes={notes} />
      </td>
      {signed && <td class="blank warning-blank">{cautionWords.blank}</td>}
    </tr>
  );
}

/** Notes one after the other, a line each behind its own sign: an eye finds the one it looks for. */
export function Notes({ notes }: { readonly notes: readonly Warning[] }) {
  if (notes.length === 0) return null;
  return (
    <div class="notes">
      {notes.map((note, at) => (
        <p key={at}>
          <span class="shape">●</span> {at === 0 && <strong>{words.note} </strong>}
          {note.words}
        </p>
      ))}
    </div>
  );
}

interface WarningLineProps {
  readonly warning: Warning;
  readonly lead: string;
}

export function WarningLine({ warning, lead }: WarningLineProps) {
  const shape = warning.kind === 'note' ? '●' : '▲';
  const leads = { limit: lead, caution: lead, short: words.shortOf, note: words.note } as const;
  return (
    <p>
      <span class="shape">{shape}</span> {leads[warning.kind] !== '' && <strong>{leads[warning.kind]} </strong>}
      {warning.words}
    </p>
  );
}
