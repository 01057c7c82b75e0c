import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { MakeUpPaper } from '../../src/core/paper/paper.ts';
import type { ProcedureInput } from '../../src/core/port/port.ts';
import { EMPTY_DRAFT, newBottle } from '../../src/renderer/places/shelf/new-bottle-draft.ts';
import { solutionDraft, solutionForCharge, solutionFrom } from '../../src/renderer/places/shelf/make-solution-draft.ts';
import { pages } from '../../src/renderer/places/shelf/make-solution-papers.tsx';
import { ShelfPlace } from '../../src/renderer/places/shelf/shelf-place.tsx';
import { PaperView } from '../../src/renderer/paper/paper-view.tsx';
import { closePanel, panel } from '../../src/renderer/places/shelf/shelf-store.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { reference, settings, today } from '../../src/renderer/state/workbook.ts';
import { REFERENCE, type RealPort, realPort } from './real-port.ts';

const SULFURIC = { name: 'sulfuric acid', cas: '7664-93-9', formula: 'H2SO4' };
const solution = (value: number) => ({ kind: 'solution', strength: { value, basis: '% w/w' } }) as const;

let port: RealPort;
let opened: string[] = [];
beforeEach(async () => {
  port = realPort();
  connectPort(port);
  reference.value = REFERENCE;
  today.value = '2027-02-25';
  settings.value = await port.book.must('settings.read', {});
  opened = [];
  pages.open = (address) => opened.push(address);
  newBottle.value = { draft: EMPTY_DRAFT, filled: {}, basis: null };
  solutionDraft.value = null;
  sessionStorage.clear();
});
afterEach(() => {
  cleanup();
  closePanel();
});

/** A bottle put on the real shelf, and its page opened. */
async function openBottle(more: Partial<ProcedureInput<'shelf.add'>> = {}): Promise<string> {
  const bottle = { material: SULFURIC, form: solution(98), amount: 900, unit: 'mL', lot: 'S-98', place: 'acids 2' } as const;
  const { id } = await port.book.must('shelf.add', { ...bottle, ...more });
  panel.value = { show: 'bottle', id };
  render(<ShelfPlace />);
  fireEvent.click(await screen.findByRole('button', { name: 'Make a solution from this' }));
  await screen.findByRole('heading', { level: 1, name: /^Make a solution of/ });
  return id;
}

const field = (name: string | RegExp): HTMLInputElement => screen.getByLabelText(name);
const type = (name: string | RegExp, text: string): boolean => fireEvent.input(field(name), { target: { value: text } });
const WANTED = 'how much of which strength';
const rows = (): readonly string[] =>
  [...document.querySelectorAll('.solution-order tbody tr')].map((row) => (row.textContent ?? '').replaceAll('\u00a0', ' '));
/** The amounts that are read aloud, in order. */
const amounts = (): readonly string[] =>
  [...document.querySelectorAll('.solution-order .amount .unseen')].map((one) => one.textContent ?? '');

