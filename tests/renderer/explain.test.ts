import { expect, test } from 'vitest';
import { computed, entered, sourced } from '../../src/core/quantity/figure.ts';
import { explain, explained, explainLines } from '../../src/renderer/parts/explain-state.ts';

const mass = entered('benzil wanted', 2, 'g', 'the target');
const molar = sourced('molar mass', 210.23, 'g/mol', 'CIAAW 2021', 6);
const moles = computed('benzil wanted', 2 / 210.23, 'mol', 'grams ÷ molar mass', [mass, molar]);
const grams = computed('benzoin', 2.1, 'g', 'moles × molar mass', [moles, molar]);

test('an explanation names every factor once in full, nearest first, with its depth', () => {
  const lines = explainLines(grams).map(({ figure, depth, again }) => [figure.label, depth, again]);
  expect(lines).toEqual([
    ['benzoin', 0, false],
    ['benzil wanted', 1, false],
    ['benzil wanted', 2, false],
    ['molar mass', 2, false],
    ['molar mass', 1, true],
  ]);
});

test('an explanation of very many factors ends', () => {
  let figure = mass as ReturnType<typeof computed>;
  for (let index = 0; index < 500; index += 1)
    figure = computed(`f${index}`, 1, 'g', 'again', [figure, entered(`e${index}`, 1, 'g', 'x')]);
  expect(explainLines(figure).length).toBeLessThanOrEqual(80);
});

test('asking again at the same place closes the explanation', () => {
  const button = document.createElement('button');
  explain(grams, button);
  expect(explained.value?.figure).toBe(grams);
  explain(grams, button);
  expect(explained.value).toBeNull();
});
