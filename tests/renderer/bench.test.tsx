import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { secondCheck } from '../../src/renderer/state/paper-context.ts';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Paper } from '../../src/core/paper/paper.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Port, ProcedureName } from '../../src/core/port/port.ts';
import { BatchPicker } from '../../src/renderer/places/bench/batch-picker.tsx';
import {
  batchKey,
  chosen,
  chosenBatches,
  everyBatch,
  issuedPapers,
  paperSaid,
  pages,
  recall,
} from '../../src/renderer/places/bench/bench-store.ts';
import { Papers } from '../../src/renderer/places/bench/papers.tsx';
import { StockCheck } from '../../src/renderer/places/bench/stock-check.tsx';
import { PREVIEW } from '../../src/renderer/paper/open-paper.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { draft, saveTrouble } from '../../src/renderer/state/plan-store.ts';
import { openPlan } from '../../src/renderer/state/plan-route.ts';
import { place } from '../../src/renderer/state/place.ts';
import { reference, settings } from '../../src/renderer/state/workbook.ts';
import { panel } from '../../src/renderer/places/shelf/shelf-store.ts';
import { DEMO, stageVolume } from '../core/paper-fixture.ts';
import { TABLES } from './shelf-tables.ts';

let calls: { name: ProcedureName; input: Record<string, unknown> }[];
let refuse: ProcedureName | null;