describe('a solution from a bottle', () => {
  test('amounts, order, heat and hazards follow each keystroke', async () => {
    await openBottle();
    type(WANTED, '1 kg of 70 % w/w');
    await waitFor(() => expect(amounts().slice(0, 4)).toEqual(['286 g', '286 mL', '714 g', '389 mL']));
    const order = rows();
    expect(order[0]).toContain('water');
    expect(order[1]).toContain('acid into water, never the other way round');
    expect(order[1]).toContain('Boils: added at once it would reach 165 °C, estimated');
    expect(order[2]).toContain('sulfuric acid 98 % w/w');
    expect(order[2]).toContain('lot S-98 · acids 2');
    const heat = screen.getByRole('region', { name: 'Heat' });
    expect(heat.textContent).toContain('boils');
    expect(heat.textContent).toContain('Rests on figures from memory, a model.');
    expect(screen.getAllByText('H314')).toHaveLength(2);
    type(WANTED, '500 g of 70 % w/w');
    await waitFor(() => expect(amounts().slice(0, 4)).toEqual(['142.9 g', '143.1 mL', '357 g', '194.5 mL']));
  });

  test('what is wrong is said at its place, and nothing typed is lost', async () => {
    await openBottle();
    type(WANTED, '1 kg of 70 %');
    const problem = await screen.findByText(/a percentage needs its basis/);
    expect(field(WANTED).getAttribute('aria-describedby')).toContain(problem.closest('[id]')?.id);
    expect(field(WANTED).value).toBe('1 kg of 70 %');
    expect(rows()).toEqual([]);
    // While it is being typed, what is only not finished yet is no mistake.
    fireEvent.focusIn(field(WANTED));
    type(WANTED, '1 kg of ');
    await waitFor(() => expect(screen.queryByRole('alert')).toBeNull());
    fireEvent.focusOut(field(WANTED));
    await screen.findByRole('alert');
    type('everything is at, °C', 'warm');
    await screen.findByText('a temperature is expected here, such as 20');
  });

  test('a weaker bottle in the place of water; what it holds too little of is said', async () => {
    await port.book.must('shelf.add', { material: SULFURIC, form: solution(20), amount: 500, unit: 'mL', lot: 'S-20' });
    await openBottle();
    type(WANTED, '1 kg of 50 % w/w');
    const choice = screen.getByLabelText('thinned with');
    await waitFor(() => expect(choice.textContent).toContain('20 % w/w · lot S-20'));
    expect(choice.textContent).not.toContain('98 % w/w');
    const weaker = [...choice.querySelectorAll('option')].find((one) => one.textContent?.includes('S-20'))?.value;
    fireEvent.change(choice, { target: { value: weaker } });
    await waitFor(() => expect(amounts()[0]).toBe('615 g'));
    expect(rows()[0]).toContain('only 500 mL left in this bottle');
    type(WANTED, '1 kg of 10 % w/w');
    await waitFor(() => expect(screen.getByRole('alert').textContent).toContain('needs to be weaker than what is wanted'));
  });

  test('a hydrate: what the strength counts is asked, and changes the mass', async () => {
    const vitriol = { name: 'copper(II) sulfate pentahydrate', cas: '7758-99-8' };
    await openBottle({ material: vitriol, form: { kind: 'neat' }, amount: 500, unit: 'g' });
    type(WANTED, '100 g of 10 % w/w');
    await waitFor(() => expect(amounts()).toContain('15.64 g'));
    fireEvent.change(screen.getByLabelText('the strength counts'), { target: { value: 'as it is' } });
    await waitFor(() => expect(amounts()).toContain('10.00 g'));
  });

  test('one that is not on the shelf is typed', async () => {
    await openBottle();
    type(WANTED, '1 L of 1 mol/L');
    fireEvent.change(screen.getByLabelText('bottle'), { target: { value: 'typed' } });
    type('its strength, or neat', 'strong');
    await screen.findByText('a number is expected here, such as 25 or 0.2');
    type('its strength, or neat', '18 mol/L');
    await waitFor(() => expect(amounts()).toContain('55.6 mL'));
  });

  test('leaving and coming back finds each bottle’s own draft', () => {
    const bottle = (id: string) => ({ id, material: SULFURIC, form: solution(98) });
    const draft = () => solutionDraft.value ?? expect.fail('nothing is being made');
    solutionFrom(bottle('B1'));
    solutionDraft.value = { ...draft(), wanted: '1 kg of 70 % w/w' };
    solutionFrom(bottle('B2'));
    expect(draft().wanted).toBe('');
    solutionFrom(bottle('B1'));
    expect(draft().wanted).toBe('1 kg of 70 % w/w');
  });
});

