import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { BenchLine, BenchSection } from '../../src/core/bench/bench-section.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Settings } from '../../src/core/plan/settings.ts';
import type { Charge, ChargeRule, Operation, PlainRule } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

/** Something of a quench, named as its material. */
export const quenchCharge = (material: string, rule: ChargeRule, form?: Form, more: Partial<Charge> = {}): Operation => ({
  do: 'charge',
  id: material,
  stage: 'quench',
  material,
  rule,
  ...(form ? { form } : {}),
  ...more,
});

export const each = (amount: number, unit: 'g' | 'mL'): PlainRule => ({ kind: 'per batch', amount, unit });

/** Bench numbers of a step that makes next to nothing of `b` from `a`: what is quenched are its charges alone. */
export function quenchOf(
  materials: Readonly<Record<string, Material>>,
  more: readonly Operation[],
  lab: Settings = settings,
): readonly BenchSection[] {
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
  const ask = { name: 't', draws: [draw('b', 1e-9, 'mol')] };
  const input = { route: one, ask, shelf: EMPTY_SHELF, settings: lab, reference, asOf: TODAY };
  return benchNumbers(input, plan(input), '1');
}

/** The figure of a line, or what its range comes to. */
export function valueOf(shown: BenchLine['shown']): number {
  if (shown.kind === 'figure') return shown.figure.value;
  if (shown.kind === 'from to') return shown.to.value;
  throw new Error(shown.kind === 'unknown' ? shown.why.code : shown.kind);
}
