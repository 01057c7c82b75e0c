import { shellWords } from '../../../core/words/shell-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';

export function BenchPlace() {
  return <EmptyState busy title={shellWords.places.bench} />;
}