beforeEach(() => {
  calls = [];
  refuse = null;
  const answers: Partial<Record<ProcedureName, unknown>> = {
    'papers.issue': { id: 7, revision: 3, issued: '2027-02-25T09:42:07.120Z' },
    'papers.list': [],
    'settings.save': { saved: '' },
    'papers.print': { how: 'dialog' },
  };
  connectPort({
    call: async (name: ProcedureName, input: Record<string, unknown>) => {
      calls.push({ name, input });
      return refuse === name ? { ok: false, code: 'storage', detail: '' } : { ok: true, value: answers[name] };
    },
    subscribe: () => () => {},
  } as unknown as Port);
  reference.value = TABLES;
  settings.value = { paper: 'A4' } as never;
  openPlan.value = { id: 4, routeId: 1, routeRevision: 1, state: 12, revision: 2, saved: '' };
  draft.value = null;
  saveTrouble.value = null;
  chosen.value = new Set();
  secondCheck.value = false;
  paperSaid.value = '';
  issuedPapers.value = null;
  sessionStorage.clear();
  vi.spyOn(pages, 'open').mockImplementation(() => {});
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

const called = (name: ProcedureName) => calls.find((one) => one.name === name)?.input;
const idle = (result: PlanResult): PlanResult => ({
  ...result,
  steps: result.steps.map((step) => (step.id === 'benzoin' ? { ...step, active: false } : step)),
});

/** The same with the benzoin on the shelf. */
const stocked = (result: PlanResult): PlanResult => ({
  ...result,
  steps: result.steps.map((one) => ({
    ...one,
    operations: one.operations.map((operation) =>
      operation.kind === 'charge' && operation.supply.kind === 'step'
        ? { ...operation, supply: { kind: 'bottles', bottles: [] } }
        : operation,
    ),
  })),
});

// First in the file: once a paper has been opened, this window is on its way and takes nothing back.
test('coming back from a paper finds the batches that were chosen, once', () => {
  sessionStorage.setItem('backweigh bench', 'null');
  expect(() => recall()).not.toThrow();
  sessionStorage.setItem('backweigh bench', JSON.stringify({ plan: 4, chosen: ['benzil/2'], secondCheck: true }));
  recall();
  expect([...chosen.value]).toEqual(['benzil/2']);
  expect(secondCheck.value).toBe(true);
  chosen.value = new Set();
  recall();
  expect(chosen.value.size).toBe(0);
});

describe('choosing batches', () => {
  test('every batch of an active step can be chosen, one by one or all at once', () => {
    render(<BatchPicker result={DEMO} />);
    expect(screen.getAllByRole('checkbox')).toHaveLength(5);
    fireEvent.click(screen.getAllByRole('checkbox')[1] as Element);
    expect(chosenBatches(DEMO)).toEqual([{ step: 'benzil', batch: 1 }]);
    fireEvent.click(screen.getByLabelText('Choose all batches'));
    expect(chosenBatches(DEMO)).toEqual(everyBatch(DEMO));
    fireEvent.click(screen.getByLabelText('Choose none of the batches'));
    expect(chosenBatches(DEMO)).toEqual([]);
  });

  test('the fill told of a step is that of its fullest stage, which the number of batches comes from', () => {
    const steps = DEMO.steps.map((one) => {
      const stages = [stageVolume('reaction', 10, 250), stageVolume('work-up', 150, 250), stageVolume('purification', 20, 250)];
      return { ...one, batches: { ...one.batches, stages } };
    });
    render(<BatchPicker result={{ ...DEMO, steps }} />);
    expect(screen.getAllByText(/250 mL flask, filled to 60 % at most, in the work-up/).length).toBeGreaterThan(0);
    expect(screen.queryByText(/filled to 4 %/)).toBeNull();
  });

  test('a step that stock covers has nothing to choose', () => {
    render(<BatchPicker result={idle(DEMO)} />);
    expect(screen.getAllByRole('checkbox')).toHaveLength(4);
    expect(screen.getByText('covered by stock: nothing to do')).toBeTruthy();
  });

  test('a choice that the plan no longer has is not done', () => {
    chosen.value = new Set([batchKey('benzil', 2), batchKey('benzil', 9), batchKey('gone', 1)]);
    expect(chosenBatches(DEMO)).toEqual([{ step: 'benzil', batch: 2 }]);
  });
});

describe('stock check', () => {
  test('says for the session, not for the plan, whether everything is at hand', () => {
    chosen.value = new Set([batchKey('benzil', 1)]);
    render(<StockCheck result={stocked(DEMO)} />);
    expect(screen.getByRole('status').textContent).toBe('Everything is at hand.');
    expect(screen.getByText('short for the whole plan')).toBeTruthy();
  });

  test('what an earlier step has still to make is not at hand; the step and what it lacks are named', () => {
    chosen.value = new Set([batchKey('benzil', 1)]);
    render(<StockCheck result={DEMO} />);
    expect(screen.getByRole('status').textContent).toBe('One of 4 lines needs something first.');
    expect(screen.getByText('not made yet')).toBeTruthy();
    expect(screen.getByText('step 1 first')).toBeTruthy();
    expect(screen.getByText('its benzaldehyde: out of date')).toBeTruthy();
  });

  test('counts what needs something first', () => {
    chosen.value = new Set(everyBatch(DEMO).map(({ step, batch }) => batchKey(step, batch)));
    render(<StockCheck result={DEMO} />);
    expect(screen.getByRole('status').textContent).toBe('3 of 9 lines need something first.');
  });

  test('a lot leads to its bottle', () => {
    chosen.value = new Set([batchKey('benzil', 1)]);
    render(<StockCheck result={DEMO} />);
    fireEvent.click(screen.getByText('lot N-117'));
    expect(panel.value).toEqual({ show: 'bottle', id: 'bottle N-117' });
    expect(place.value).toBe('shelf');
  });
});

describe('papers', () => {
  beforeEach(() => {
    chosen.value = new Set([batchKey('benzil', 1), batchKey('benzil', 2)]);
  });

  test('a preview is left in this tab and opened; nothing is kept', () => {
    render(<Papers result={DEMO} />);
    fireEvent.click(screen.getByLabelText('Preview: Weighing sheets'));
    const paper = Paper.parse(JSON.parse(sessionStorage.getItem(PREVIEW) ?? ''));
    expect(paper.kind === 'weighing sheet' && paper.sheets.map((sheet) => sheet.id)).toEqual(['2-1', '2-2']);
    expect(pages.open).toHaveBeenCalledWith('./paper.html#paper=preview');
    expect(called('papers.issue')).toBeUndefined();
  });

  test('issuing names the saved state and opens what was kept', async () => {
    secondCheck.value = true;
    render(<Papers result={DEMO} />);
    fireEvent.click(screen.getByLabelText('Issue and open: Weighing sheets'));
    await waitFor(() => expect(pages.open).toHaveBeenCalledWith('./paper.html#paper=7'));
    expect(called('papers.issue')).toMatchObject({
      planId: 4,
      state: 12,
      kind: 'weighing sheet',
      title: 'Weighing sheets 2-1, 2-2',
    });
    expect(called('papers.issue')?.['paper']).toMatchObject({ secondCheck: true, size: 'A4' });
  });

  test('a plan that cannot be saved issues nothing', async () => {
    saveTrouble.value = { kind: 'failed', words: '' };
    render(<Papers result={DEMO} />);
    fireEvent.click(screen.getByLabelText('Issue and open: Fetch list'));
    expect(await screen.findByText('The plan could not be saved, so nothing was issued.')).toBeTruthy();
    expect(called('papers.issue')).toBeUndefined();
  });

  test('a refused paper says so and opens nothing', async () => {
    refuse = 'papers.issue';
    render(<Papers result={DEMO} />);
    fireEvent.click(screen.getByLabelText('Issue and open: Fetch list'));
    expect(await screen.findByText(/Nothing was issued\./)).toBeTruthy();
    expect(pages.open).not.toHaveBeenCalled();
  });

  test('the paper size is one of the laboratory’s settings', async () => {
    render(<Papers result={DEMO} />);
    fireEvent.change(screen.getByRole('combobox'), { target: { value: 'Letter' } });
    await waitFor(() => expect(called('settings.save')).toEqual({ settings: { paper: 'Letter' } }));
    fireEvent.click(screen.getByLabelText('Preview: Fetch list'));
    expect(JSON.parse(sessionStorage.getItem(PREVIEW) ?? '')).toMatchObject({ kind: 'fetch list', size: 'Letter' });
  });

  test('issued papers open, print and become PDFs by their number', async () => {
    issuedPapers.value = [
      {
        id: 5,
        kind: 'fetch list',
        title: 'Fetch list for Spring practicals',
        plan: 1,
        revision: 2,
        issued: '2027-02-25T09:42:07.120',
        earlier: true,
      },
    ];
    render(<Papers result={DEMO} />);
    expect(screen.getByText('revision 2 · 25 Feb 2027, 09:42')).toBeTruthy();
    expect(screen.getByText('from an earlier plan: the plan was changed since')).toBeTruthy();
    fireEvent.click(screen.getByLabelText('Open: Fetch list for Spring practicals'));
    expect(pages.open).toHaveBeenCalledWith('./paper.html#paper=5');
    fireEvent.click(screen.getByLabelText('Print: Fetch list for Spring practicals'));
    await waitFor(() => expect(called('papers.print')).toEqual({ id: 5 }));
  });
});
