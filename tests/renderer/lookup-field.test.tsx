import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { LookupField } from '../../src/renderer/places/shelf/lookup-field.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { realPort } from './real-port.ts';

beforeEach(async () => {
  connectPort(realPort());
  await openWorkbook();
});
afterEach(cleanup);

/** What Enter takes of a text that is typed, after so many presses of the arrow down. */
function taken(text: string, down = 0): string | null {
  let chosen: string | null = null;
  const field = (value: string) => (
    <LookupField
      value={value}
      onInput={() => {}}
      onUnknown={() => {}}
      onChoose={(one) => {
        chosen = 'row' in one ? one.row.name : one.material.name;
      }}
    />
  );
  const { rerender } = render(field(''));
  const box = screen.getByRole('combobox');
  fireEvent.input(box, { target: { value: text } });
  rerender(field(text));
  for (let at = 0; at < down; at += 1) fireEvent.keyDown(box, { key: 'ArrowDown' });
  fireEvent.keyDown(box, { key: 'Enter' });
  return chosen;
}

test('a formula of several materials: Enter takes none of them before one is chosen, and it is said', () => {
  expect(taken('C3H6O2')).toBeNull();
  expect(screen.getByRole('status').textContent).toBe(
    '3 materials of the table have the formula C3H6O2: choose the one the label means.',
  );
});

test('one that is chosen is taken; a name and a formula of one material are taken at once', () => {
  expect(taken('C3H6O2', 3)).toBe('propanoic acid');
  cleanup();
  expect(taken('propanoic acid')).toBe('propanoic acid');
  cleanup();
  expect(taken('NaHCO3')).toBe('sodium hydrogen carbonate');
});
