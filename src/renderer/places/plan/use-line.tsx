import type { Figure } from '../../../core/quantity/figure.ts';
import { meritWords as words } from '../../../core/words/merit-words.ts';
import { Amount } from '../../parts/amount.tsx';

/** A line of how material is used: what, how much, and what is to be said of it. */
export function UseLine({
  name,
  figure,
  note = '',
}: {
  readonly name: string;
  readonly figure: Figure | null;
  readonly note?: string;
}) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{figure ? <Amount figure={figure} /> : <span class="soft">{words.unknown}</span>}</dd>
      {note !== '' && <dd class="use-note">{note}</dd>}
    </div>
  );
}
