import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CascadeInput } from '../../src/core/cascade/input.ts';
import { layoutCascade } from '../../src/core/cascade/layout.ts';
import { CASCADE } from '../../src/core/cascade/measures.ts';
import { bandPath, batchesPath, lossPath, recyclePath, stockPath } from '../../src/core/cascade/paths.ts';
import { stackMiddles } from '../../src/core/cascade/place.ts';
import type { CascadeLayout } from '../../src/core/cascade/shapes.ts';
import { chain, forked, recycled } from './cascade-fixtures.ts';

const WIDTH = 870;
const inputs: readonly (readonly [string, CascadeInput])[] = [
  ['forked', forked()],
  ['recycled', recycled()],
  ['chain of 12', chain(12, 0.8)],
];

/** Upright extents of what stands in one column, labels' room included. */
function stepExtents(layout: CascadeLayout): Map<number, { top: number; bottom: number }[]> {
  const columns = new Map<number, { top: number; bottom: number }[]>();
  for (const step of layout.steps) {
    const { above, below } = CASCADE.pad.step;
    columns.set(step.x, [...(columns.get(step.x) ?? []), { top: step.top - above, bottom: step.bottom + below }]);
  }
  return columns;
}

describe.each(inputs)('%s', (_, input) => {
  const layout = layoutCascade(input, WIDTH);

  test('no step or its label covers another, and all stay inside', () => {
    for (const extents of stepExtents(layout).values()) {
      extents.sort((a, b) => a.top - b.top);
      extents.forEach((one, index) => {
        expect(one.top).toBeGreaterThanOrEqual(-1e-6);
        expect(one.bottom).toBeLessThanOrEqual(layout.height + 1e-6);
        expect(one.top).toBeGreaterThanOrEqual((extents[index - 1]?.bottom ?? 0) - 1e-6);
      });
    }
  });

  test('what enters a step is its product, its loss and what comes back', () => {
    for (const step of input.steps) {
      const enters = layout.bands
        .filter((band) => band.key.includes(`→ ${step.id} `) && band.material === step.basis)
        .reduce((sum, band) => sum + band.height, 0);
      const leaves = layout.bands
        .filter((band) => band.key.startsWith(`${step.id} →`))
        .reduce((sum, band) => sum + band.height, 0);
      const lost = layout.losses.find((loss) => loss.step === step.id)?.height ?? 0;
      const over = layout.leftOver.find((one) => one.material === step.product)?.height ?? 0;
      const back = layout.recycles
        .filter((loop) => loop.material === step.basis && loop.from.x === layout.steps.find((box) => box.step === step.id)?.x)
        .reduce((sum, loop) => sum + loop.height, 0);
      expect(leaves + lost + over + back).toBeCloseTo(enters, 6);
    }
  });

  test('the fullest layer takes exactly the height that bands share', () => {
    const columns = new Map<number, number>();
    for (const box of layout.materials) columns.set(box.x, (columns.get(box.x) ?? 0) + box.height);
    expect(Math.max(...columns.values())).toBeLessThanOrEqual(CASCADE.bands + 1e-6);
    expect(Math.max(...columns.values())).toBeGreaterThan(CASCADE.bands * 0.8);
  });

  test('every draw stands in its own slot, in the order asked', () => {
    expect(layout.draws.map((port) => port.draw)).toEqual(input.draws.map((one) => one.id));
    layout.draws.slice(1).forEach((port, index) => {
      expect(port.slotTop - (layout.draws[index]?.slotTop ?? 0)).toBeCloseTo(CASCADE.drawSlot, 6);
    });
    for (const port of layout.draws) {
      const arriving = layout.bands.filter((band) => band.key.includes(`→ ${port.draw} `));
      expect(arriving.length).toBeGreaterThan(0);
      for (const band of arriving) expect(band.points.at(-1)?.x).toBe(layout.width - CASCADE.arrow);
    }
  });

  test('paths hold numbers only', () => {
    const paths = [
      ...layout.bands.map(bandPath),
      ...layout.losses.map(lossPath),
      ...layout.stocks.map(stockPath),
      ...layout.recycles.map(recyclePath),
    ];
    for (const path of paths) expect(path).toMatch(/^M[-\d. LCQZ]+$/);
  });
});

