import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import type { Ask, Draw } from '../../src/core/plan/ask.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult, StepPlan } from '../../src/core/plan/result.ts';
import type { Settings } from '../../src/core/plan/settings.ts';
import type { Operation, Recovery, Route, Step, StepYield } from '../../src/core/route/route.ts';
import { type Bottle, EMPTY_SHELF, type Shelf } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import laboratory from '../../resources/tables/laboratory.json' with { type: 'json' };

/** Small builders that keep the tests about numbers, not about JSON. */
export const settings = laboratory as Settings;
export const TODAY = '2026-11-25';

export interface StepShape {
  readonly id: string;
  /** Basis and product with their coefficients. */
  readonly basis: string;
  readonly product: string;
  readonly basisCoefficient?: number;
  readonly productCoefficient?: number;
  readonly yieldPercent?: StepYield;
  /** Other reagents, in mol per mol of basis; part of the equation where `inEquation` says so. */
  readonly equivalents?: Readonly<Record<string, number>>;
  readonly recovers?: readonly Recovery[];
  readonly more?: readonly Operation[];
  readonly extra?: Partial<Step>;
}

export function step(shape: StepShape): Step {
  const charges = Object.entries(shape.equivalents ?? {}).map(
    ([material, equivalents], index): Operation => ({
      do: 'charge',
      id: `c${index + 2}`,
      stage: 'reaction',
      material,
      rule: { kind: 'equivalents', equivalents },
    }),
  );
  return {
    id: shape.id,
    title: `Step ${shape.id}`,
    equation: {
      uses: [{ material: shape.basis, coefficient: shape.basisCoefficient ?? 1 }],
      makes: [{ material: shape.product, coefficient: shape.productCoefficient ?? 1 }],
    },
    basis: shape.basis,
    product: shape.product,
    yieldPercent: shape.yieldPercent ?? 100,
    ...(shape.recovers ? { recovers: [...shape.recovers] } : {}),
    operations: [
      { do: 'charge', id: 'c1', stage: 'reaction', material: shape.basis, rule: { kind: 'basis' } },
      ...charges,
      ...(shape.more ?? []),
    ],
    ...shape.extra,
  };
}

/** A route whose materials are named by their keys; a formula makes the molar mass. */
export function route(materials: Readonly<Record<string, string | Material>>, steps: readonly Step[]): Route {
  const entries = Object.entries(materials).map(([key, one]): [string, Material] => [
    key,
    typeof one === 'string' ? { name: key, formula: one, state: 'solid' } : one,
  ]);
  return { backweigh: 'route', version: 1, name: 'a route', materials: Object.fromEntries(entries), steps: [...steps] };
}

export function draw(material: string, amount: number, unit: 'g' | 'mol' = 'g', more: Partial<Draw> = {}): Draw {
  return { id: `draw-${material}`, material, amount, unit, ...more };
}

export function bottle(
  material: string,
  left: number,
  unit: 'g' | 'mL' = 'g',
  form: Form = { kind: 'neat' },
  more: Partial<Bottle> = {},
): Bottle {
  return { id: `b-${material}`, material, form, left, unit, lot: `lot ${material}`, ...more };
}

export function shelfOf(one: Route, bottles: readonly Bottle[]): Shelf {
  return { ...EMPTY_SHELF, materials: one.materials, bottles: [...bottles] };
}

export function planOf(
  one: Route,
  draws: readonly Draw[],
  bottles: readonly Bottle[] = [],
  more: { readonly ask?: Partial<Ask>; readonly settings?: Settings } = {},
): PlanResult {
  const { ask } = more;
  return plan({
    route: one,
    ask: { name: 'a plan', draws: [...draws], ...ask },
    shelf: shelfOf(one, bottles),
    settings: more.settings ?? settings,
    reference,
    asOf: TODAY,
  });
}

export function stepOf(result: PlanResult, id: string): StepPlan {
  const found = result.steps.find((one) => one.id === id);
  if (!found) throw new Error(`the plan has no step ${id}: ${result.notices.map((notice) => notice.code).join(', ')}`);
  return found;
}

export function chargeOf(
  result: PlanResult,
  stepId: string,
  material: string,
): Extract<StepPlan['operations'][number], { kind: 'charge' }> {
  for (const operation of stepOf(result, stepId).operations)
    if (operation.kind === 'charge' && operation.material === material) return operation;
  throw new Error(`step ${stepId} does not charge ${material}`);
}
