import { computed } from '@preact/signals';
import { benchNumbers } from '../../core/bench/bench-numbers.ts';
import type { BenchSection } from '../../core/bench/bench-section.ts';
import { planInput, result } from './plan-result.ts';

/** Bench numbers of each step of the plan on screen, worked out when first asked for. */
const ofPlan = computed(() => {
  const [input, now] = [planInput.value, result.value];
  const known = new Map<string, readonly BenchSection[]>();
  return (step: string): readonly BenchSection[] => {
    const found = known.get(step);
    if (found || !input || !now?.solved) return found ?? [];
    const made = benchNumbers(input, now, step);
    known.set(step, made);
    return made;
  };
});

/** The bench numbers of one step, for one batch; none where there is no plan. */
export function benchSections(step: string): readonly BenchSection[] {
  return ofPlan.value(step);
}
