import type { RunCharge } from '../../core/run/run-sheet.ts';
import { route } from './plan-route.ts';
import { ownRuns, run } from './run-store.ts';

/**
 * In what proportion to its plan the step before was really begun, where a charge is that step's dish; 1 where it has no
 * run in this plan, null where no step makes it.
 */
export function dishFactor(charge: RunCharge): number | null {
  const makers = (route.value?.steps ?? []).filter((step) => step.product === charge.material).map((step) => step.id);
  if (makers.length === 0) return null;
  const runs = ownRuns().filter((one) => makers.includes(one.step) && one.basisFactor !== null);
  const batch = run.value?.start.sheet.batch;
  return (runs.find((one) => one.batch === batch) ?? runs[0])?.basisFactor ?? 1;
}
