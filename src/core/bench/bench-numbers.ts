import { additionSection } from '../heat/addition-section.ts';
import { heatSection } from '../heat/heat-section.ts';
import { recrystalliseSection } from '../crystallise/recrystallise-section.ts';
import { setUp } from '../plan/set-up.ts';
import { gasSection } from '../quench/gas-section.ts';
import { neutraliseSection } from '../quench/neutralise-section.ts';
import { vesselSection } from '../vessel/vessel-section.ts';
import type { PlanInput } from '../plan/input.ts';
import type { PlanResult } from '../plan/result.ts';
import type { BenchSection, SectionMaker } from './bench-section.ts';
import { placed } from './placing.ts';

/** In the order the work goes. */
const SECTIONS: readonly SectionMaker[] = [
  heatSection,
  additionSection,
  neutraliseSection,
  gasSection,
  vesselSection,
  recrystalliseSection,
];

/**
 * The numbers that keep the work of one step safe, for one batch: screening figures, each with its assumptions.
 * Apart from plan(), because a keystroke must not wait for them.
 * @param result the plan made from `input`. @param stepId a step of it; one that does not run has none.
 * @throws RangeError where the step is not in the plan.
 */
export function benchNumbers(input: PlanInput, result: PlanResult, stepId: string): readonly BenchSection[] {
  const plan = result.steps.find((one) => one.id === stepId);
  const { input: read, facts, bottles } = setUp(input);
  const step = read.route.steps.find((one) => one.id === stepId);
  if (!plan || !step) throw new RangeError(`benchNumbers needs a step of the plan (got ${stepId})`);
  if (!plan.active) return [];
  const of = { plan, step, result, facts, bottles, settings: read.settings, reference: read.reference };
  return placed(
    SECTIONS.flatMap((make) => make(of) ?? []),
    of,
  );
}
