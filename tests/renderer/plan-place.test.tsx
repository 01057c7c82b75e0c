import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { Explain } from '../../src/renderer/parts/explain.tsx';
import { PlanPlace } from '../../src/renderer/places/plan/plan-place.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import {
  canUndo,
  commitEdit,
  draft,
  editPlan,
  openNewestPlan,
  planLoad,
  redoPlan,
  saveDraft,
  saveState,
  undone,
  undoPlan,
} from '../../src/renderer/state/plan-store.ts';
import { openPlan } from '../../src/renderer/state/plan-route.ts';
import { cascadeAs, chooseStep, chosenStep, openFetchLine } from '../../src/renderer/state/plan-view.ts';
import { refusedTexts } from '../../src/renderer/state/refused-texts.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { type RealPort, realPort } from './real-port.ts';

let port: RealPort;

beforeEach(async () => {
  port = realPort();
  connectPort(port);
  await openWorkbook();
  await openNewestPlan();
  chooseStep('');
  cascadeAs.value = 'picture';
  openFetchLine.value = null;
  refusedTexts.value = [];
});
afterEach(() => {
  commitEdit();
  cleanup();
});

const type = (label: string | RegExp, text: string): void =>
  void fireEvent.input(screen.getByLabelText(label), { target: { value: text } });
const start = (): number => result.value?.steps[0]?.basis.moles.value ?? Number.NaN;

test('the ready example is planned: steps, draws, fetch list, notices and the standing sentence', () => {
  render(<PlanPlace />);
  const steps = within(screen.getByRole('list', { name: /Steps, in working order/ })).getAllByRole('listitem');
  expect(steps).toHaveLength(4);
  expect(within(screen.getByRole('list', { name: 'Target' })).getAllByRole('listitem')).toHaveLength(3);
  expect(screen.getByRole('button', { name: /^nitric acid/ })).toBeTruthy();
  expect(screen.getByText(/is short by/)).toBeTruthy();
  expect(screen.getByText(/Local rules and the responsible, licensed person decide/)).toBeTruthy();
  expect(screen.getByRole('img', { name: /4 steps, 3 draws/ })).toBeTruthy();
});

test('every keystroke re-plans; undo takes the edit back', async () => {
  render(<PlanPlace />);
  const before = start();
  type('Amount of tetraphenylcyclopentadienone', '40 g');
  expect(start()).toBeGreaterThan(before * 1.4);
  undoPlan();
  await waitFor(() => expect(amount().value).toBe('20 g'));
  expect(start()).toBe(before);
});

test('the use of material is worked out while it is open, and follows the keystrokes', async () => {
  render(<PlanPlace />);
  const fold = document.querySelector<HTMLDetailsElement>('.use-of-material');
  if (!fold) throw new Error('the plan has a fold of its use of material');
  const told = () => fold.querySelector('dl')?.textContent ?? '';
  expect(told()).toBe('');
  fold.open = true;
  fireEvent(fold, new Event('toggle'));
  await waitFor(() => expect(told()).toContain('tetraphenylcyclopentadienone'));
  const before = told();
  type('Amount of tetraphenylcyclopentadienone', '40 g');
  await waitFor(() => expect(told()).not.toBe(before));
});

const amount = (): HTMLInputElement => screen.getByLabelText('Amount of tetraphenylcyclopentadienone');
const yieldOfBenzil = (): HTMLInputElement => screen.getByLabelText(/^Yield of Oxidation to benzil/);
const yields = (): unknown => draft.value?.yields?.['benzil'];

test('an open fetch line tells charges of one step apart by what each takes', () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByRole('button', { name: /^ethanol/ }));
  const uses = screen.getAllByRole('button', { name: /^step \d · / }).map((one) => one.textContent);
  expect(uses.length).toBeGreaterThan(5);
  expect(uses.every((one) => /: [\d.]+\u00a0mL(, twice)?$/.test(one ?? ''))).toBe(true);
  expect(new Set(uses).size).toBe(uses.length);
});

