import { signal } from '@preact/signals';
import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { StepYield } from '../../src/core/route/route.ts';
import { type Quantity, QuantityField, readQuantity } from '../../src/renderer/parts/quantity-field.tsx';
import { stepped, written } from '../../src/renderer/parts/quantity-text.ts';
import { DRAW_UNITS } from '../../src/renderer/places/plan/edits.ts';
import { readYield, stepYield, writeYield } from '../../src/renderer/places/plan/yield-text.ts';
import { until } from './until.ts';

afterEach(cleanup);

/** A quantity field over a value of its own, as a draw uses it. */
function field(start: Quantity = { value: 25, unit: 'g' }) {
  const value = signal(start);
  const refused = signal<string | null>(null);
  const committed = vi.fn<() => void>();
  const Bound = () => (
    <QuantityField
      label="Amount"
      value={value.value.value}
      unit={value.value.unit}
      units={DRAW_UNITS}
      stands={({ value, unit }) => `Still planned for ${value} ${unit}.`}
      onEdit={(quantity) => {
        value.value = quantity;
      }}
      refused={refused.value}
      onRefuse={(text) => {
        refused.value = text;
      }}
      onCommit={committed}
      onTakeBack={() => {}}
    />
  );
  render(<Bound />);
  const input = screen.getByLabelText<HTMLInputElement>('Amount');
  const type = (text: string): void => void fireEvent.input(input, { target: { value: text } });
  return { value, committed, input, type };
}

describe('a quantity field', () => {
  test('takes masses and amounts of substance as they are typed, and keeps the text', () => {
    const { value, input, type } = field();
    for (const [text, quantity] of [
      ['25,5 g', { value: 25.5, unit: 'g' }],
      ['0.20 mol', { value: 0.2, unit: 'mol' }],
      ['180 mmol', { value: 180, unit: 'mmol' }],
      ['3 × 40 mg', { value: 120, unit: 'mg' }],
      ['1 ug', { value: 1, unit: 'µg' }],
      ['100 t', { value: 100, unit: 't' }],
      ['0.5 kmol', { value: 0.5, unit: 'kmol' }],
    ] as const) {
      type(text);
      expect(value.value).toEqual(quantity);
      expect(input.value).toBe(text);
    }
  });

  test('keeps a text that cannot be read, says so at its place, and leaves the value alone', async () => {
    const { value, input, type } = field();
    type('25 gg');
    expect(value.value).toEqual({ value: 25, unit: 'g' });
    expect(input.value).toBe('25 gg');
    const problem = await screen.findByRole('alert');
    expect(problem.querySelector('mark')?.textContent).toBe('gg');
    expect(input.getAttribute('aria-invalid')).toBe('true');
    expect(input.getAttribute('aria-describedby')).toBe(problem.id);
  });

  test.each([
    ['10000 t', 0, 'an amount needs to be at most 1000 t (got 10\u202f000 t)'],
    ['40 mL', 3, 'this needs µg, mg, g, kg, t, µmol, mmol, mol or kmol (got mL)'],
    ['40 mol/L', 3, 'this needs µg, mg, g, kg, t, µmol, mmol, mol or kmol (got mol/L)'],
    ['40 %', 3, '“%” is not a unit this takes: µg, mg, g, kg, t, µmol, mmol, mol or kmol'],
    ['40 qq', 3, '“qq” is not a unit this takes: µg, mg, g, kg, t, µmol, mmol, mol or kmol'],
    ['40', 2, 'a unit is expected here: µg, mg, g, kg, t, µmol, mmol, mol or kmol'],
  ])('refuses %s by the units it takes, and no others', (text, at, words) => {
    expect(readQuantity(text, DRAW_UNITS)).toEqual({ ok: false, at, words });
  });

  test('says what stands while a text is refused', async () => {
    const { type } = field();
    type('banana');
    expect((await screen.findByRole('alert')).textContent).toContain('Still planned for 25 g.');
  });

  test('follows a value that changed elsewhere, such as by undo', async () => {
    const { value, input, type } = field();
    type('30 g');
    value.value = { value: 25, unit: 'g' };
    await until(() => expect(input.value).toBe('25 g'));
  });

  test('arrow keys step it, Enter and leaving commit it, Escape takes the text back', () => {
    const { value, committed, input, type } = field();
    fireEvent.keyDown(input, { key: 'ArrowUp' });
    expect(value.value).toEqual({ value: 26, unit: 'g' });
    fireEvent.keyDown(input, { key: 'ArrowDown', shiftKey: true });
    expect(value.value).toEqual({ value: 16, unit: 'g' });
    expect(committed).not.toHaveBeenCalled();
    fireEvent.keyDown(input, { key: 'Enter' });
    fireEvent.blur(input);
    expect(committed).toHaveBeenCalledTimes(2);
    type('nonsense');
    fireEvent.keyDown(input, { key: 'Escape' });
    expect(input.value).toBe('16 g');
  });
});