test('columns run in working order and the target is at the right', () => {
  const { steps } = layoutCascade(forked(), WIDTH);
  const x = (id: string): number => steps.find((one) => one.step === id)?.x ?? Number.NaN;
  expect(x('coupling')).toBeLessThan(x('oxidation'));
  expect(x('oxidation')).toBeLessThan(x('condensation'));
  expect(x('condensation')).toBe(x('ring'));
});

test('a straight chain is drawn straight', () => {
  const layout = layoutCascade(chain(5, 1), WIDTH);
  for (const band of layout.bands) expect(new Set(band.points.map((point) => point.y.toFixed(6))).size).toBe(1);
});

test('stock enters from above, a recycle bends back underneath', () => {
  const stocked = layoutCascade(forked(), WIDTH);
  const block = stocked.materials.find((box) => box.material === 'diketone');
  expect(stocked.stocks).toHaveLength(1);
  expect(stocked.stocks[0]?.toX).toBe(block?.x);
  expect(stocked.stocks[0]?.toY).toBeCloseTo(block?.y ?? Number.NaN, 6);
  const back = layoutCascade(recycled(), WIDTH);
  const lowest = Math.max(...back.steps.map((one) => one.bottom));
  expect(back.recycles).toHaveLength(2);
  for (const loop of back.recycles) {
    expect(loop.lane).toBeGreaterThan(lowest);
    expect(loop.lane).toBeLessThan(back.height);
    expect(loop.down).toBeGreaterThan(loop.up);
    expect(loop.height).toBeLessThanOrEqual(CASCADE.thickestLoop.ofBlock);
  }
  expect(new Set(back.recycles.map((loop) => loop.lane)).size).toBe(2);
});

test('stock that goes into a draw from a block is counted once: the tip is as tall as the band that arrives', () => {
  const input = forked();
  const kept = input.flows.map((one) =>
    one.from.kind === 'stock' ? { ...one, to: { kind: 'draw', draw: 'kept' } as const } : one,
  );
  const layout = layoutCascade({ ...input, flows: kept }, 760);
  const band = layout.bands.find((one) => one.into === 'draw' && one.material === 'diketone');
  expect(layout.draws.find((port) => port.draw === 'kept')?.height).toBeCloseTo(band?.height ?? Number.NaN, 9);
});

test('amounts of any size use the whole height that bands share', () => {
  const tiny = recycled();
  const small = { ...tiny, flows: tiny.flows.map((flow) => ({ ...flow, size: flow.size * 1e-4 })) };
  const heights = (layout: CascadeLayout): number[] => layout.bands.map((band) => band.height);
  const expected = heights(layoutCascade(tiny, WIDTH));
  heights(layoutCascade(small, WIDTH)).forEach((height, index) => expect(height).toBeCloseTo(expected[index] ?? Number.NaN, 6));
  expect(Math.max(...expected)).toBeGreaterThan(CASCADE.bands / 3);
});

test('where bands join, the lower material has its label below', () => {
  const boxes = layoutCascade(recycled(), WIDTH).materials.toSorted((a, b) => a.y - b.y);
  const joining = boxes.filter((box) => box.material === 'bromide' || box.material === 'phenoxide');
  expect(joining.map((box) => box.label.below)).toEqual([false, true]);
  for (const box of joining) {
    if (box.label.below) expect(box.label.y).toBeGreaterThan(box.y + box.height);
    else expect(box.label.y).toBeLessThan(box.y);
  }
});

describe('stability', () => {
  test('all amounts times ten draw the very same picture', () => {
    const one = layoutCascade(forked(), WIDTH);
    const ten = layoutCascade(forked(10), WIDTH);
    one.bands.forEach((band, index) => {
      expect(ten.bands[index]?.key).toBe(band.key);
      expect(ten.bands[index]?.height).toBeCloseTo(band.height, 6);
    });
  });

  test('whatever the amounts are, columns, order and size stay', () => {
    const places = ({ steps, materials, width, height, draws }: CascadeLayout) => ({
      width,
      height,
      x: steps.map(({ step, x }) => [step, x]),
      blocks: materials.map(({ material, x }) => [material, x]),
      order: steps.toSorted((a, b) => a.x - b.x || a.top - b.top).map(({ step }) => step),
      draws: draws.map(({ draw, y }) => [draw, y]),
    });
    const usual = places(layoutCascade(forked(), WIDTH));
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1e4, noNaN: true }), { minLength: 8, maxLength: 8 }), (sizes) => {
        const input = forked();
        const edited = { ...input, flows: input.flows.map((one, index) => ({ ...one, size: sizes[index] ?? 0 })) };
        expect(places(layoutCascade(edited, WIDTH))).toEqual(usual);
      }),
      { numRuns: 60 },
    );
  });

  test('nothing to draw is no error', () => {
    const layout = layoutCascade({ steps: [], draws: [], flows: [] }, WIDTH);
    expect(layout.height).toBe(CASCADE.least.height);
    const zero = layoutCascade({ ...forked(), flows: [] }, WIDTH);
    expect(zero.bands.every((band) => band.height === 0)).toBe(true);
  });

  test('many steps keep a readable width', () => {
    const layout = layoutCascade(chain(60, 0.9), WIDTH);
    expect(layout.width).toBeGreaterThanOrEqual(60 * CASCADE.least.column);
  });
});

