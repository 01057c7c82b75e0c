import type { Operation, Step } from '../route/route.ts';

/** Fraction of each charged material that is still in the vessel, 0 … 1, before each operation of a step. */
export type Residue = ReadonlyMap<string, number>;

/** Goes through a step's operations and gives what is left in the vessel before each; consumption is not counted. */
export function residueBefore(step: Step, isLiquid: (material: string) => boolean): readonly Residue[] {
  const before: Residue[] = [];
  let now: Residue = new Map();
  for (const operation of step.operations) {
    before.push(now);
    now = after(now, operation, step, isLiquid);
  }
  return before;
}

function after(now: Residue, operation: Operation, step: Step, isLiquid: (material: string) => boolean): Residue {
  if (operation.do === 'charge') return new Map([...now, [operation.material, 1]]);
  if (operation.do === 'hold') return now;
  const left = new Map(now);
  for (const [material, fraction] of now) {
    const kept = operation.takes.reduce(
      (rest, taken) => (takes(taken.what, material, step, isLiquid) ? rest * (1 - taken.percent / 100) : rest),
      1,
    );
    left.set(material, fraction * kept);
  }
  return left;
}

/** Whether a removal of `what` takes this material. The basis stands for the product it turns into. */
export function takes(what: string, material: string, step: Step, isLiquid: (material: string) => boolean): boolean {
  if (what === 'liquids') return isLiquid(material);
  if (what === 'solids') return !isLiquid(material);
  if (what === 'all but the product') return material !== step.basis;
  return what === material;
}
