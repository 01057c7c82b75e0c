import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Settings } from '../../src/core/plan/settings.ts';
import type { Port } from '../../src/core/port/port.ts';
import { labWords } from '../../src/core/words/lab-words.ts';
import { Laboratory } from '../../src/renderer/places/bench/laboratory.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { labOpen } from '../../src/renderer/state/lab-store.ts';
import { settings } from '../../src/renderer/state/workbook.ts';
import laboratory from '../../resources/tables/laboratory.json' with { type: 'json' };

const usual = laboratory as Settings;
let saved: Settings[];

beforeEach(() => {
  saved = [];
  connectPort({
    call: async (_name: string, input: { settings: Settings }) => {
      saved.push(input.settings);
      return { ok: true, value: { saved: '' } };
    },
    subscribe: () => () => {},
  } as unknown as Port);
  settings.value = usual;
  labOpen.value = true;
});
afterEach(cleanup);

const type = (text: string): HTMLElement => {
  const field = screen.getByLabelText(labWords.vessels);
  fireEvent.input(field, { target: { value: text } });
  return field;
};

test('a list is followed as it is typed, kept when its field is left, and can be taken back', async () => {
  render(<Laboratory />);
  const field = type('one flask; 3 L');
  expect(settings.value?.vessels).toEqual([{ name: 'one flask', nominal: 3000 }]);
  expect(saved).toEqual([]);
  fireEvent.blur(field);
  await waitFor(() => expect(saved.at(-1)?.vessels).toEqual([{ name: 'one flask', nominal: 3000 }]));
  fireEvent.click(await screen.findByRole('button', { name: labWords.undo(labWords.vessels) }));
  await waitFor(() => expect(saved.at(-1)?.vessels).toEqual(usual.vessels));
  expect(settings.value).toEqual(usual);
});

test('what cannot be read is said at its line; the list stands as it was and nothing is kept', async () => {
  render(<Laboratory />);
  const field = type('one flask; 3 L\nanother; 250 g');
  expect((await screen.findByRole('alert')).textContent).toContain('another; 250 g');
  expect(field.getAttribute('aria-invalid')).toBe('true');
  fireEvent.blur(field);
  expect(settings.value).toEqual(usual);
  expect(saved).toEqual([]);
  expect((screen.getByLabelText(labWords.vessels) as HTMLTextAreaElement).value).toContain('another; 250 g');
});