test('stacked items keep their order, never overlap and come as near to their wishes as they can', () => {
  const item = fc.record({
    above: fc.integer({ min: 1, max: 40 }),
    below: fc.integer({ min: 1, max: 40 }),
    wished: fc.integer({ min: -100, max: 700 }),
  });
  fc.assert(
    fc.property(fc.array(item, { minLength: 1, maxLength: 8 }), (items) => {
      const middles = stackMiddles(items, 700);
      items.forEach((one, index) => {
        const middle = middles[index] ?? Number.NaN;
        expect(middle - one.above).toBeGreaterThanOrEqual(-1e-9);
        expect(middle + one.below).toBeLessThanOrEqual(700 + 1e-9);
        const next = items[index + 1];
        if (next) expect((middles[index + 1] ?? 0) - next.above).toBeGreaterThanOrEqual(middle + one.below - 1e-9);
      });
      if (items.length === 1 && items[0]) {
        const [only] = items;
        expect(middles[0]).toBeCloseTo(Math.min(Math.max(only.wished, only.above), 700 - only.below), 9);
      }
    }),
  );
});

describe('in grams', () => {
  /** One step, 70 % of theory: 100 g of basis would give 240 g, a heavier product. */
  const heavier: CascadeInput = {
    steps: [{ id: 's', number: 1, basis: 'a', product: 'b', also: [], theory: 240 }],
    draws: [{ id: 'd', material: 'b' }],
    flows: [
      {
        from: { kind: 'bought', material: 'a' },
        to: { kind: 'step', step: 's' },
        material: 'a',
        size: 100,
        recycle: false,
        apart: false,
      },
      {
        from: { kind: 'step', step: 's' },
        to: { kind: 'draw', draw: 'd' },
        material: 'b',
        size: 168,
        recycle: false,
        apart: false,
      },
    ],
  };

  test.each([240, 60])('only what the yield takes is hatched, not the change of molar mass (theory %d g)', (theory) => {
    const [one] = heavier.steps;
    const [into, out] = heavier.flows;
    if (!one || !into || !out) throw new Error('the fixture needs its step and flows');
    const layout = layoutCascade(
      { ...heavier, steps: [{ ...one, theory }], flows: [into, { ...out, size: theory * 0.7 }] },
      WIDTH,
    );
    const height = (key: string): number => layout.bands.find((band) => band.key.startsWith(key))?.height ?? Number.NaN;
    const lost = layout.losses[0]?.height ?? Number.NaN;
    expect(lost / (lost + height('s →'))).toBeCloseTo(0.3, 9);
    expect(height('s →') / height('a →')).toBeCloseTo((theory * 0.7) / 100, 9);
  });
});

test('narrow steps change widths only: nothing moves up or down', () => {
  const [usual, narrow] = [layoutCascade(chain(60, 0.9), WIDTH), layoutCascade(chain(60, 0.9), WIDTH, 26)];
  expect(narrow.width).toBeLessThan(usual.width / 4);
  expect(narrow.steps.map((box) => [box.top, box.bottom])).toEqual(usual.steps.map((box) => [box.top, box.bottom]));
  narrow.steps.slice(1).forEach((box, at) => expect(box.x - (narrow.steps[at]?.x ?? 0)).toBeGreaterThanOrEqual(24));
});

test('each batch is a stroke over the line, up to eight of them', () => {
  const strokes = (count: number): number => batchesPath(100, 40, count).split('M').length - 1;
  expect([2, 5, 8, 30].map(strokes)).toEqual([2, 5, 8, 8]);
});