describe('a text that is refused', () => {
  test.each(['101', '90/', '5x'])('%s, typed key by key, leaves the plan and what is saved as they were before', async (text) => {
    render(<PlanPlace />);
    const before = start();
    const ask = draft.value;
    for (let length = 1; length <= text.length; length += 1) {
      type(/^Yield of Oxidation to benzil/, text.slice(0, length));
      // A slow hand: the pause is over between two keys.
      saveDraft();
    }
    expect(start()).toBe(before);
    expect(yieldOfBenzil().value).toBe(text);
    fireEvent.blur(yieldOfBenzil());
    await waitFor(() => expect(saveState.value).toBe('saved'));
    expect(draft.value).toEqual(ask);
    expect((await port.book.must('plans.read', { id: openPlan.value?.id ?? 0 })).ask).toEqual(ask);
    expect(yieldOfBenzil().value).toBe(text);
    expect(screen.getByRole('alert').textContent).toMatch(/Still planned with .+ %\./);
  });

  test('is taken back by undo, which leaves the edits before it alone', async () => {
    render(<PlanPlace />);
    type('Amount of tetraphenylcyclopentadienone', '40 g');
    fireEvent.blur(amount());
    type('Amount of tetraphenylcyclopentadienone', 'banana');
    expect(draft.value?.draws[0]?.amount).toBe(40);
    expect(canUndo.value).toBe(true);
    undoPlan();
    await waitFor(() => expect(amount().value).toBe('40 g'));
    expect(draft.value?.draws[0]?.amount).toBe(40);
    undoPlan();
    await waitFor(() => expect(amount().value).toBe('20 g'));
  });

  test('does not stand in the way of undoing a later edit', async () => {
    render(<PlanPlace />);
    type('Amount of tetraphenylcyclopentadienone', 'banana');
    fireEvent.blur(amount());
    type(/^Yield of Oxidation to benzil/, '50');
    fireEvent.blur(yieldOfBenzil());
    undoPlan();
    expect(yields()).not.toBe(50);
    expect(amount().value).toBe('banana');
    undoPlan();
    await waitFor(() => expect(amount().value).toBe('20 g'));
  });

  test('is still there after another place was looked at', () => {
    const { unmount } = render(<PlanPlace />);
    type('Amount of tetraphenylcyclopentadienone', 'banana');
    unmount();
    render(<PlanPlace />);
    expect(amount().value).toBe('banana');
    expect(screen.getByRole('alert').textContent).toContain('Still planned for 20 g.');
    fireEvent.keyDown(amount(), { key: 'Escape' });
    expect(refusedTexts.value).toEqual([]);
  });
});

test('one visit to a field is one step of undo, however slowly it was typed', async () => {
  render(<PlanPlace />);
  const ask = draft.value;
  for (const text of ['6', '65', '65.', '65.5']) {
    type(/^Yield of Oxidation to benzil/, text);
    saveDraft();
  }
  fireEvent.blur(yieldOfBenzil());
  expect(yields()).toBe(65.5);
  undoPlan();
  expect(draft.value).toEqual(ask);
  expect(undone.value).toBe('undone: yield of Oxidation to benzil');
  redoPlan();
  expect(yields()).toBe(65.5);
  expect(undone.value).toBe('done again: yield of Oxidation to benzil');
});

test('an amount of substance is kept as it was typed', () => {
  render(<PlanPlace />);
  type('Amount of benzil', '180 mmol');
  expect(draft.value?.draws.find((draw) => draw.id === 'kept-benzil')).toMatchObject({
    amount: 0.18,
    unit: 'mol',
    shownIn: 'mmol',
  });
  expect(result.value?.solved).toBe(true);
});

test('a yield is edited where it stands, and a range is a range', () => {
  render(<PlanPlace />);
  const before = start();
  type(/^Yield of Oxidation to benzil/, '46');
  expect(start()).toBeCloseTo(before * 2, 6);
  type(/^Yield of Oxidation to benzil/, '35/46/70');
  expect(draft.value?.yields?.['benzil']).toEqual({ lowest: 35, likeliest: 46, highest: 70 });
  expect(start()).toBeCloseTo(before * 2, 6);
});

test('a step is opened by its number; cautions stand immediately before their operation', async () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByRole('button', { name: /^Step 2, Oxidation/ }));
  await screen.findByRole('heading', { name: /^2 · Oxidation to benzil/ });
  const row = screen.getByRole('rowheader', { name: /^nitric acid/ }).closest('tr');
  expect(row?.previousElementSibling?.textContent).toContain('No ethanol, acetone or other organic liquid');
  expect(screen.getByText('heat unknown')).toBeTruthy();
  expect(screen.getByText(/Never a closed vessel/)).toBeTruthy();
});

test('arrow keys move between the steps without opening them', () => {
  render(<PlanPlace />);
  const first = screen.getByRole('button', { name: /^Step 1,/ });
  first.focus();
  fireEvent.keyDown(first, { key: 'ArrowRight' });
  expect(document.activeElement?.getAttribute('aria-label')).toMatch(/^Step 2,/);
  expect(chosenStep.value?.number).toBe(1);
  fireEvent.keyDown(document.activeElement ?? first, { key: 'End' });
  expect(document.activeElement?.getAttribute('aria-label')).toMatch(/^Step 4,/);
});

