import { standsText } from '../../core/paper/on-hand-text.ts';
import type { FetchLine } from '../../core/plan/result.ts';
import { Amount } from './amount.tsx';
import { decimalMark } from './locale.ts';

/** What a line has on hand: one amount, or what stands in each bottle where no sum of them could be weighed. */
export function OnHand({ line, size = 'normal' }: { readonly line: FetchLine; readonly size?: 'normal' | 'small' }) {
  if (!line.stands) return <Amount figure={line.onHand} size={size} />;
  return (
    <span class="on-hand-bottles">
      {standsText(line.stands, decimalMark).map((one) => (
        <span key={one}>{one}</span>
      ))}
    </span>
  );
}
