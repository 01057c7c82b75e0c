import type { Operation, Step } from '../route/route.ts';
import type { Phase } from './phase.ts';
import { keptOf, type Takeable } from './taken.ts';

/** Fraction of each charged material that is still in the vessel, 0 … 1, before each operation of a step. */
export type Residue = ReadonlyMap<string, number>;

/** What a material is in the vessel. */
export type Told = (material: string) => { readonly liquid: boolean; readonly layer: Phase };

/** Goes through a step's operations and gives what is left in the vessel before each; consumption is not counted. */
export function residueBefore(step: Step, told: Told): readonly Residue[] {
  const before: Residue[] = [];
  let now: Residue = new Map();
  for (const operation of step.operations) {
    before.push(now);
    now = after(now, operation, step, told);
  }
  return before;
}

function after(now: Residue, operation: Operation, step: Step, told: Told): Residue {
  if (operation.do === 'charge') return new Map([...now, [operation.material, 1]]);
  if (operation.do === 'hold') return now;
  return new Map(
    [...now].map(([material, fraction]) => [material, fraction * keptOf(operation.takes, takeable(material, step, told))]),
  );
}

/** A charged material as a removal sees it. The basis stands for the product it turns into. */
export function takeable(material: string, step: Step, told: Told): Takeable {
  return { material, ...told(material), product: material === step.basis };
}