describe('its paper', () => {
  test('is issued without a plan, as it stands on the screen, and comes back to it', async () => {
    await openBottle();
    type(WANTED, '250 mL of 3 mol/L');
    fireEvent.click(await screen.findByRole('button', { name: 'Issue' }));
    await waitFor(() => expect(opened).toHaveLength(1));
    const [issued] = await port.book.must('papers.list', { planId: null });
    expect(opened).toEqual([`./paper.html#paper=${issued?.id}`]);
    const { paper } = await port.book.must('papers.read', { id: issued?.id ?? 0 });
    const read = MakeUpPaper.parse(paper);
    expect(read.lines.map((line) => line.target.replaceAll('\u00a0', ' '))).toEqual(['219.68 g', '75.06 g', '', '']);
    cleanup();
    render(<PaperView paper={read} state={{ words: '', short: 'paper 1', id: 1, revision: 0, issued: '' }} />);
    const bodies = [...document.querySelectorAll('.operations > tbody')];
    expect(bodies.map((body) => body.querySelector('.number')?.textContent)).toEqual(['1', '2', '3', '4']);
    // The caution is a row of its operation's own body, right before it.
    const [caution, charge] = bodies[1]?.querySelectorAll(':scope > tr') ?? [];
    expect(caution?.textContent).toContain('Before 2: Add sulfuric acid slowly');
    expect(charge?.querySelectorAll('td.blank')).toHaveLength(4);
    expect(document.querySelector('.bottle-label')?.textContent).toContain('3 mol/L in water');
    expect(read.label).toMatchObject({ name: 'sulfuric acid', strength: '3 mol/L in water' });
    expect(solutionDraft.value?.wanted).toBe('250 mL of 3 mol/L');
  });

  test('a refusal is said, and nothing is lost', async () => {
    await openBottle();
    port.instead('papers.issue', () => ({ ok: false, code: 'storage', detail: 'The disk is full.' }));
    type(WANTED, '250 mL of 3 mol/L');
    fireEvent.click(await screen.findByRole('button', { name: 'Issue' }));
    await screen.findByText(/^Not issued\./);
    expect(opened).toEqual([]);
    expect(field(WANTED).value).toBe('250 mL of 3 mol/L');
  });

  test('the finished solution fills in a new bottle; nothing is recorded by itself', async () => {
    await openBottle();
    type(WANTED, '250 mL of 3 mol/L');
    const before = port.calls.filter((call) => call.name === 'shelf.add' || call.name === 'shelf.move').length;
    fireEvent.click(await screen.findByRole('button', { name: 'Put it on the shelf' }));
    await screen.findByRole('heading', { name: 'A new bottle' });
    expect(newBottle.value.draft).toMatchObject({
      name: 'sulfuric acid',
      kind: 'solution',
      strength: '3 mol/L',
      amount: '250 mL',
    });
    expect(port.calls.filter((call) => call.name === 'shelf.add' || call.name === 'shelf.move')).toHaveLength(before);
  });

  test('put on the shelf, what it was made from comes off its bottle in the same entry, unless it is said otherwise', async () => {
    const id = await openBottle();
    const leftOf = async (): Promise<number> => (await port.book.must('shelf.bottle', { id })).bottle.left;
    const made = async (off: boolean): Promise<void> => {
      type(WANTED, '250 mL of 3 mol/L');
      fireEvent.click(await screen.findByRole('button', { name: 'Put it on the shelf' }));
      await screen.findByRole('heading', { name: 'A new bottle' });
      const box = screen.getByRole<HTMLInputElement>('checkbox', { name: `take 40.88 mL off ${id} (sulfuric acid)` });
      expect(box.checked).toBe(true);
      if (!off) fireEvent.click(box);
      fireEvent.click(screen.getByRole('button', { name: 'Put it on the shelf' }));
      await screen.findByRole('heading', { name: /^sulfuric acid/ });
    };
    await made(true);
    // 0.75 mol × 98.08 g/mol ÷ 0.98 = 75.06 g; 1.8361 g/mL (Perry, 98 %, 20 °C): 40.88 mL.
    expect(await leftOf()).toBeCloseTo(900 - 40.88, 1);
    const ledger = (await port.book.must('shelf.bottle', { id })).ledger;
    expect(ledger.at(-1)).toMatchObject({ kind: 'used', reason: expect.stringMatching(/^made into B/) });
    const before = await leftOf();
    panel.value = { show: 'bottle', id };
    await screen.findByDisplayValue('S-98');
    fireEvent.click(await screen.findByRole('button', { name: 'Make a solution from this' }));
    await made(false);
    expect(await leftOf()).toBe(before);
  });

  test('a bottle that has too little for it stays as it is, and so does the shelf', async () => {
    const id = await openBottle({ amount: 10 });
    const bottle = { material: SULFURIC, form: solution(30), amount: 250, unit: 'mL' } as const;
    const refused = await port.book.call('shelf.add', { ...bottle, took: [{ id, amount: 40 }] });
    expect(refused).toMatchObject({ ok: false, code: 'refused' });
    const page = await port.book.must('shelf.list', { search: '30 %', from: 0, count: 10, sort: 'name' });
    expect(page.rows.filter((row) => row.left === 250)).toEqual([]);
    expect((await port.book.must('shelf.bottle', { id })).bottle.left).toBe(10);
  });
});

test('another strength for a charge: the same moles, what else changes, and the plain sentence', async () => {
  const form = { kind: 'solution', strength: { value: 68, basis: '% w/w' } } as const;
  const nitric = { name: 'nitric acid', cas: '7697-37-2', formula: 'HNO3' };
  const charge = { material: nitric, form, amount: '100 g', bottle: null, purpose: 'for step 2, Oxidation', planName: 'Spring' };
  solutionForCharge({ ...charge, mode: 'replace' });
  panel.value = { show: 'solution' };
  render(<ShelfPlace />);
  await screen.findByText('for step 2, Oxidation');
  expect(field('what is asked for').value).toBe('100 g of 68 % w/w');
  fireEvent.change(screen.getByLabelText('bottle'), { target: { value: 'typed' } });
  type('its strength, or neat', '65 % w/w');
  await waitFor(() => expect(amounts()).toContain('104.6 g'));
  expect(screen.getByText(/more water or other solvent$/).textContent).toContain('4.62 g');
  screen.getByText(/Equal moles of nitric acid do not mean equal behaviour/);
});
