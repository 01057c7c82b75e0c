import { EmptyState } from '../../parts/empty-state.tsx';
import { draft } from '../../state/plan-store.ts';

export function PlanPlace() {
  return <EmptyState title={draft.value?.name ?? ''} />;
}
