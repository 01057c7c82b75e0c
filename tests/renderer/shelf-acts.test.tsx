import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Port, ProcedureName } from '../../src/core/port/port.ts';
import type { BottleRow } from '../../src/core/port/shelf.ts';
import { basisOf } from '../../src/renderer/places/shelf/draft-of-bottle.ts';
import { chooseNone, toggle } from '../../src/renderer/places/shelf/chosen.ts';
import {
  beginFrom,
  clearDraft,
  EMPTY_DRAFT,
  newBottle,
  typeInto,
  waiting,
} from '../../src/renderer/places/shelf/new-bottle-draft.ts';
import { readMeasure } from '../../src/renderer/places/shelf/read-measure.ts';
import { readNewBottle } from '../../src/renderer/places/shelf/read-new-bottle.ts';
import { ShelfPlace } from '../../src/renderer/places/shelf/shelf-place.tsx';
import { closePanel, filter, panel, said, search, showEverything, total } from '../../src/renderer/places/shelf/shelf-store.ts';
import { listNumber } from '../../src/renderer/places/shelf/shown-amount.ts';
import { readWeighing } from '../../src/renderer/places/shelf/weigh-form.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { reference, today } from '../../src/renderer/state/workbook.ts';
import { TABLES } from './shelf-tables.ts';

const tables = TABLES;

const ACID: BottleRow = {
  id: 'B05',
  material: { name: 'sulfuric acid', formula: 'H2SO4', cas: '7664-93-9', synonyms: ['oil of vitriol'], note: 'kept cold' },
  materialId: 'm5',
  form: { kind: 'solution', strength: { value: 2, basis: 'eq/L', equivalentsPerMole: 2 } },
  left: 250,
  unit: 'mL',
  lot: 'S-1',
  place: 'acids cabinet',
  supplier: 'north store',
  received: '2026-01-05',
  opened: '2026-02-01',
  useBy: '2028-05-01',
  heldBack: true,
  note: 'chipped cap',
  tare: 120.5,
  water: null,
  price: 12.5,
};

let calls: { name: ProcedureName; input: unknown }[];
let answers: Partial<Record<ProcedureName, unknown>>;

beforeEach(() => {
  calls = [];
  answers = {
    'shelf.list': { total: 2, rows: [ACID, { ...ACID, id: 'B06' }], nearly: [] },
    'shelf.places': [{ place: 'acids cabinet', bottles: 2 }],
    'shelf.bottle': { bottle: ACID, ledger: [], tests: [], edits: [] },
  };
  const port = {
    call: async (name: ProcedureName, input: unknown) => {
      calls.push({ name, input });
      const value = answers[name];
      if (value === undefined) return { ok: false, code: 'refused', detail: 'Refused in this test.' };
      return { ok: true, value };
    },
    subscribe: () => () => {},
  };
  connectPort(port as unknown as Port);
  reference.value = tables;
  today.value = '2027-02-25';
  total.value = null;
  search.value = '';
  said.value = '';
  showEverything();
  chooseNone();
  closePanel();
  waiting.value = [];
  clearDraft();
});
afterEach(cleanup);

const asked = (name: ProcedureName) => calls.filter((one) => one.name === name).map((one) => one.input);

