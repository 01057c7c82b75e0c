import { globSync, readFileSync } from 'node:fs';
import { act, cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { App } from '../../src/renderer/shell/app.tsx';
import { clockTime } from '../../src/renderer/parts/day-text.ts';
import { COMMANDS, commandListOpen } from '../../src/renderer/state/commands.ts';
import { connection, connectPort } from '../../src/renderer/state/connection.ts';
import { place } from '../../src/renderer/state/place.ts';
import { commitEdit, draft, openNewestPlan, saveState } from '../../src/renderer/state/plan-store.ts';
import { openWorkbook, planList } from '../../src/renderer/state/workbook.ts';
import { type RealPort, realPort } from './real-port.ts';

let port: RealPort;

beforeEach(() => {
  port = realPort();
  connectPort(port);
  place.value = 'plan';
  connection.value = 'open';
  // The test's DOM has no modal dialogs or popovers of its own.
  HTMLDialogElement.prototype.showModal = function showModal(this: HTMLDialogElement) {
    this.open = true;
  };
  HTMLElement.prototype.showPopover = () => {};
});
afterEach(() => {
  commitEdit();
  cleanup();
});

test('a workbook that cannot be opened says why, and opens when it is tried again', async () => {
  port.instead('routes.list', () => ({ ok: false, code: 'storage', detail: 'The data file is damaged.' }));
  await openWorkbook();
  render(<App />);
  expect(screen.getByText('The data file is damaged.')).toBeTruthy();
  port.instead('routes.list', null);
  fireEvent.click(screen.getByRole('button', { name: 'Try again' }));
  await waitFor(() => expect(screen.queryByText('The data file is damaged.')).toBeNull());
});

describe('with the ready example open', () => {
  beforeEach(async () => {
    await openWorkbook();
    await openNewestPlan();
  });

  test('the first look has three steps, is over when it was had, and can be asked for again', async () => {
    render(<App />);
    const look = () => screen.queryByRole('region', { name: 'First look' });
    expect(look()?.textContent).toMatch(/1 of 3This is a ready example\. At the right/);
    fireEvent.click(screen.getByRole('button', { name: 'Next' }));
    fireEvent.click(screen.getByRole('button', { name: 'Next' }));
    expect(look()?.textContent).toContain('3 of 3');
    fireEvent.click(screen.getByRole('button', { name: 'Done' }));
    expect(look()).toBeNull();
    await waitFor(() => expect(port.calls.some((one) => one.name === 'program.looked')).toBe(true));
    await openWorkbook();
    expect(look()).toBeNull();
    // Beside a plan of one's own it is no longer only an example that is looked at.
    planList.value = [...(planList.value ?? []), ...(planList.value ?? [])];
    act(() => COMMANDS.find((one) => one.name === 'look.show')?.do());
    expect(look()?.textContent).toMatch(/1 of 3At the right/);
    fireEvent.click(screen.getByRole('button', { name: 'Skip' }));
    expect(look()).toBeNull();
  });

  test('the bar marks the place and says the plan and its state in words', async () => {
    render(<App />);
    const places = within(screen.getByRole('navigation', { name: 'Places' }));
    expect(places.getAllByRole('link').map((link) => link.textContent)).toEqual(['Routes', 'Plan', 'Shelf', 'Buy', 'Bench']);
    expect(places.getByRole('link', { name: 'Plan' }).getAttribute('aria-current')).toBe('page');
    expect(screen.getByLabelText<HTMLInputElement>('Name of the plan').value).toBe('Spring practicals');
    expect(screen.getByText(/^· (revision \d+ · )?saved/)).toBeTruthy();
    fireEvent.click(places.getByRole('link', { name: 'Routes' }));
    await waitFor(() => expect(screen.getByRole('main').getAttribute('aria-label')).toBe('Routes'));
  });

  test('a plan is renamed in the bar; an emptied name is not taken', async () => {
    render(<App />);
    const name = screen.getByLabelText('Name of the plan');
    fireEvent.input(name, { target: { value: '' } });
    expect(draft.value?.name).toBe('Spring practicals');
    fireEvent.input(name, { target: { value: 'Autumn practicals' } });
    fireEvent.keyDown(name, { key: 'Enter' });
    await waitFor(() => expect(saveState.value).toBe('saved'));
    expect((await port.book.must('plans.list', {}))[0]?.name).toBe('Autumn practicals');
  });

  test('a failed save is told with what was typed still there, and saved again by its button', async () => {
    render(<App />);
    port.instead('plans.save', () => ({ ok: false, code: 'storage', detail: 'The disk is full.' }));
    const amount = screen.getByLabelText<HTMLInputElement>('Amount of benzil');
    fireEvent.input(amount, { target: { value: '3 g' } });
    fireEvent.keyDown(amount, { key: 'Enter' });
    await screen.findByText('The plan is not saved. The disk is full. What you typed is kept here.');
    expect(amount.value).toBe('3 g');
    port.instead('plans.save', null);
    fireEvent.click(screen.getByRole('button', { name: 'Save again' }));
    await waitFor(() => expect(screen.queryByText(/The plan is not saved/)).toBeNull());
  });

  test('a lost connection is told once, whatever else fails because of it', async () => {
    render(<App />);
    connection.value = 'lost';
    await screen.findByText(/does not answer/);
    expect(document.querySelectorAll('.banner:not(.first-look)')).toHaveLength(1);
    connection.value = 'open';
    await waitFor(() => expect(document.querySelectorAll('.banner:not(.first-look)')).toHaveLength(0));
  });

  test('the command list finds by words and does what is chosen', async () => {
    render(<App />);
    commandListOpen.value = true;
    const search = await screen.findByRole('combobox', { name: 'Type what you want to do' });
    fireEvent.input(search, { target: { value: 'shelf go' } });
    const options = within(await screen.findByRole('listbox', { name: 'Commands' })).getAllByRole('option');
    expect(options.map((option) => option.textContent)).toEqual(['Go to ShelfCtrl+3']);
    fireEvent.keyDown(search, { key: 'Enter' });
    expect(place.value).toBe('shelf');
  });
});

test('a time of day stands alone today, and with its day before', () => {
  const now = new Date('2027-02-25T12:00:00');
  expect(clockTime('2027-02-25T10:42:00', now)).toBe('10:42');
  expect(clockTime('2027-02-24T10:42:00', now)).toBe('24 Feb 2027, 10:42');
});

test('no place writes a date in a way of its own', () => {
  const files = globSync('src/renderer/**/*.{ts,tsx}');
  const own = files.filter((file) =>
    /toLocale(Date|Time)String|DateTimeFormat|new Date\([^)]*\)\.toLocale/.test(readFileSync(file, 'utf8')),
  );
  expect(files.length).toBeGreaterThan(100);
  expect(own).toEqual([]);
});
