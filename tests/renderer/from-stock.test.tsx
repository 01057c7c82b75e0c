import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { PlanPlace } from '../../src/renderer/places/plan/plan-place.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import { commitEdit, draft, editPlan, openNewestPlan, undoPlan } from '../../src/renderer/state/plan-store.ts';
import { chooseStep } from '../../src/renderer/state/plan-view.ts';
import { solutionDraft } from '../../src/renderer/places/shelf/make-solution-draft.ts';
import { place } from '../../src/renderer/state/place.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { realPort } from './real-port.ts';

beforeEach(async () => {
  connectPort(realPort());
  await openWorkbook();
  await openNewestPlan();
  chooseStep('');
});
afterEach(() => {
  commitEdit();
  cleanup();
});

test('the most that stock allows is shown with what limits it, and can be planned: nothing chosen is short then', () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByText('What can I make from stock?'));
  expect(screen.getByText('First to run out: ethanol.')).toBeTruthy();
  fireEvent.click(screen.getByRole('button', { name: 'Plan this much' }));
  expect(result.value?.fetch.find((line) => line.name === 'ethanol')?.status).toBe('enough');
  undoPlan();
});

test('what is not chosen does not limit', async () => {
  render(<PlanPlace />);
  fireEvent.click(screen.getByText('What can I make from stock?'));
  fireEvent.click(screen.getByRole('checkbox', { name: /^ethanol/ }));
  await waitFor(() => expect(screen.getByText('First to run out: 1,3-diphenylacetone.')).toBeTruthy());
});

test('a step that is left out is not run, its product is bought, and it can be taken in again', async () => {
  render(<PlanPlace />);
  editPlan('a step left out', (ask) => ({ ...ask, leaveOut: ['benzoin', ...(draft.value?.leaveOut ?? [])] }));
  const first = result.value?.steps.find((one) => one.whyIdle === 'left out');
  if (!first) throw new Error(`no step left out of ${result.value?.steps.map((one) => one.id).join()}`);
  chooseStep(first.id);
  await waitFor(() => expect(screen.getByText(/Left out of this plan/)).toBeTruthy());
  expect(result.value?.fetch.some((line) => line.material === first.product.material && line.status !== 'enough')).toBe(true);
  fireEvent.click(screen.getByRole('button', { name: 'let this step run again' }));
  expect(result.value?.steps.some((one) => one.whyIdle === 'left out')).toBe(false);
});

test('making a solution for a charge opens with what the plan makes up, not with less', async () => {
  render(<PlanPlace />);
  const makeUp = result.value?.makeUps.find((one) => one.formWords === '3 mol/L');
  const step = result.value?.steps.find((one) =>
    one.operations.some((each) => each.kind === 'charge' && each.supply.kind === 'make up' && each.supply.makeUp === makeUp?.id),
  );
  chooseStep(step?.id ?? '');
  fireEvent.click(await screen.findByRole('button', { name: 'how to make sodium hydroxide 3 mol/L' }));
  const wanted = Number.parseFloat(solutionDraft.value?.wanted ?? '');
  // To four digits, never less.
  const ratio = wanted / (makeUp?.millilitres?.value ?? Number.NaN);
  expect(ratio).toBeGreaterThanOrEqual(1);
  expect(ratio).toBeLessThan(1.001);
  solutionDraft.value = null;
  place.value = 'plan';
});
