import type { FlowEnd, PlanResult } from '../../../../core/plan/result.ts';

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
}

export interface CascadeFlow {
  readonly from: FlowEnd;
  readonly to: FlowEnd;
  readonly material: string;
  /** mol ÷ path stoichiometry: comparable along the way to the target, so that a 2:1 step is not a loss. */
  readonly size: number;
  readonly recycle: boolean;
  /**
   * Recovered beside what the step makes: the step it returns to is shown with its whole charge all the same, so this
   * flow is drawn as a loop and counts in no stack.
   */
  readonly apart: boolean;
}

/** Takes from a plan what the cascade draws. */
export function cascadeInput(result: PlanResult): CascadeInput {
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
    })),
    draws: result.draws.map(({ id, material }) => ({ id, material })),
    flows: result.flow.bands.map((band) => ({
      from: band.from,
      to: band.to,
      material: band.material,
      size: Math.max(0, band.moles.value) / (result.flow.pathStoichiometry[band.material] ?? 1),
      recycle: band.recycle,
      apart: band.recycle && band.from.kind === 'step' && productOf.get(band.from.step) !== band.material,
    })),
  };
}
