import { EmptyState } from '../../parts/empty-state.tsx';

export function RoutesPlace() {
  return <EmptyState title="" />;
}
