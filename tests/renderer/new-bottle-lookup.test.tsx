import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { LookupField } from '../../src/renderer/places/shelf/lookup-field.tsx';
import {
  carryOver,
  clearDraft,
  fillFrom,
  fillFromRoute,
  newBottle,
  typeInto,
} from '../../src/renderer/places/shelf/new-bottle-draft.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { ownMaterials } from '../../src/renderer/state/route-materials.ts';
import { reference } from '../../src/renderer/state/workbook.ts';
import { TABLES } from './shelf-tables.ts';

const AMIDE = {
  material: { name: '4-nitroacetanilide', cas: '104-04-1', formula: 'C8H8N2O3', state: 'solid' as const },
  route: 'nitroaniline',
};

function Field() {
  const { draft } = newBottle.value;
  return (
    <LookupField
      value={draft.lookup}
      onInput={(text) => typeInto('lookup', text)}
      onChoose={(found) => ('row' in found ? fillFrom(found.row) : fillFromRoute(found))}
      onUnknown={carryOver}
    />
  );
}

beforeEach(() => {
  reference.value = TABLES;
  connectPort({ call: () => Promise.resolve({ ok: true, value: [AMIDE] }), onChange: () => () => undefined } as never);
  ownMaterials.value = [AMIDE];
  clearDraft();
});

afterEach(cleanup);

const type = (text: string): HTMLElement => {
  const input = screen.getByRole('combobox');
  fireEvent.input(input, { target: { value: text } });
  return input;
};

test('the look-up knows a material of the person’s own route, and says where its facts come from', () => {
  render(<Field />);
  fireEvent.keyDown(type('4-nitroacet'), { key: 'Enter' });
  const { draft, filled } = newBottle.value;
  expect(draft).toMatchObject({ name: '4-nitroacetanilide', cas: '104-04-1', formula: 'C8H8N2O3', state: 'solid' });
  expect(filled.formula).toBe('from your route “nitroaniline”');
});

test('what nobody knows is carried into the name, a CAS number into its field, and what was typed there stays', () => {
  render(<Field />);
  fireEvent.blur(type('odd amide 7'));
  expect(newBottle.value.draft.name).toBe('odd amide 7');
  // Thought better of: the carried name follows, one of the person's own stays.
  fireEvent.blur(type('odd amide 8'));
  expect(newBottle.value.draft.name).toBe('odd amide 8');
  typeInto('name', 'my own');
  fireEvent.blur(type('odd amide 9'));
  expect(newBottle.value.draft.name).toBe('my own');
  fireEvent.blur(type('122-28-1'));
  expect(newBottle.value.draft.cas).toBe('122-28-1');
});
