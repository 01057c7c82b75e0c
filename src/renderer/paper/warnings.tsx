import type { Warning } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';

interface WarningRowsProps {
  readonly warnings: readonly Warning[];
  /** "Before 2:" */
  readonly lead: string;
  readonly columns: number;
}

/** Cautions and limits as rows of the operation's own table body, so that no page break parts them from it. */
export function WarningRows({ warnings, lead, columns }: WarningRowsProps) {
  return (
    <>
      {warnings.map((warning, at) => (
        <tr key={at} class={`warning warning-${warning.kind}`}>
          <td colSpan={columns}>
            <WarningLine warning={warning} lead={lead} />
          </td>
        </tr>
      ))}
    </>
  );
}

export function WarningLine({ warning, lead }: { readonly warning: Warning; readonly lead: string }) {
  const shape = warning.kind === 'note' ? '●' : '▲';
  const leads = { limit: lead, caution: lead, short: words.shortOf, note: words.note } as const;
  return (
    <p>
      <span class="shape">{shape}</span> <strong>{leads[warning.kind]}</strong> {warning.words}
    </p>
  );
}