describe('a bottle begun from one on the shelf', () => {
  test('entered wrong: what nobody changed is kept word for word, with what has no field', () => {
    beginFrom(basisOf(ACID, 'correct'));
    typeInto('lot', 'S-2');
    const read = readNewBottle(newBottle.value, tables);
    expect(read).toEqual({
      ok: true,
      input: {
        material: ACID.material,
        form: ACID.form,
        amount: 250,
        unit: 'mL',
        lot: 'S-2',
        place: 'acids cabinet',
        supplier: 'north store',
        opened: '2026-02-01',
        useBy: '2028-05-01',
        note: 'chipped cap',
        tare: 120.5,
        price: 12.5,
      },
    });
  });

  test('entered wrong: a group that was changed is read as typed, the other kept', () => {
    beginFrom(basisOf(ACID, 'correct'));
    typeInto('strength', '1 mol/L');
    const read = readNewBottle(newBottle.value, tables);
    expect(read.ok && read.input).toMatchObject({
      material: ACID.material,
      form: { kind: 'solution', strength: { value: 1, basis: 'mol/L' } },
    });
    typeInto('name', 'battery acid');
    typeInto('cas', '');
    typeInto('formula', '');
    const again = readNewBottle(newBottle.value, tables);
    expect(again.ok && again.input.material).toEqual({ name: 'battery acid' });
  });

  test('another like this: each field says whose it is, and what belongs to the one bottle is left empty', () => {
    beginFrom(basisOf(ACID, 'another'));
    const { draft, filled } = newBottle.value;
    expect(draft).toMatchObject({ name: 'sulfuric acid', place: 'acids cabinet', amount: '', note: '', tare: '', opened: '' });
    expect([filled.name, filled.place, filled.amount]).toEqual(['as on B05', 'as on B05', undefined]);
    typeInto('place', 'hood');
    expect(newBottle.value.filled.place).toBeUndefined();
  });

  test('what was half typed is set aside and comes back, however many were begun', () => {
    typeInto('name', 'half a benzil');
    beginFrom(basisOf(ACID, 'correct'));
    typeInto('lot', 'S-2');
    beginFrom(basisOf({ ...ACID, id: 'B06' }, 'another'));
    expect(waiting.value.map((one) => one.draft.name)).toEqual(['half a benzil', 'sulfuric acid']);
    // Begun again, the same goes on where it was.
    beginFrom(basisOf(ACID, 'correct'));
    expect(newBottle.value.draft.lot).toBe('S-2');
    clearDraft();
    expect(newBottle.value.draft).toMatchObject({ name: 'half a benzil' });
    clearDraft();
    expect(newBottle.value.draft).toEqual(EMPTY_DRAFT);
  });

  test('the right one is put in the place of the wrong one in one call; a refusal loses nothing typed', async () => {
    render(<ShelfPlace />);
    panel.value = { show: 'bottle', id: 'B05' };
    fireEvent.click(await screen.findByText('Entered wrong'));
    const lot = (await screen.findByLabelText('lot')) as HTMLInputElement;
    fireEvent.input(lot, { target: { value: 'S-2' } });
    fireEvent.click(screen.getByText('Put it in the place of B05'));
    expect(await screen.findByText(/Refused in this test/)).toBeTruthy();
    expect(newBottle.value.draft.lot).toBe('S-2');
    answers['shelf.correct'] = { id: 'B-7' };
    fireEvent.click(screen.getByText('Put it in the place of B05'));
    await waitFor(() => expect(panel.value).toEqual({ show: 'bottle', id: 'B-7' }));
    expect(asked('shelf.correct').at(-1)).toMatchObject({ id: 'B05', bottle: { lot: 'S-2', material: ACID.material } });
    expect(asked('shelf.add')).toEqual([]);
    expect(newBottle.value.draft).toEqual(EMPTY_DRAFT);
  });
});

describe('what is measured on a bottle', () => {
  test.each([
    ['tare', '112.35', 112.35],
    ['tare', '0,5 kg', 500],
    ['water', '0.3 % w/w', 0.3],
    ['price', '24,50', 24.5],
    ['price', '0', 0],
  ] as const)('%s: "%s" is %d', (field, typed, value) => {
    expect(readMeasure[field](typed)).toEqual({ ok: true, value });
  });

  test.each([
    ['tare', '5 mL'],
    ['tare', '0'],
    ['water', '101'],
    ['water', 'much'],
    ['price', '-1'],
    ['price', '5 €'],
  ] as const)('%s: "%s" is refused at its place', (field, typed) => {
    expect(readMeasure[field](typed)).toMatchObject({ ok: false, at: expect.any(Number), words: expect.stringMatching(/./) });
  });

  test('a weighing says what it comes to, or why nothing can be said', () => {
    const solid: BottleRow = { ...ACID, unit: 'g', form: { kind: 'neat' }, left: 10 };
    expect(readWeighing('140,9 g', solid)).toEqual({ ok: true, gross: 140.9, left: 20.4 });
    expect(readWeighing('130.5', solid)).toMatchObject({ ok: false, words: 'that is what the ledger says already' });
    expect(readWeighing('100', solid)).toMatchObject({ ok: false, words: expect.stringContaining('120.5 g') });
    expect(readWeighing('', solid)).toMatchObject({ ok: false });
    const strange = { ...ACID, material: { name: 'something of our own' }, form: { kind: 'neat' as const } };
    expect(readWeighing('300', strange)).toMatchObject({ ok: false, words: expect.stringContaining('no density is known') });
  });

  test('the list shows milligrams, and never nothing for a trace', () => {
    expect([919.310574, 250, 0, 0.0004, 0.001].map(listNumber)).toEqual(['919.311', '250', '0', '<0.001', '0.001']);
  });
});

