import { expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { shownDensity } from '../../src/core/shelf/shown-density.ts';
import { reference } from '../reference/tables.ts';

const neat: Form = { kind: 'neat' };
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' }, solvent: 'water' });
const onBottle = { gramsPerMillilitre: 1.234, celsius: 20 };

// 68 % w/w nitric acid 1.405 g/mL, acetone 0.790 g/mL at 20 °C: CRC Handbook.
test.each<[string, Material, Form, unknown, unknown]>([
  ['a table', { name: 'nitric acid', cas: '7697-37-2' }, percent(68), 1.405, 'table'],
  ['a neat liquid', { name: 'acetone', cas: '67-64-1' }, neat, 0.79, 'table'],
  ['measured, before any table', { name: 'acetone', cas: '67-64-1' }, { ...neat, density: onBottle }, 1.234, 'bottle'],
  ['given with the material', { name: 'oil', state: 'liquid', density: { gramsPerMillilitre: 0.9 } }, neat, 0.9, 'material'],
  ['beyond the table a model', { name: 'hydrogen peroxide', cas: '7722-84-1' }, percent(30), expect.any(Number), 'model'],
])('the density of a bottle says where it comes from: %s', (_what, material, form, value, from) => {
  const shown = shownDensity(material, form, reference);
  if (shown === null || shown === 'none') throw new Error(`no density: ${shown}`);
  expect(typeof value === 'number' ? shown.figure.value : value).toEqual(
    typeof value === 'number' ? expect.closeTo(value, 2) : value,
  );
  expect(shown.from).toBe(from);
});

test('what is weighed shows none, what is poured and unknown says so', () => {
  expect(shownDensity({ name: 'benzil', cas: '134-81-6', state: 'solid' }, neat, reference)).toBeNull();
  expect(shownDensity({ name: 'x', state: 'liquid' }, { kind: 'unknown' }, reference)).toBeNull();
  expect(shownDensity({ name: 'new oil', state: 'liquid' }, neat, reference)).toBe('none');
  // 99.9 % w/w of hydrogen chloride is no solution there is a table of.
  expect(shownDensity({ name: 'hydrogen chloride', cas: '7647-01-0' }, percent(60), reference)).toBe('none');
});
