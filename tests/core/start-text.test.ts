import { expect, test } from 'vitest';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { startText } from '../../src/core/words/start-text.ts';
import { bottle, draw, planOf, route, step } from './build.ts';
import { demoContext, demoPlan } from './demo-fixture.ts';

const two = route({ a: 'C6H12', b: 'C6H12', c: 'C6H12' }, [
  step({ id: '1', basis: 'a', product: 'b', yieldPercent: { lowest: 40, likeliest: 50, highest: 60 } }),
  step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
]);

test('the start is named by what is started first and how it was chosen', () => {
  const asked = [draw('c', 10)];
  expect(startText(planOf(two, asked))).toBe('for a start of 25.0 g of a, at the likeliest yields');
  expect(startText(planOf(two, asked), ',')).toBe('for a start of 25,0 g of a, at the likeliest yields');
  expect(startText(planOf(two, asked, [], { ask: { start: { multiplier: 1.2 } } }))).toBe(
    'for a start of 30.0 g of a, chosen by hand: 1.200 times what has to be made',
  );
  const sure = planOf(two, asked, [], { ask: { start: { chancePercent: 80 } } });
  const grams = sure.steps[0]?.basis.grams.value ?? Number.NaN;
  expect(grams).toBeGreaterThan(25);
  expect(startText(sure)).toBe(`for a start of ${grams.toPrecision(3)} g of a, chosen for a chance of enough of 80.0 %`);
});

test('stock of an intermediate: what is started then; nothing where nothing is', () => {
  expect(startText(planOf(two, [draw('c', 10)], [bottle('b', 100)]))).toBe(
    'for a start of 12.50 g of b, at the likeliest yields',
  );
  expect(startText(planOf(two, [draw('c', 10)], [bottle('c', 100)]))).toBe('');
});

test('both lists say it on paper', () => {
  const said = 'for a start of 35.7 g of benzaldehyde, at the likeliest yields';
  const chosen = demoPlan.steps.flatMap((one) => (one.active ? [{ step: one.id, batch: 1 }] : []));
  expect(fetchPaper(chosen, demoContext).start).toBe(said);
  expect(buyingPaper(demoContext).start).toBe(said);
});
