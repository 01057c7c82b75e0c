import type { Facts } from '../matter/facts.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Notice } from '../words/notice.ts';
import type { Draw } from './ask.ts';
import type { PlanInput } from './input.ts';
import type { Want } from './solve/needs.ts';
import type { DrawPlan } from './result.ts';

export interface Reading {
  readonly draws: readonly DrawPlan[];
  readonly wants: readonly Want[];
  readonly notices: readonly Notice[];
}

/** Draws as moles of contained product, with what cannot be read of them. */
export function readWants(input: PlanInput, facts: ReadonlyMap<string, Facts>): Reading {
  const read = input.ask.draws.map((draw) => readWant(draw, facts.get(draw.material)));
  return {
    draws: read.map((one) => one.draw),
    wants: read.flatMap((one) =>
      one.draw.moles ? [{ material: one.draw.material, moles: one.draw.moles, leastAssayPercent: one.leastAssayPercent }] : [],
    ),
    notices: read.flatMap((one) => one.notices),
  };
}

function readWant(
  draw: Draw,
  facts: Facts | undefined,
): { readonly draw: DrawPlan; readonly leastAssayPercent: number; readonly notices: readonly Notice[] } {
  const at = { draw: draw.id };
  const name = facts?.name ?? draw.material;
  const mass = facts?.molarMass ?? null;
  const asked = entered(`${name} wanted`, draw.amount, draw.unit, 'the target');
  const plan: DrawPlan = {
    id: draw.id,
    material: draw.material,
    purpose: draw.purpose ?? '',
    kept: draw.kept ?? false,
    date: draw.date ?? null,
    grams:
      draw.unit === 'g'
        ? (asked as Figure<'g'>)
        : mass && computed(asked.label, draw.amount * mass.value, 'g', 'moles × molar mass', [asked, mass]),
    moles:
      draw.unit === 'mol'
        ? (asked as Figure<'mol'>)
        : mass && computed(asked.label, draw.amount / mass.value, 'mol', 'grams ÷ molar mass', [asked, mass]),
  };
  const notices: readonly Notice[] = !facts
    ? [{ level: 'error', code: 'unknown draw', values: { material: draw.material }, at }]
    : mass
      ? []
      : [{ level: 'error', code: 'no molar mass', values: { material: name }, at }];
  return { draw: plan, leastAssayPercent: draw.leastAssayPercent ?? 0, notices };
}
