import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Port, ProcedureName } from '../../src/core/port/port.ts';
import type { BottleRow, LedgerLine } from '../../src/core/port/shelf.ts';
import { bottleState } from '../../src/core/shelf/bottle-state.ts';
import { smallDigits } from '../../src/renderer/places/shelf/formula-text.ts';
import { withRunning } from '../../src/renderer/places/shelf/ledger-table.tsx';
import { findMaterials } from '../../src/core/matter/find-material.ts';
import { readMovement } from '../../src/renderer/places/shelf/movement.ts';
import {
  clearDraft,
  EMPTY_DRAFT,
  fillFrom,
  fillStrength,
  newBottle,
  typeInto,
} from '../../src/renderer/places/shelf/new-bottle-draft.ts';
import { readNewBottle } from '../../src/renderer/places/shelf/read-new-bottle.ts';
import { importShelf, placeWords } from '../../src/renderer/places/shelf/shelf-files.tsx';
import { ShelfPlace } from '../../src/renderer/places/shelf/shelf-place.tsx';
import { closePanel, panel, said, search, total } from '../../src/renderer/places/shelf/shelf-store.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { reference, shelfChanges, today } from '../../src/renderer/state/workbook.ts';
import { TABLES } from './shelf-tables.ts';

const tables = TABLES;
const ACID: BottleRow = {
  id: 'B05',
  material: { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2', state: 'liquid' },
  materialId: 'm1',
  form: { kind: 'solution', strength: { value: 68, basis: '% w/w' } },
  left: 250,
  unit: 'mL',
  lot: '26-063',
  place: 'acids cabinet',
  supplier: '',
  received: '2026-03-20',
  opened: null,
  useBy: '2028-03-31',
  heldBack: false,
  note: '',
  tare: null,
  water: null,
  price: null,
};
const line = (id: number, kind: LedgerLine['kind'], change: number, more: Partial<LedgerLine> = {}): LedgerLine => ({
  id,
  kind,
  change,
  reason: '',
  at: '2026-11-25T09:00:00.000Z',
  undoes: null,
  undone: false,
  ...more,
});

describe('the state of a bottle', () => {
  test.each([
    [{ left: 0, heldBack: true }, { kind: 'empty' }],
    [{ heldBack: true, useBy: '2020-01-01' }, { kind: 'held back' }],
    [{ form: { kind: 'unknown' as const }, useBy: '2020-01-01' }, { kind: 'unknown strength' }],
    [{ useBy: '2027-02-24' }, { kind: 'out of date' }],
    [{ useBy: '2027-02-25' }, { kind: 'soon', days: 0 }],
    [{ useBy: '2027-03-27' }, { kind: 'soon', days: 30 }],
    [{ useBy: '2027-03-28' }, { kind: 'good' }],
    [{ useBy: null }, { kind: 'good' }],
  ])('%o is %o', (change, state) => {
    expect(bottleState({ ...ACID, ...change }, '2027-02-25')).toEqual(state);
  });
});

test('formulas are set with small digits, factors are not', () => {
  expect(smallDigits('C14H10O2')).toBe('C₁₄H₁₀O₂');
  expect(smallDigits('CuSO4·5H2O')).toBe('CuSO₄·5H₂O');
  expect(smallDigits('Ca(OH)2')).toBe('Ca(OH)₂');
});

describe('a movement as typed', () => {
  test.each([
    ['used', '60 mL', '', -60],
    ['used', '1.5 L', '', 'the amount needs to be at most what is left (250 mL)'],
    ['used', '2 × 40 mL', '', -80],
    ['received', '0.5 L', '', 500],
    ['adjusted', '240 mL', 'level was lower', -10],
    ['adjusted', '250 mL', 'counted', 'that is what the ledger says already (250 mL)'],
    ['discarded', '250 mL', 'crystals at the neck', -250],
    ['used', '4 g', '', 'this bottle is kept by volume: type millilitres (got g)'],
    ['used', '', '', 'an amount is expected here, such as 25 mL'],
    ['used', '0 mL', '', 'the amount needs to be more than zero'],
    ['used', '1,250 mL', '', 'is 1,250 a decimal or thousands? Write 1.250 or 1250'],
  ] as const)('%s %s %s → %s', (kind, amount, reason, expected) => {
    const read = readMovement(kind, amount, reason, ACID);
    if (typeof expected === 'number') expect(read).toMatchObject({ ok: true, change: expected, left: 250 + expected });
    else expect(read).toMatchObject({ ok: false, problems: { amount: { words: expected } } });
  });

  test('adjusting and discarding need a reason', () => {
    for (const kind of ['adjusted', 'discarded'] as const) {
      expect(readMovement(kind, '10 mL', ' ', ACID)).toMatchObject({ ok: false, problems: { reason: { at: 0 } } });
    }
    expect(readMovement('used', '10 mL', '', ACID).ok).toBe(true);
  });
});

test('the ledger runs from the oldest line and shows the newest first', () => {
  const ledger = [line(1, 'received', 0.3), line(2, 'used', -0.1), line(3, 'used', -0.2), line(4, 'undone', 0.2)];
  expect(withRunning(ledger).map(({ line, left }) => [line.id, left])).toEqual([
    [4, 0.2],
    [3, 0],
    [2, 0.2],
    [1, 0.3],
  ]);
});

describe('finding a material of the built-in table', () => {
  const first = (typed: string) => findMaterials(typed, tables)[0]?.row.cas;
  test.each([
    ['nitric acid', '7697-37-2'],
    ['HNO3', '7697-37-2'],
    ['HNO₃', '7697-37-2'],
    ['7697-37-2', '7697-37-2'],
    ['Ethanol', '64-17-5'],
    ['benzald', '100-52-7'],
    ['Spirit of  wine', '64-17-5'],
  ])('%s', (typed, cas) => expect(first(typed)).toBe(cas));

  test('nothing typed finds nothing, and a list stays short', () => {
    expect(findMaterials('  ', tables)).toEqual([]);
    expect(findMaterials('acid', tables).length).toBeLessThanOrEqual(8);
    expect(findMaterials('no such thing', tables)).toEqual([]);
  });

  test('what is filled in says so, until it is typed over', () => {
    clearDraft();
    const row = tables.material.get('100-52-7');
    if (!row) throw new Error('benzaldehyde is in the table');
    fillFrom(row);
    expect(newBottle.value.draft).toMatchObject({
      name: 'benzaldehyde',
      formula: 'C7H6O',
      state: 'liquid',
      density: String(row.density),
    });
    expect(newBottle.value.filled.formula).toBe('from the built-in table');
    expect(newBottle.value.filled.density).toContain('from the built-in table (');
    typeInto('formula', 'C7H6O2');
    expect(newBottle.value.filled.formula).toBeUndefined();
    expect(newBottle.value.filled.cas).toBeDefined();
    clearDraft();
  });

  test('what is usually sold dissolved starts as a solution, without the density of the pure substance', () => {
    clearDraft();
    const row = tables.material.get('7697-37-2');
    if (!row) throw new Error('nitric acid is in the table');
    fillFrom(row);
    expect(newBottle.value.draft).toMatchObject({ kind: 'solution', density: '' });
    clearDraft();
  });

  test('a usual strength fills in strength and solvent, and says what is behind it', () => {
    clearDraft();
    const row = {
      cas: '7697-37-2',
      label: 'fuming',
      strength: '90 % w/w',
      solvent: 'water',
      range: '90 % or more',
      labelDensity: null,
      note: null,
      source: 'usual supplier grade',
      mark: 'from memory' as const,
    };
    fillStrength(row);
    expect(newBottle.value.draft).toMatchObject({ kind: 'solution', strength: '90 % w/w', solvent: 'water' });
    expect(newBottle.value.filled.strength).toBe('from the built-in table (usual bottle, 90 % or more; from memory)');
    clearDraft();
  });
});

describe('a new bottle as typed', () => {
  const good = {
    ...EMPTY_DRAFT,
    name: 'nitric acid',
    cas: '7697-37-2',
    kind: 'solution' as const,
    strength: '68 % w/w',
    amount: '2.5 L',
  };

  test('becomes what the shelf takes', () => {
    const draft = { ...good, lot: ' 26-063 ', useBy: '2028-03-31', bottleDensity: '1,405', celsius: '20' };
    expect(readNewBottle({ draft, filled: {}, basis: null }, tables)).toEqual({
      ok: true,
      input: {
        material: { name: 'nitric acid', cas: '7697-37-2' },
        form: { kind: 'solution', strength: { value: 68, basis: '% w/w' }, density: { gramsPerMillilitre: 1.405, celsius: 20 } },
        amount: 2500,
        unit: 'mL',
        lot: '26-063',
        useBy: '2028-03-31',
      },
    });
  });

  test('a density that the table filled in stays the table’s', () => {
    const draft = { ...EMPTY_DRAFT, name: 'benzaldehyde', density: '1.044', amount: '100 g' };
    const typed = readNewBottle({ draft, filled: {}, basis: null }, tables);
    const filled = readNewBottle({ draft, filled: { density: 'from the built-in table' }, basis: null }, tables);
    expect(typed).toMatchObject({ ok: true, input: { material: { density: { gramsPerMillilitre: 1.044, source: 'typed' } } } });
    expect(filled.ok && 'density' in filled.input.material).toBe(false);
  });

  test.each([
    [{ strength: '68 %' }, 'strength', 3],
    [{ strength: '' }, 'strength', 0],
    [{ strength: '25 g' }, 'strength', 0],
    [{ strength: '130 % w/w' }, 'strength', 0],
    [{ name: ' ' }, 'name', 0],
    [{ cas: '7697-37-3' }, 'cas', 8],
    [{ cas: 'CAS?' }, 'cas', 0],
    [{ formula: 'Xx' }, 'formula', undefined],
    [{ amount: '' }, 'amount', 0],
    [{ amount: '0 g' }, 'amount', 0],
    [{ amount: '2 mol' }, 'amount', 2],
    [{ amount: '2000 kg' }, 'amount', 0],
    [{ bottleDensity: '14o5' }, 'bottleDensity', undefined],
    [{ bottleDensity: '1.4', celsius: 'warm' }, 'celsius', 0],
    [{ kind: 'neat' as const, assay: '101' }, 'assay', 0],
    [{ lot: 'x'.repeat(301) }, 'lot', 300],
  ])('%o is wrong at %s', (change, field, at) => {
    const read = readNewBottle({ draft: { ...good, ...change }, filled: {}, basis: null }, tables);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(Object.keys(read.problems)).toEqual([field]);
    if (at !== undefined) expect(Object.values(read.problems)[0]?.at).toBe(at);
  });

  test('every wrong field is told at once', () => {
    const read = readNewBottle({ draft: { ...EMPTY_DRAFT, kind: 'solution', cas: '1-1-1' }, filled: {}, basis: null }, tables);
    expect(read.ok ? [] : Object.keys(read.problems).sort()).toEqual(['amount', 'cas', 'name', 'strength']);
  });

  test('98, 98 % and 98 % w/w are one assay', () => {
    for (const assay of ['98', '98 %', '98 % w/w']) {
      const read = readNewBottle(
        { draft: { ...EMPTY_DRAFT, name: 'benzil', assay, amount: '6 g' }, filled: {}, basis: null },
        tables,
      );
      expect(read).toMatchObject({ ok: true, input: { form: { kind: 'neat', assayPercent: 98 } } });
    }
  });
});

test('a place in a file is said in words', () => {
  expect(placeWords('/bottles/2/left')).toBe('bottle 3, left');
  expect(placeWords('/materials/nitric-acid/formula')).toBe('material nitric-acid, formula');
  expect(placeWords('/packs/0')).toBe('pack 1');
  expect(placeWords('')).toBe('the file as a whole');
});

describe('the place', () => {
  let calls: { name: ProcedureName; input: unknown }[];
  let answers: Partial<Record<ProcedureName, (input: never) => unknown>>;

  beforeEach(() => {
    calls = [];
    answers = {
      'shelf.places': () => [{ place: ACID.place, bottles: 1 }],
      'shelf.list': () => ({ total: 1, rows: [ACID], nearly: [] }),
      'shelf.bottle': () => ({ bottle: ACID, ledger: [line(1, 'received', 250)], tests: [], edits: [] }),
    };
    const port = {
      call: async (name: ProcedureName, input: never) => {
        calls.push({ name, input });
        const answer = answers[name]?.(input);
        return answer === undefined
          ? { ok: false, code: 'refused', detail: 'not in this test' }
          : answer !== null && typeof answer === 'object' && 'ok' in answer
            ? answer
            : { ok: true, value: answer };
      },
      subscribe: () => () => {},
    };
    connectPort(port as unknown as Port);
    reference.value = tables;
    today.value = '2027-02-25';
    total.value = null;
    search.value = '';
    said.value = '';
    closePanel();
    clearDraft();
  });
  afterEach(cleanup);

  test('an empty shelf says what to do next', async () => {
    answers['shelf.list'] = () => ({ total: 0, rows: [], nearly: [] });
    render(<ShelfPlace />);
    expect(await screen.findByText('The shelf is empty')).toBeTruthy();
  });

  test('a shelf that cannot be read says why and offers to try again', async () => {
    answers['shelf.list'] = () => ({ ok: false, code: 'storage', detail: '' });
    render(<ShelfPlace />);
    expect(await screen.findByText('The shelf could not be read')).toBeTruthy();
    answers['shelf.list'] = () => ({ total: 1, rows: [ACID], nearly: [] });
    fireEvent.click(screen.getByText('Try again'));
    expect(await screen.findByText('1 bottle')).toBeTruthy();
  });

  test('recording a use sends the signed change; a refusal keeps what was typed', async () => {
    render(<ShelfPlace />);
    await screen.findByText('1 bottle');
    panel.value = { show: 'bottle', id: 'B05' };
    const amount = await screen.findByLabelText('how much was used');
    fireEvent.input(amount, { target: { value: '60 mL' } });
    fireEvent.input(screen.getByLabelText('what for'), { target: { value: 'step 2' } });
    fireEvent.click(screen.getByText('Record as used'));
    expect(await screen.findByText(/Not saved: .*What you typed is still here/)).toBeTruthy();
    expect((amount as HTMLInputElement).value).toBe('60 mL');
    answers['shelf.move'] = () => ({ left: 190, line: 2 });
    fireEvent.click(screen.getByText('Record as used'));
    expect(await screen.findByText('recorded: 190 mL left')).toBeTruthy();
    expect(calls.findLast((one) => one.name === 'shelf.move')?.input).toEqual({
      id: 'B05',
      kind: 'used',
      change: -60,
      reason: 'step 2',
    });
    expect((amount as HTMLInputElement).value).toBe('');
  });

  test('an amount typed under one kind of movement is not carried to another', async () => {
    render(<ShelfPlace />);
    panel.value = { show: 'bottle', id: 'B05' };
    fireEvent.input(await screen.findByLabelText('how much was used'), { target: { value: '60 mL' } });
    fireEvent.click(screen.getByLabelText('Discard'));
    expect(((await screen.findByLabelText('how much was discarded')) as HTMLInputElement).value).toBe('');
    fireEvent.click(screen.getByLabelText('Adjust'));
    expect(((await screen.findByLabelText('how much is really there')) as HTMLInputElement).value).toBe('');
    fireEvent.click(screen.getByLabelText('Use'));
    const back = (await screen.findByLabelText('how much was used')) as HTMLInputElement;
    expect(back.value).toBe('60 mL');
    fireEvent.input(back, { target: { value: '' } });
  });

  test('what a recording came to is not said any more once an undo has changed what is left', async () => {
    answers['shelf.move'] = () => ({ left: 190, line: 2 });
    render(<ShelfPlace />);
    panel.value = { show: 'bottle', id: 'B05' };
    fireEvent.input(await screen.findByLabelText('how much was used'), { target: { value: '60 mL' } });
    answers['shelf.bottle'] = () => ({
      bottle: { ...ACID, left: 190 },
      ledger: [line(1, 'received', 250)],
      tests: [],
      edits: [],
    });
    fireEvent.click(screen.getByText('Record as used'));
    expect(await screen.findByText('recorded: 190 mL left')).toBeTruthy();
    answers['shelf.bottle'] = () => ({ bottle: ACID, ledger: [line(1, 'received', 250)], tests: [], edits: [] });
    shelfChanges.value += 1;
    await waitFor(() => expect(screen.queryByText('recorded: 190 mL left')).toBeNull());
  });

  test('a field written on the bottle is saved when it is left, and kept when that fails', async () => {
    render(<ShelfPlace />);
    panel.value = { show: 'bottle', id: 'B05' };
    const lot = await screen.findByLabelText('lot');
    fireEvent.input(lot, { target: { value: '26-064' } });
    fireEvent.blur(lot);
    expect(await screen.findByText(/Not saved: .*What you typed is still here/)).toBeTruthy();
    expect((lot as HTMLInputElement).value).toBe('26-064');
    answers['shelf.change'] = () => ({ id: 'B05' });
    fireEvent.blur(lot);
    await waitFor(() =>
      expect(calls.findLast((one) => one.name === 'shelf.change')?.input).toEqual({ id: 'B05', lot: '26-064' }),
    );
  });

  test('undoing a ledger line names the line', async () => {
    answers['shelf.undo'] = () => ({ left: 0, line: 2 });
    render(<ShelfPlace />);
    panel.value = { show: 'bottle', id: 'B05' };
    fireEvent.click(await screen.findByLabelText('Undo: received +250 mL'));
    await waitFor(() => expect(calls.findLast((one) => one.name === 'shelf.undo')?.input).toEqual({ id: 'B05', line: 1 }));
  });

  test('a line before a measured amount has no Undo, and the ledger says why', async () => {
    const ledger = [line(1, 'received', 250), line(2, 'used', -50), line(3, 'adjusted', -10), line(4, 'used', -5)];
    answers['shelf.bottle'] = () => ({ bottle: ACID, ledger, tests: [], edits: [] });
    render(<ShelfPlace />);
    panel.value = { show: 'bottle', id: 'B05' };
    expect(await screen.findByLabelText('Undo: used −5 mL')).toBeTruthy();
    expect(screen.getByLabelText('Undo: adjusted −10 mL')).toBeTruthy();
    expect(screen.queryByLabelText('Undo: used −50 mL')).toBeNull();
    expect(screen.getAllByText('measured since')).toHaveLength(2);
    expect(screen.getByText(/those lines stay/)).toBeTruthy();
  });

  test('a new bottle with wrong fields is not sent, and the fields say why', async () => {
    render(<ShelfPlace />);
    panel.value = { show: 'new' };
    fireEvent.input(await screen.findByLabelText('name'), { target: { value: 'benzil' } });
    fireEvent.click(screen.getByText('Put it on the shelf'));
    expect(await screen.findByText('One field needs another look.')).toBeTruthy();
    expect(calls.some((one) => one.name === 'shelf.add')).toBe(false);
    answers['shelf.add'] = () => ({ id: 'B06' });
    fireEvent.input(screen.getByLabelText('how much is in it'), { target: { value: '6 g' } });
    fireEvent.click(screen.getByText('Put it on the shelf'));
    await waitFor(() => expect(panel.value).toEqual({ show: 'bottle', id: 'B06' }));
    expect(calls.find((one) => one.name === 'shelf.add')?.input).toEqual({
      material: { name: 'benzil' },
      form: { kind: 'neat' },
      amount: 6,
      unit: 'g',
    });
    expect(newBottle.value.draft).toEqual(EMPTY_DRAFT);
  });

  test('a draft outlives going to another place', async () => {
    const { unmount } = render(<ShelfPlace />);
    panel.value = { show: 'new' };
    fireEvent.input(await screen.findByLabelText('name'), { target: { value: 'half typed' } });
    unmount();
    render(<ShelfPlace />);
    expect(((await screen.findByLabelText('name')) as HTMLInputElement).value).toBe('half typed');
  });

  test('a shelf file with problems lists each at its place', async () => {
    answers['shelf.import'] = () => ({
      ok: false,
      code: 'refused',
      detail: '',
      problems: [
        { at: '/bottles/2/left', words: 'the number needs to be at least 0 (got -1)' },
        { at: '/materials/x/formula', words: 'this cannot be read' },
      ],
    });
    render(<ShelfPlace />);
    await importShelf({ name: 'old shelf.json', size: 10, text: async () => '{}' });
    const list = await screen.findByRole('list');
    expect(within(list).getByText('bottle 3, left')).toBeTruthy();
    expect(within(list).getByText('this cannot be read')).toBeTruthy();
    answers['shelf.import'] = () => ({ bottles: 12, twins: [] });
    await importShelf({ name: 'old shelf.json', size: 10, text: async () => '{}' });
    expect(said.value).toBe('12 bottles from old shelf.json are on the shelf now.');
    expect(panel.value).toEqual({ show: 'nothing' });
    answers['shelf.import'] = () => ({ bottles: 12, twins: [['B1', 'B7']] });
    await importShelf({ name: 'old shelf.json', size: 10, text: async () => '{}' });
    expect(said.value).toMatch(/on the shelf now\. B1 and B7 read alike but for their label: is it one bottle\?$/);
  });

  test('a change of the shelf elsewhere is read again', async () => {
    render(<ShelfPlace />);
    await screen.findByText('1 bottle');
    answers['shelf.list'] = () => ({ total: 2, rows: [ACID, { ...ACID, id: 'B06' }], nearly: [] });
    shelfChanges.value += 1;
    expect(await screen.findByText('2 bottles')).toBeTruthy();
  });
});
