import { shellWords } from '../../../core/words/shell-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';

export function BuyPlace() {
  return <EmptyState busy title={shellWords.places.buy} />;
}
