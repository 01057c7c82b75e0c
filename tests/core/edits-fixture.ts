import fc from 'fast-check';
import { expect } from 'vitest';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';

type Edit = (before: PlanInput) => PlanInput;
type Step = PlanInput['route']['steps'][number];
type Bottle = PlanInput['shelf']['bottles'][number];

const asked = (change: (ask: PlanInput['ask']) => Partial<PlanInput['ask']>): Edit => {
  return (before) => ({ ...before, ask: { ...before.ask, ...change(before.ask) } });
};
const stepEdit = (id: string, change: Partial<Step>): Edit => {
  const changed = (one: Step) => (one.id === id ? { ...one, ...change } : one);
  return (before) => ({ ...before, route: { ...before.route, steps: before.route.steps.map(changed) } });
};
const bottleEdit = (id: string, change: Partial<Bottle>): Edit => {
  const changed = (one: Bottle) => (one.id === id ? { ...one, ...change } : one);
  return (before) => ({ ...before, shelf: { ...before.shelf, bottles: before.shelf.bottles.map(changed) } });
};

/** Edits of a plan, its route, its shelf and its laboratory, one after another. */
export function editsOf({ route, shelf }: PlanInput): fc.Arbitrary<readonly Edit[]> {
  const steps = route.steps.map(({ id }) => id);
  const bottles = shelf.bottles.map(({ id }) => id);
  const edit = fc.oneof(
    fc
      .double({ min: 0, max: 500, noNaN: true })
      .map((amount) => asked(({ draws }) => ({ draws: draws.map((one, at) => (at === 0 ? { ...one, amount } : one)) }))),
    fc.constantFrom(...steps).map((id) => asked(() => ({ leaveOut: [id] }))),
    fc.subarray(steps).map((leaveOut) => asked(() => ({ leaveOut }))),
    fc.subarray(bottles).map((holdBack) => asked(() => ({ holdBack }))),
    fc.boolean().map((useStock) => asked(() => ({ useStock }))),
    fc.integer({ min: 1, max: 4 }).map((count) => asked(() => ({ batches: { [steps[0] ?? '']: count } }))),
    fc.constant(asked(({ draws }) => ({ draws: draws.slice(1) }))),
    fc.constantFrom(...steps).map((id) => stepEdit(id, { yieldPercent: 50 })),
    fc.constantFrom(...steps).map((id) => stepEdit(id, { lossPerBatch: { grams: 0.2, reason: 'film' } })),
    fc.constantFrom(...bottles).map((id) => bottleEdit(id, { left: 1 })),
    fc.constantFrom(...bottles).map((id) => bottleEdit(id, { form: { kind: 'neat', assayPercent: 99 } })),
    fc.constantFrom(...bottles).map((id) => bottleEdit(id, { form: { kind: 'neat', assayPercent: 90 } })),
    fc.constant<Edit>((before) => ({
      ...before,
      settings: { ...before.settings, vessels: before.settings.vessels.slice(0, 4) },
    })),
  );
  return fc.array(edit, { minLength: 4, maxLength: 8 });
}

const keysOf = (result: PlanResult) => Object.keys(result) as (keyof PlanResult)[];

/** A plan remembers what no amount changes: after each edit it must be what a plan that remembers nothing is. */
export function expectNothingStale(first: PlanInput, edits: readonly Edit[]): void {
  let input = first;
  for (const edit of edits) {
    input = edit(input);
    const { reference, ...own } = input;
    const [found, alone] = [plan(input), plan({ ...structuredClone(own), reference })];
    const stale = keysOf(alone).filter((key) => JSON.stringify(found[key]) !== JSON.stringify(alone[key]));
    expect(stale).toEqual([]);
  }
}
