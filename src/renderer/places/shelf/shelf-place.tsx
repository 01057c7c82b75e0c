import { shellWords } from '../../../core/words/shell-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';

export function ShelfPlace() {
  return <EmptyState busy title={shellWords.places.shelf} />;
}
