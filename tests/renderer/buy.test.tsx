import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Paper } from '../../src/core/paper/paper.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import { pages } from '../../src/renderer/places/bench/bench-store.ts';
import { Shortfalls } from '../../src/renderer/places/buy/buy-place.tsx';
import { PREVIEW } from '../../src/renderer/paper/open-paper.ts';
import { panel } from '../../src/renderer/places/shelf/shelf-store.ts';
import { place } from '../../src/renderer/state/place.ts';
import { reference, settings } from '../../src/renderer/state/workbook.ts';
import { DEMO } from '../core/paper-fixture.ts';
import { TABLES } from './shelf-tables.ts';

beforeEach(() => {
  reference.value = TABLES;
  settings.value = { paper: 'A4' } as never;
  sessionStorage.clear();
  vi.spyOn(pages, 'open').mockImplementation(() => {});
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

test('each short line says how much, why, and what it is for', () => {
  render(<Shortfalls result={DEMO} />);
  const [ethanol, benzaldehyde, ...more] = screen.getAllByRole('row').slice(1);
  expect(more).toEqual([]);
  expect(ethanol?.textContent).toContain('ethanol');
  expect(ethanol?.textContent).toContain('not enough on the shelf');
  expect(ethanol?.textContent).toContain('1 · Benzoin coupling');
  expect(benzaldehyde?.textContent).toContain('Lot B-08 past its date, 31 Oct 2026');
});

test('a lot leads to its bottle, a use to its step', () => {
  render(<Shortfalls result={DEMO} />);
  fireEvent.click(screen.getByText('Lot B-08'));
  expect(panel.value).toEqual({ show: 'bottle', id: 'bottle B-08' });
  expect(place.value).toBe('shelf');
  fireEvent.click(screen.getByText('2 · Oxidation to benzil'));
  expect(place.value).toBe('plan');
});

test('the list can be looked at as it would be printed', () => {
  render(<Shortfalls result={DEMO} />);
  fireEvent.click(screen.getByLabelText('Preview: Buying list'));
  const paper = Paper.parse(JSON.parse(sessionStorage.getItem(PREVIEW) ?? ''));
  expect(paper.kind === 'buying list' && paper.lines.map((line) => line.material)).toEqual(['ethanol', 'benzaldehyde']);
});

test('where nothing is short it says so', () => {
  const covered: PlanResult = { ...DEMO, fetch: DEMO.fetch.map((line) => ({ ...line, short: null })) };
  render(<Shortfalls result={covered} />);
  expect(screen.getByText('Nothing is short')).toBeTruthy();
});
