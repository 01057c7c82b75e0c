import { cleanup, fireEvent, render, screen, within } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { PlanPlace } from '../../src/renderer/places/plan/plan-place.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import { openNewestPlan } from '../../src/renderer/state/plan-store.ts';
import { chooseStep, openFetchLine } from '../../src/renderer/state/plan-view.ts';
import { solutionDraft } from '../../src/renderer/places/shelf/make-solution-draft.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { realPort } from './real-port.ts';

/** The ready example with 0.92 mL left of its lye, and pellets beside it: its 3 mol/L is made from both. */
beforeEach(async () => {
  const port = realPort();
  connectPort(port);
  const move = { id: 'B02', kind: 'used', change: -479.08, reason: '' } as const;
  expect((await port.call('shelf.move', move)).ok).toBe(true);
  const material = { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2', state: 'solid' } as const;
  const pellets = { material, form: { kind: 'neat', assayPercent: 98 }, amount: 1.2, unit: 'g', lot: '27-003' } as const;
  expect((await port.call('shelf.add', pellets)).ok).toBe(true);
  await openWorkbook();
  await openNewestPlan();
  chooseStep('');
  openFetchLine.value = null;
});
afterEach(cleanup);

test('a make-up from two bottles: what dilutes stands first, then each bottle with its lot', () => {
  render(<PlanPlace />);
  expect(result.value?.makeUps[0]?.parts).toHaveLength(2);
  fireEvent.click(screen.getByRole('button', { name: /^sodium hydroxide/ }));
  const names = screen.getAllByRole('term').map((one) => one.textContent);
  const water = names.indexOf('water');
  expect(names.slice(water, water + 4)).toEqual([
    'water',
    'take of 50 % w/w, lot 26-041',
    'take of assay 98 % w/w, lot 27-003',
    'gives',
  ]);
});

test('to make it here no single bottle is chosen for it, and why is said', () => {
  render(<PlanPlace />);
  fireEvent.click(within(screen.getByRole('article')).getByRole('button', { name: /sodium hydroxide 3 mol\/L/ }));
  expect(solutionDraft.value?.source).toBe('');
  expect(solutionDraft.value?.purpose).toContain('from 2 bottles together');
});
