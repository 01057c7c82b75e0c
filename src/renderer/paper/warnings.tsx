import type { Warning } from '../../core/paper/sheet.ts';
import { cautionWords } from '../../core/words/caution-words.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';

interface WarningRowsProps {
  readonly warnings: readonly Warning[];
  /** "Before 2:" */
  readonly lead: string;
  readonly columns: number;
}

/** Cautions and limits as a row of the operation's own table body, so that no page break parts them from it. */
export function WarningRows({ warnings, lead, columns }: WarningRowsProps) {
  if (warnings.length === 0) return null;
  const serious = warnings.some((warning) => warning.kind !== 'note');
  return (
    <tr class={serious ? 'warning warning-serious' : 'warning'}>
      <td colSpan={columns}>
        {warnings.map((warning, at) => (
          <WarningLine key={at} warning={warning} lead={at === 0 ? lead : ''} blank />
        ))}
      </td>
    </tr>
  );
}

interface WarningLineProps {
  readonly warning: Warning;
  readonly lead: string;
  /** With a place for the initials of who has read it. */
  readonly blank?: boolean;
}

export function WarningLine({ warning, lead, blank = false }: WarningLineProps) {
  const shape = warning.kind === 'note' ? '●' : '▲';
  const leads = { limit: lead, caution: lead, short: words.shortOf, note: words.note } as const;
  return (
    <div class={blank ? 'warning-line' : undefined}>
      <p>
        <span class="shape">{shape}</span> {leads[warning.kind] !== '' && <strong>{leads[warning.kind]} </strong>}
        {warning.words}
      </p>
      {blank && warning.kind !== 'note' && <span class="warning-blank">{cautionWords.blank}</span>}
    </div>
  );
}
