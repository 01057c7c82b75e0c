import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { effect } from '@preact/signals';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { PlanPlace } from '../../src/renderer/places/plan/plan-place.tsx';
import { confidence, confidenceIsCurrent } from '../../src/renderer/state/confidence.ts';
import { call, connectPort } from '../../src/renderer/state/connection.ts';
import { openPlan } from '../../src/renderer/state/plan-route.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import { commitEdit, draft, openNewestPlan, openPlanById, saveState, undoPlan } from '../../src/renderer/state/plan-store.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { realPort } from './real-port.ts';

beforeEach(async () => {
  connectPort(realPort());
  await openWorkbook();
  await openNewestPlan();
  render(<PlanPlace />);
  await waitFor(() => expect(confidenceIsCurrent.value).toBe(true));
});
afterEach(() => {
  commitEdit();
  cleanup();
});

const start = (): number => result.value?.steps[0]?.basis.grams.value ?? Number.NaN;
const press = (name: string): void => void fireEvent.click(screen.getByRole('button', { name }));

test('a start is chosen by its chance, every amount follows, it is saved, and undo takes it back', async () => {
  const likeliest = start();
  await waitFor(() => expect(screen.getByText(/the chance that every draw is met is 4\d %, not fifty-fifty/)).toBeTruthy());
  press('Start for a 90 % chance of enough');
  expect(draft.value?.start).toEqual({ chancePercent: 90 });
  expect(start()).toBeGreaterThan(likeliest * 1.1);
  await waitFor(() => expect(saveState.value).toBe('saved'));
  await waitFor(() => expect(screen.getByText(/Amounts follow the start chosen for a 90 % chance of enough/)).toBeTruthy());
  // The words follow at once, the chance after a pause.
  await waitFor(() => expect(confidenceIsCurrent.value).toBe(true));
  const known = confidence.value;
  if (known?.kind !== 'chance') throw new Error('a chance is known');
  expect(known.first.grams?.value).toBeCloseTo(start(), 9);
  undoPlan();
  expect(start()).toBe(likeliest);
});

test('the mark of the chart moves by the arrow keys', () => {
  const before = start();
  fireEvent.keyDown(screen.getByRole('slider', { name: /Chance of enough against/ }), { key: 'ArrowRight' });
  expect(draft.value?.start).toHaveProperty('multiplier');
  expect(start()).toBeGreaterThan(before);
});

test('what the limits of a range mean is asked, and the answer widens the range', async () => {
  const before = confidence.value;
  fireEvent.click(screen.getAllByRole('button', { name: 'one in ten' })[0] as HTMLElement);
  await waitFor(() => expect(confidenceIsCurrent.value).toBe(true));
  const after = confidence.value;
  if (before?.kind !== 'chance' || after?.kind !== 'chance') throw new Error('a chance is known');
  expect(after.levels[2]?.grams?.value).toBeGreaterThan((before.levels[2]?.grams?.value ?? 0) * 1.02);
  expect(Object.values(draft.value?.yields ?? {})).toContainEqual(expect.objectContaining({ limits: 'one in ten' }));
});

test('another plan that is opened never shows the chance of the one before', async () => {
  const open = openPlan.value;
  if (!open) throw new Error('a plan is open');
  const answer = await call('plans.create', {
    routeId: open.routeId,
    ask: { name: 'another', draws: [{ id: 'd', material: 'benzoin', amount: 1, unit: 'g', purpose: 'test' }] },
  });
  if (!answer.ok) throw new Error(answer.detail);
  const seen: (number | undefined)[] = [];
  const stop = effect(() => {
    const known = confidence.value;
    if (openPlan.value?.id === answer.value.id && known?.kind === 'chance') seen.push(known.first.grams?.value);
  });
  await openPlanById(answer.value.id);
  await waitFor(() => expect(confidenceIsCurrent.value).toBe(true));
  stop();
  expect(seen).toEqual([start()]);
});