describe('the list', () => {
  test('is narrowed by what is chosen, and everything comes back', async () => {
    render(<ShelfPlace />);
    const state = (await screen.findByLabelText('state')) as HTMLSelectElement;
    fireEvent.change(state, { target: { value: 'out of date' } });
    await waitFor(() => expect(asked('shelf.list').at(-1)).toMatchObject({ filter: { state: 'out of date' } }));
    fireEvent.change(screen.getByLabelText('hazard'), { target: { value: 'flammable' } });
    expect(filter.value).toEqual({ state: 'out of date', hazard: 'flammable' });
    fireEvent.click(screen.getByText('Show all'));
    expect(filter.value).toEqual({});
  });

  test('the same column again turns the order round', async () => {
    render(<ShelfPlace />);
    const left = await screen.findByText('left');
    fireEvent.click(left);
    await waitFor(() => expect(asked('shelf.list').at(-1)).toMatchObject({ sort: 'left', down: false }));
    fireEvent.click(left);
    await waitFor(() => expect(asked('shelf.list').at(-1)).toMatchObject({ sort: 'left', down: true }));
    expect(left.closest('[role=columnheader]')?.getAttribute('aria-sort')).toBe('descending');
    fireEvent.click(screen.getByText('material'));
    await waitFor(() => expect(asked('shelf.list').at(-1)).toMatchObject({ sort: 'name', down: false }));
  });

  test('says which names were taken for a word that nothing is spelled like', async () => {
    answers['shelf.list'] = { total: 1, rows: [ACID], nearly: ['sulfuric acid'] };
    search.value = 'sulfric';
    render(<ShelfPlace />);
    expect(await screen.findByText('Nothing is spelled so; nearly: sulfuric acid (1 bottle)')).toBeTruthy();
  });

  test('bottles are chosen one by one or all, changed in one call, and that is undone in one', async () => {
    render(<ShelfPlace />);
    await screen.findByText('2 bottles');
    // The rows themselves are drawn in a window that has a height (tests/e2e).
    toggle('B05');
    expect(await screen.findByText('1 bottle chosen')).toBeTruthy();
    fireEvent.click(screen.getByText('Choose all 2 found'));
    expect(await screen.findByText('all 2 found are chosen')).toBeTruthy();
    fireEvent.click(screen.getByText('Change place or dates'));
    const form = await screen.findByRole('form', { name: 'Change 2 bottles' });
    fireEvent.click(within(form).getByText('Change 2 bottles'));
    expect(await screen.findByText('Nothing was filled in yet.')).toBeTruthy();
    fireEvent.input(within(form).getByLabelText('place'), { target: { value: 'drawer 3' } });
    fireEvent.click(within(form).getByText('Change 2 bottles'));
    expect(await screen.findByText(/Not changed: Refused in this test/)).toBeTruthy();
    expect((within(form).getByLabelText('place') as HTMLInputElement).value).toBe('drawer 3');
    answers['shelf.changeMany'] = { edit: 9, bottles: 2 };
    fireEvent.click(within(form).getByText('Change 2 bottles'));
    expect(await screen.findByText('2 bottles changed.')).toBeTruthy();
    expect(asked('shelf.changeMany').at(-1)).toEqual({
      bottles: { search: '', filter: {}, total: 2 },
      change: { place: 'drawer 3' },
    });
    answers['shelf.undoChange'] = { edit: 10, bottles: 1, left: ['B06'] };
    fireEvent.click(screen.getByText('Undo the change'));
    expect(await screen.findByText('Put back on 1 bottle; B06 changed again since and stay.')).toBeTruthy();
  });
});
