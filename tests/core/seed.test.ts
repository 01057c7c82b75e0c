import { expect, test } from 'vitest';
import type { Operation } from '../../src/core/route/route.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { bottle, chargeOf, draw, planOf, route, step } from './build.ts';
import { everyBatch } from './hard-fixture.ts';
import { context } from './paper-fixture.ts';

// A step that charges a little of what it makes: a seed. It cannot come from the dish that is not there yet.

const seed = {
  do: 'charge',
  id: 'seed',
  stage: 'purification',
  material: 'b',
  rule: { kind: 'per batch', amount: 0.1, unit: 'g' },
} as const satisfies Operation;
const one = route({ a: 'C10H10O2', b: 'C10H10O3' }, [
  step({ id: '1', basis: 'a', product: 'b', yieldPercent: 90, more: [seed] }),
]);
const sources = (result: ReturnType<typeof planOf>, batch: number) =>
  weighingPaper([{ step: '1', batch }], context(result))
    .sheets.flatMap((sheet) => sheet.stages.flatMap((stage) => stage.entries))
    .flatMap((entry) => (entry.id === 'seed' && entry.do === 'charge' ? entry.sources.map((source) => source.words) : []));

test('it is taken from the bottle, also where a draw of the same asks for a purity', () => {
  for (const least of [0, 98]) {
    const result = planOf(one, [draw('b', 18, 'g', { leastAssayPercent: least })], [bottle('b', 1)]);
    expect(chargeOf(result, '1', 'b').supply).toMatchObject({ kind: 'bottles', bottles: [{ bottle: 'b-b' }] });
    expect(result.fetch.filter((line) => line.material === 'b' && line.short !== null)).toEqual([]);
    expect(sources(result, 1)).toEqual(['lot lot b']);
  }
});

test('one too little to weigh so finely is not sent through a solution: crystals are wanted', () => {
  const little = planOf(
    route(one.materials, [
      step({ id: '1', basis: 'a', product: 'b', more: [{ ...seed, rule: { ...seed.rule, amount: 0.02 } }] }),
    ]),
    [draw('b', 18)],
    [bottle('b', 1)],
  );
  expect(chargeOf(little, '1', 'b').perBatch.stock).toBeNull();
  expect(little.notices.map((notice) => notice.code)).toContain('too little to weigh');
});

test('where there is none, the sheet of the first batch does not send for its own dish', () => {
  const result = planOf(one, [draw('b', 18)], [], { ask: { batches: { '1': 2 } } });
  expect(result.fetch.find((line) => line.material === 'b')?.status).toBe('short');
  const fetched = fetchPaper(everyBatch(result), context(result)).places.flatMap((place) => place.lines);
  expect(fetched.filter((line) => line.material === 'b').map((line) => line.status)).toEqual(['short']);
  expect(sources(result, 1)).toEqual(['this step makes it: it must be in hand before, from elsewhere']);
  expect(sources(result, 2)).toEqual(['what batch 1 gave']);
});