test('the table holds the same figures as the picture', async () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByRole('button', { name: 'table' }));
  const table = await screen.findByRole('table', { name: 'Cascade' });
  const rows = within(table).getAllByRole('row').slice(1);
  expect(rows.map((row) => row.textContent?.slice(0, 3))).toEqual(['1 ·', '2 ·', '3 ·', '4 ·']);
});

test('a line of the fetch list shows which charges use it, and leads there', async () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByRole('button', { name: /^ethanol/ }));
  const uses = await screen.findAllByRole('button', { name: /^step \d · / });
  expect(uses.length).toBeGreaterThan(1);
  const last = uses.at(-1);
  const number = Number(/^step (\d)/.exec(last?.textContent ?? '')?.[1]);
  if (last) fireEvent.click(last);
  await waitFor(() => expect(chosenStep.value?.number).toBe(number));
  expect(document.querySelector('tr.lit')?.textContent).toContain('ethanol');
});

test('a draw is added, named, dated and taken away again', async () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByRole('button', { name: /Add a draw/ }));
  await waitFor(() => expect(draft.value?.draws).toHaveLength(4));
  const slots = (): HTMLElement[] => within(screen.getByRole('list', { name: 'Target' })).getAllByRole('listitem');
  await waitFor(() => expect(slots()).toHaveLength(4));
  const added = within(slots()[3] as HTMLElement);
  fireEvent.input(added.getByLabelText('Purpose'), { target: { value: 'spare' } });
  fireEvent.change(added.getByLabelText('Wanted by'), { target: { value: '2027-03-20' } });
  fireEvent.change(added.getByLabelText('Use or keep'), { target: { value: 'keep' } });
  expect(draft.value?.draws[3]).toMatchObject({ purpose: 'spare', date: '2027-03-20', kept: true });
  fireEvent.input(added.getByLabelText('Purpose'), { target: { value: '' } });
  expect(draft.value?.draws[3]).not.toHaveProperty('purpose');
  fireEvent.click(added.getByRole('button', { name: /^Take away the draw/ }));
  await waitFor(() => expect(slots()).toHaveLength(3));
  await waitFor(() => expect(document.activeElement?.className).toBe('draw-remove'));
});

test('any figure says where it comes from', async () => {
  // The test's DOM has no popovers; that this one opens beside its figure is seen in the end-to-end tests.
  HTMLElement.prototype.showPopover = () => {};
  render(
    <>
      <PlanPlace />
      <Explain />
    </>,
  );
  fireEvent.click(screen.getAllByTitle(/^benzaldehyde.*where it comes from$/)[0] as HTMLElement);
  const box = await screen.findByRole('dialog', { hidden: true, name: /^Where benzaldehyde/ });
  expect(within(box).getAllByRole('listitem', { hidden: true }).length).toBeGreaterThan(4);
  expect(box.textContent).toContain('entered: the target');
});

test('only what the route makes can be drawn', () => {
  render(<PlanPlace />);
  const product = screen.getAllByLabelText<HTMLSelectElement>('Product')[0];
  expect([...(product?.options ?? [])].map((option) => option.value)).toEqual([
    'benzoin',
    'benzil',
    'tetraphenylcyclopentadienone',
    'diphenylquinoxaline',
  ]);
});

test('a plan that cannot be worked out says why and keeps its draws', async () => {
  render(<PlanPlace />);
  editPlan('a draw', (ask) => ({ ...ask, draws: [{ id: 'odd', material: 'benzaldehyde', amount: 5, unit: 'g' }] }));
  // Where the step would stand, and among the notices.
  expect(await screen.findAllByText('No step of this route makes benzaldehyde.')).toHaveLength(2);
  expect(screen.getByText(/cannot be worked out as it stands/)).toBeTruthy();
  expect(screen.getByLabelText<HTMLInputElement>('Amount of benzaldehyde').value).toBe('5 g');
});

test('a plan that cannot be read says so and can be tried again', async () => {
  port.instead('plans.read', () => ({ ok: false, code: 'storage', detail: 'The disk reported an error.' }));
  await openNewestPlan();
  render(<PlanPlace />);
  expect(screen.getByText('The disk reported an error.')).toBeTruthy();
  port.instead('plans.read', null);
  fireEvent.click(screen.getByRole('button', { name: 'Try again' }));
  await waitFor(() => expect(planLoad.value.at).toBe('open'));
  await screen.findByRole('heading', { name: 'Cascade' });
});
