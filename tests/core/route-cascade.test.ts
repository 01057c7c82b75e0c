import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { layoutCascade } from '../../src/core/cascade/layout.ts';
import { routeCascade } from '../../src/core/cascade/route-input.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Step } from '../../src/core/route/route.ts';

function demoSteps(): readonly Step[] {
  const file = join(import.meta.dirname, '..', '..', 'resources', 'demo', 'practicals.route.json');
  const read = readRoute(readFileSync(file, 'utf8'));
  if (!read.ok) throw new Error('not read');
  return read.value.steps;
}

/** A step of one charge. */
function step(id: string, basis: string, product: string, yieldPercent = 100, also: readonly string[] = []): Step {
  return {
    id,
    title: id,
    basis,
    product,
    yieldPercent,
    equation: {
      uses: [basis, ...also].map((material) => ({ material, coefficient: 1 })),
      makes: [{ material: product, coefficient: 1 }],
    },
    operations: [{ do: 'charge', id: 'charge', stage: 'reaction', material: basis, rule: { kind: 'basis' } }],
  };
}

const into = (input: ReturnType<typeof routeCascade>, id: string, material: string): number =>
  input.flows
    .filter((one) => one.to.kind === 'step' && one.to.step === id && one.material === material && !one.recycle)
    .reduce((sum, one) => sum + one.size, 0);

describe('a route drawn without a plan', () => {
  test('the demonstration: two last products, and backward through 92 % and 55 %', () => {
    const input = routeCascade(demoSteps());
    expect(input.draws.map((draw) => draw.material)).toEqual(['tetraphenylcyclopentadienone', 'diphenylquinoxaline']);
    const benzil = 1 / 0.94 + 1 / 0.88;
    expect(into(input, demoSteps()[1]?.id ?? '', 'benzoin')).toBeCloseTo(benzil / 0.92, 9);
    expect(into(input, demoSteps()[0]?.id ?? '', 'benzaldehyde')).toBeCloseTo(benzil / 0.92 / 0.55, 9);
  });

  test('two branches join, a step of 0 % is still drawn, two makers share what is asked for', () => {
    const joined = routeCascade([step('a', 'x', 'y', 50), step('b', 'u', 'v', 80), step('c', 'y', 'z', 100, ['v'])]);
    expect([into(joined, 'a', 'x'), into(joined, 'b', 'u'), into(joined, 'c', 'v')]).toEqual([2, 1.25, 1]);
    expect(joined.steps[2]?.also).toEqual(['v']);
    expect(into(routeCascade([step('a', 'x', 'y', 0)]), 'a', 'x')).toBe(1);
    const two = routeCascade([step('a', 'x', 'y'), step('b', 'w', 'y'), step('c', 'y', 'z')]);
    expect([into(two, 'a', 'x'), into(two, 'b', 'w'), into(two, 'c', 'y')]).toEqual([0.5, 0.5, 1]);
  });

  test('what a later step gives back is no maker: a loop is drawn apart, and every step has its place', () => {
    const looped = routeCascade([
      step('a', 'x', 'y'),
      { ...step('b', 'y', 'z'), recovers: [{ material: 'x', percentOfCharge: 20 }] },
    ]);
    expect(looped.flows.filter((one) => one.recycle)).toHaveLength(1);
    const round = routeCascade([step('a', 'z', 'y'), step('b', 'y', 'z')]);
    expect(round.steps).toHaveLength(2);
    expect(round.flows.every((one) => Number.isFinite(one.size))).toBe(true);
  });

  test('drawn for what a plan asks for: an intermediate too, and a step nobody asks for as a line', () => {
    const steps = [step('a', 'x', 'y', 50), step('b', 'y', 'z', 80), step('c', 'y', 'w')];
    const draws = [
      { id: 'use', material: 'z' },
      { id: 'keep', material: 'y' },
    ];
    const input = routeCascade(steps, draws);
    expect([into(input, 'a', 'x'), into(input, 'b', 'y'), into(input, 'c', 'y')]).toEqual([4.5, 1.25, 0]);
    expect(input.flows.filter((one) => one.to.kind === 'draw').map((one) => one.size)).toEqual([1, 1]);
  });

  test('any chain: nothing is lost sight of, and the start is one part divided by every yield', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 60 }), (yields) => {
        const steps = yields.map((percent, index) => step(`s${index}`, `m${index}`, `m${index + 1}`, percent));
        const input = routeCascade(steps);
        const start = yields.reduce((size, percent) => size / (percent / 100), 1);
        expect(into(input, 's0', 'm0') / start).toBeCloseTo(1, 9);
        const layout = layoutCascade(input, 900, 132, 0);
        expect([layout.steps.length, layout.draws.length, layout.materials.length]).toEqual([yields.length, 1, yields.length]);
      }),
      { numRuns: 50 },
    );
  });
});