test.each([
  [25, 1, 26],
  [180, 1, 190],
  [0.2, 1, 0.21],
  [10, -1, 9.9],
  [9.9, 1, 10],
  [1, -1, 0.99],
  [0, 1, 1],
  [0, -1, 0],
])('%d stepped by %d is %d', (value, by, expected) => {
  expect(stepped(value, by)).toBe(expected);
});

test('a stored value is written without the noise of the double', () => {
  expect(written(0.1 + 0.2, 'g')).toBe('0.3 g');
  expect(written(180, 'mmol')).toBe('180 mmol');
});

describe('a yield as text', () => {
  test.each<[string, StepYield]>([
    ['72', 72],
    ['72 %', 72],
    [' 72,5 ', 72.5],
    ['35/55/70', { lowest: 35, likeliest: 55, highest: 70 }],
    ['35 / 55 / 70 %', { lowest: 35, likeliest: 55, highest: 70 }],
    ['1', 1],
    ['0.55 %', 0.55],
    ['0/50/100', { lowest: 0, likeliest: 50, highest: 100 }],
    ['0,2/0,5/0,8 %', { lowest: 0.2, likeliest: 0.5, highest: 0.8 }],
  ])('%s is read', (text, value) => {
    expect(readYield(text)).toEqual({ ok: true, value });
    const again = readYield(writeYield(value));
    expect(again).toEqual({ ok: true, value });
  });

  test('a yield below zero is refused as a yield', () => {
    expect(readYield('−3')).toMatchObject({ ok: false, words: 'a yield needs to be zero or more (got −3)' });
    expect(readYield('60/-3/80')).toMatchObject({ ok: false, at: 3, words: 'a yield needs to be zero or more (got −3)' });
  });

  test.each([
    ['', 0, 'a number is expected'],
    ['abc', 0, 'a number is expected'],
    ['35/5x/70', 4, 'only a number is expected here (got “x” behind it)'],
    ['35/55', 2, 'lowest / likeliest / highest'],
    ['35/55/70/80', 2, 'lowest / likeliest / highest'],
    ['70/55/35', 0, 'need to rise'],
    ['104', 0, 'is the product dry'],
    ['0', 0, 'more than 0 %'],
    ['0/0/50', 2, 'more than 0 %'],
    ['0.55', 0, 'is this 0.55 % or 55 %? Write “0.55 %” or “55”'],
    ['1.0', 0, 'is this 1 % or 100 %?'],
    ['0,35/0,55/0,7', 0, 'is this 0.35 % or 35 %?'],
    ['35/0.55/70', 3, 'is this 0.55 % or 55 %?'],
  ])('%s is refused at character %d', (text, at, words) => {
    const read = readYield(text);
    expect(read).toMatchObject({ ok: false, at });
    expect(read.ok ? '' : read.words).toContain(words);
  });

  test('steps inside its limits', () => {
    expect(stepYield(99.5, 1)).toBe(100);
    expect(stepYield({ lowest: 35, likeliest: 69, highest: 70 }, 10)).toEqual({ lowest: 35, likeliest: 70, highest: 70 });
  });
});
