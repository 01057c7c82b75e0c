import type { FlowEnd } from '../plan/flow.ts';
import type { PlanResult } from '../plan/result.ts';

/** What the layout needs of a plan: which step uses and makes what, where it goes, and how much. */
export interface CascadeInput {
  readonly steps: readonly CascadeStep[];
  readonly draws: readonly { readonly id: string; readonly material: string }[];
  readonly flows: readonly CascadeFlow[];
}

export interface CascadeStep {
  readonly id: string;
  /** 1 … n in working order. */
  readonly number: number;
  readonly basis: string;
  readonly product: string;
  /** Other materials it charges that the route itself makes. */
  readonly also: readonly string[];
  /** What it would give without loss, in the unit of the sizes; null where that is as much as its basis. */
  readonly theory: number | null;
}

export interface CascadeFlow {
  readonly from: FlowEnd;
  readonly to: FlowEnd;
  readonly material: string;
  /** In moles: mol ÷ path stoichiometry, comparable along the way, so that a 2:1 step is not a loss. Else grams. */
  readonly size: number;
  readonly recycle: boolean;
  /**
   * Recovered beside what the step makes: the step it returns to is shown with its whole charge all the same, so this
   * flow is drawn as a loop and counts in no stack.
   */
  readonly apart: boolean;
}

export type BandsIn = 'moles' | 'grams';

/**
 * Takes from a plan what the cascade draws. In grams a step's product is as heavy as it is: the change of molar mass
 * at its line is no loss, and only what the yield takes is hatched.
 */
export function cascadeInput(result: PlanResult, bandsIn: BandsIn = 'moles'): CascadeInput {
  const made = new Set(result.steps.map((step) => step.product.material));
  const productOf = new Map(result.steps.map((step) => [step.id, step.product.material]));
  return {
    steps: result.steps.map((step) => ({
      id: step.id,
      number: step.number,
      basis: step.basis.material,
      product: step.product.material,
      also: [
        ...new Set(
          step.operations.flatMap((one) =>
            one.kind === 'charge' && one.material !== step.basis.material && made.has(one.material) ? [one.material] : [],
          ),
        ),
      ],
      theory: bandsIn === 'moles' ? null : massOf(step.product.theory.value),
    })),
    draws: result.draws.map(({ id, material }) => ({ id, material })),
    flows: result.flow.bands.map((band) => ({
      from: band.from,
      to: band.to,
      material: band.material,
      size:
        bandsIn === 'grams'
          ? massOf(band.grams.value)
          : Math.max(0, band.moles.value) / (result.flow.pathStoichiometry[band.material] ?? 1),
      recycle: band.recycle,
      apart: band.recycle && band.from.kind === 'step' && productOf.get(band.from.step) !== band.material,
    })),
  };
}

/** A mass that is not known is drawn as a line. */
function massOf(grams: number): number {
  return Number.isFinite(grams) ? Math.max(0, grams) : 0;
}
