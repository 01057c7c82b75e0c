import { benchLine, type BenchInput, type BenchSection } from '../bench/bench-section.ts';
import { known, unknown } from '../words/why.ts';

/** How slowly the charge that frees the heat has to be added. */
export function additionSection({ plan, step }: BenchInput): BenchSection | null {
  if (step.heat === undefined) return null;
  const { shortestAddition } = plan.batches;
  const figure = shortestAddition ? known(shortestAddition) : unknown('no cooling power');
  return { kind: 'addition', lines: [benchLine('shortest', figure)], assumptions: ['cooling'], plot: null };
}
