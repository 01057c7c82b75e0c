import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { act, cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { RoutesPlace } from '../../src/renderer/places/routes/routes-place.tsx';
import { commandFor } from '../../src/renderer/state/command.ts';
import { COMMANDS } from '../../src/renderer/state/commands.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { openRoute, routesSaid } from '../../src/renderer/state/open-route.ts';
import { place } from '../../src/renderer/state/place.ts';
import { editedRoute, followOpenRoute, forgetRouteEdits, routeSaved } from '../../src/renderer/state/route-edits.ts';
import { editedOperation, newStepAt, revisionsOpen } from '../../src/renderer/state/route-view.ts';
import { importPreview, importRoute, openRouteById, refusedFile } from '../../src/renderer/state/routes-store.ts';
import { openWorkbook, routeList } from '../../src/renderer/state/workbook.ts';
import { RESOURCES } from '../main/workbook-fixture.ts';
import { type RealPort, realPort } from './real-port.ts';

let port: RealPort;

beforeEach(async () => {
  port = realPort();
  connectPort(port);
  openRoute.value = { at: 'none' };
  refusedFile.value = null;
  importPreview.value = null;
  newStepAt.value = null;
  editedOperation.value = null;
  revisionsOpen.value = false;
  routesSaid.value = '';
  place.value = 'routes';
  forgetRouteEdits();
  await openWorkbook();
  await openRouteById(1);
  render(<RoutesPlace />);
  await screen.findByRole('heading', { name: 'Benzil for the practicals' });
});
afterEach(() => {
  cleanup();
  place.value = 'plan';
});

const demo = () => JSON.parse(readFileSync(join(RESOURCES, 'demo', 'practicals.route.json'), 'utf8'));
const file = (name: string, text: string) => ({ name, size: text.length, text: () => Promise.resolve(text) });
const field = (label: string | RegExp): HTMLInputElement =>
  screen.getAllByLabelText<HTMLInputElement>(label)[0] as HTMLInputElement;
const type = (element: HTMLInputElement, text: string): void => {
  fireEvent.input(element, { target: { value: text } });
  fireEvent.keyDown(element, { key: 'Enter' });
};
const key = (pressed: string, shiftKey = false): void => {
  const event = { key: pressed, ctrlKey: true, metaKey: false, shiftKey, altKey: false };
  act(() => commandFor(event, COMMANDS, false)?.do());
};
const stored = async (revision?: number) => {
  await routeSaved();
  const answer = await port.call('routes.read', revision === undefined ? { id: 1 } : { id: 1, revision });
  if (!answer.ok) throw new Error(answer.detail);
  return answer.value;
};

describe('a charge in one line', () => {
  const line = (): HTMLInputElement => field(/^Next charge of Oxidation/);

  test('Enter takes the first name that is found, arrow keys another; the next line starts empty', async () => {
    type(line(), 'tolu 2 mL/g');
    await waitFor(() => expect(line().value).toBe(''));
    expect(field('Ratio of toluene').value).toBe('2 mL/g');
    fireEvent.input(line(), { target: { value: 'ethyl 3 mL/g' } });
    fireEvent.keyDown(line(), { key: 'ArrowDown' });
    fireEvent.keyDown(line(), { key: 'Enter' });
    await waitFor(() => expect(line().value).toBe(''));
    const last = editedRoute()
      ?.steps.find((step) => step.basis === 'benzoin')
      ?.operations.at(-1);
    expect(last?.do === 'charge' && editedRoute()?.materials[last.material]?.name).toMatch(/^ethyl/i);
  });

  test('a formula that several materials share is asked about; the one that is chosen is taken', async () => {
    type(line(), 'C3H6O2 2 mL/g');
    expect(line().value).toBe('C3H6O2 2 mL/g');
    expect(
      screen.getByText(/C3H6O2 is the formula of methyl acetate, ethyl formate or propanoic acid/).closest('[role=alert]'),
    ).not.toBeNull();
    fireEvent.keyDown(line(), { key: 'ArrowDown' });
    fireEvent.click(screen.getAllByRole('option', { name: /propanoic acid/ })[0] as HTMLElement);
    fireEvent.keyDown(line(), { key: 'Enter' });
    await waitFor(() => expect(line().value).toBe(''));
    expect(field('Ratio of propanoic acid').value).toBe('2 mL/g');
  });

  test('an amount without a printed basis gives no ratio: the line stays, with what to do', () => {
    type(line(), 'toluene 20 mL');
    expect(line().value).toBe('toluene 20 mL');
    expect(screen.getByRole('alert').textContent).toContain('the basis needs its printed amount first');
  });

  test('what cannot be read stays as it was typed, with its place shown, and nothing is saved', async () => {
    type(line(), '68% nitric acid 35 mL');
    expect(line().value).toBe('68% nitric acid 35 mL');
    expect(screen.getByRole('alert').textContent).toContain('a percentage needs its basis');
    expect((await stored()).revision).toBe(1);
  });

  test('a half-typed line, and a refused entry, are still there after going to another place', () => {
    fireEvent.input(line(), { target: { value: 'nitric acid 35' } });
    fireEvent.click(screen.getByRole('button', { name: 'Edit nitric acid' }));
    type(field('Temperature'), 'rather warm');
    cleanup();
    render(<RoutesPlace />);
    expect(line().value).toBe('nitric acid 35');
    expect(field('Temperature').value).toBe('rather warm');
    fireEvent.keyDown(field('Temperature'), { key: 'Escape' });
    expect(field('Temperature').value).toBe('15 to 25 °C');
    fireEvent.input(line(), { target: { value: '' } });
  });

  test('a name alone is completed, and its amount follows', () => {
    type(line(), 'tolu');
    expect(line().value).toBe('toluene ');
  });
});

describe('undo and redo in Routes', () => {
  test('go along the edits, are said, and are saved as revisions', async () => {
    type(field(/^Next charge of Oxidation/), 'toluene 2 mL/g');
    await routeSaved();
    type(field('Ratio of toluene'), '3 mL/g');
    await routeSaved();
    key('z');
    await waitFor(() => expect(field('Ratio of toluene').value).toBe('2 mL/g'));
    key('z');
    await waitFor(() => expect(screen.queryByLabelText('Ratio of toluene')).toBeNull());
    await routeSaved();
    expect(routesSaid.value).toBe('Undone: charge of toluene. Saved as revision 5.');
    key('z', true);
    key('z', true);
    await waitFor(() => expect(field('Ratio of toluene').value).toBe('3 mL/g'));
    expect((await stored()).revision).toBe(7);
    expect((await stored()).route).toEqual((await stored(3)).route);
  });

  test('another route has edits of its own', async () => {
    type(field(/^Next charge of Oxidation/), 'toluene 2 mL/g');
    await routeSaved();
    await openRouteById(1);
    key('z');
    expect((await stored()).revision).toBe(2);
  });
});

describe('fields of an operation', () => {
  test('a window, a limit and a stage are typed; a refused one stays with its words', async () => {
    fireEvent.click(screen.getByRole('button', { name: 'Edit nitric acid' }));
    type(field('Temperature'), '5–0 °C');
    expect(field('Temperature').value).toBe('5–0 °C');
    expect(screen.getByRole('alert').textContent).toContain('needs to rise');
    type(field('Temperature'), '90 to 95 °C');
    type(field('Limit'), 'above 100 °C: take the bath away');
    await routeSaved();
    const acid = editedRoute()
      ?.steps.flatMap((step) => step.operations)
      .find((one) => one.do === 'charge' && one.material === 'nitric-acid');
    expect(acid).toMatchObject({ temperature: { from: 90, to: 95 }, limit: { celsius: 100, action: 'take the bath away' } });
    expect((await stored()).revision).toBe(3);
  });

  test('a hold is added, opened for its words, moved and taken out', async () => {
    const step = screen.getByRole('heading', { name: /^2 · Oxidation/ }).closest('section') as HTMLElement;
    const before = editedRoute();
    fireEvent.click(within(step).getByRole('button', { name: 'Add a hold' }));
    // What is typed replaces the words that stand there.
    const until = field('Hold until') as HTMLInputElement;
    expect(document.activeElement).toBe(until);
    expect([until.selectionStart, until.selectionEnd]).toEqual([0, until.value.length]);
    type(field('Hold until'), 'it is dry');
    await screen.findAllByText(/until it is dry/);
    fireEvent.click(screen.getByRole('button', { name: 'Earlier' }));
    fireEvent.click(screen.getByRole('button', { name: 'Take out' }));
    await waitFor(() => expect(editedRoute()).toEqual(before));
  });

  test('Alt and an arrow key move it, within its stage and over the border', () => {
    const order = (): readonly string[] =>
      (editedRoute()?.steps.find((step) => step.basis === 'benzoin')?.operations ?? []).map((one) => `${one.stage} ${one.id}`);
    const before = order();
    fireEvent.click(screen.getByRole('button', { name: 'Edit nitric acid' }));
    fireEvent.keyDown(field('Temperature'), { key: 'ArrowUp', altKey: true });
    expect(order().slice(0, 2)).toEqual([before[1], before[0]]);
    fireEvent.keyDown(field('Temperature'), { key: 'ArrowDown', altKey: true });
    expect(order()).toEqual(before);
  });

  test('the charge of the basis cannot be taken out: the reason is said', () => {
    fireEvent.click(screen.getAllByRole('button', { name: 'Edit benzoin' })[0] as HTMLElement);
    fireEvent.click(screen.getByRole('button', { name: 'Take out' }));
    expect(screen.getByRole('alert').textContent).toContain('basis');
  });
});

describe('steps', () => {
  test('what makes a bought material, and what uses the product', async () => {
    fireEvent.click(screen.getByRole('button', { name: 'Add what makes o-phenylenediamine' }));
    type(field('From (the basis), as printed'), '2-nitroaniline 13.8 g (0.1 mol)');
    await screen.findByRole('heading', { name: /O-phenylenediamine from 2-nitroaniline/ });
    expect(screen.getByText(/100 % yield \(not entered yet, counted as 100 %\)/)).toBeTruthy();
    fireEvent.click(screen.getByRole('button', { name: 'Add what 2,3-diphenylquinoxaline makes' }));
    type(field('It makes'), 'something new');
    type(field('2,3-diphenylquinoxaline, as printed'), '1.0 g');
    await screen.findByRole('heading', { name: /Something new from 2,3-diphenylquinoxaline/ });
    expect(editedRoute()?.steps).toHaveLength(6);
    expect((await stored()).revision).toBe(3);
  });

  test('a basis with an amount that cannot be read is no name with figures in it', () => {
    fireEvent.click(screen.getByRole('button', { name: 'Add what makes o-phenylenediamine' }));
    type(field('From (the basis), as printed'), '2-nitroaniline 13,800 g (0.1 mol)');
    expect(screen.getByRole('alert').textContent).toContain('decimal or thousands');
    expect(screen.queryByRole('heading', { name: /O-phenylenediamine from/ })).toBeNull();
    type(field('From (the basis), as printed'), '2-nitroaniline');
    expect(screen.getByRole('heading', { name: /O-phenylenediamine from 2-nitroaniline/ })).toBeTruthy();
  });

  test('an equation is typed in one line; what is not known is shown at its place', async () => {
    const step = screen.getByRole('heading', { name: /^1 · Benzoin/ }).closest('section') as HTMLElement;
    const fold = step.querySelector('details') as HTMLDetailsElement;
    fold.open = true;
    fireEvent(fold, new Event('toggle'));
    const equation = await within(step).findByLabelText<HTMLInputElement>('Equation, by names or formulas');
    expect(equation.value).toBe('2 benzaldehyde → benzoin');
    type(equation, '2 benzaldehyde → benzoin + unobtainium');
    expect(within(step).getByRole('alert').textContent).toContain('“unobtainium” is not a material known here');
    type(equation, '3 benzaldehyde → benzoin');
    await within(step).findByText(/does not balance/);
    fireEvent.click(within(step).getByRole('button', { name: 'Balance it: 2 benzaldehyde → benzoin' }));
    await waitFor(() => expect(within(step).queryByText(/does not balance/)).toBeNull());
    type(within(step).getByLabelText<HTMLInputElement>('Expected yield'), '60 / 50 / 70');
    expect(within(step).getByRole('alert').textContent).toContain('rise');
  });
});

describe('commands', () => {
  const run = (name: string): void => {
    const command = COMMANDS.find((one) => one.name === name);
    expect(command?.when()).toBe(true);
    act(() => command?.do());
  };

  test('the line, the equation, the revisions and a new route are each one command away', async () => {
    run('routes.line');
    await waitFor(() => expect(document.activeElement?.getAttribute('role')).toBe('combobox'));
    run('routes.equation');
    await waitFor(() => expect((document.activeElement as HTMLInputElement).value).toContain('→'));
    run('routes.revisions');
    await screen.findByRole('heading', { name: 'Revisions' });
    run('routes.new');
    await screen.findByRole('heading', { name: 'A new route' });
    fireEvent.keyDown(field('It makes'), { key: 'Escape' });
    await screen.findByRole('heading', { name: 'Benzil for the practicals' });
    run('routes.branch');
    await screen.findByRole('heading', { name: 'Benzil for the practicals (copy)' });
  });

  test('undo and redo are for the place the person is in', () => {
    type(field(/^Next charge of Oxidation/), 'toluene 2 mL/g');
    const keys = { key: 'z', ctrlKey: true, metaKey: false, shiftKey: false, altKey: false };
    expect(commandFor(keys, COMMANDS, false)?.name).toBe('routes.undo');
    place.value = 'shelf';
    expect(commandFor(keys, COMMANDS, false)).toBeUndefined();
  });
});

test('another window changes the open route: it is shown, and undo gives back what stood here', async () => {
  const { route } = await stored();
  await port.call('routes.save', { id: 1, after: 1, text: JSON.stringify({ ...route, note: 'theirs' }) });
  await followOpenRoute();
  await screen.findByText('theirs');
  key('z');
  await waitFor(() => expect(screen.queryByText('theirs')).toBeNull());
  expect((await stored()).revision).toBe(3);
});

describe('a save that fails', () => {
  test('another window was quicker: mine is kept after it, or theirs is opened and mine had back by undo', async () => {
    const { route } = await stored();
    await port.call('routes.save', { id: 1, after: 1, text: JSON.stringify({ ...route, note: 'theirs' }) });
    type(field(/^Next charge of Oxidation/), 'toluene 2 mL/g');
    await screen.findByText(/This route is not saved/);
    fireEvent.click(screen.getByRole('button', { name: 'Open the saved one' }));
    await screen.findByText('theirs');
    key('z');
    await waitFor(() => expect(field('Ratio of toluene').value).toBe('2 mL/g'));
    expect((await stored()).revision).toBe(3);
  });

  test('storage that fails once: saved again by hand, nothing lost', async () => {
    port.instead('routes.save', () => ({ ok: false, code: 'storage', detail: 'The disk is full.' }));
    type(field(/^Next charge of Oxidation/), 'toluene 2 mL/g');
    await screen.findByText(/This route is not saved/);
    port.instead('routes.save', null);
    fireEvent.click(screen.getByRole('button', { name: 'Save again' }));
    await waitFor(() => expect(screen.queryByText(/This route is not saved/)).toBeNull());
    expect((await stored()).revision).toBe(2);
  });
});

describe('import with a look first', () => {
  test('a file of a known name says what it would change; nothing is written until it is chosen', async () => {
    const changed = demo();
    changed.steps[0].yieldPercent = 40;
    changed.steps[0].equation.uses[0].coefficient = 3;
    await importRoute(file('mine.json', JSON.stringify(changed)));
    await screen.findByRole('heading', { name: 'mine.json is not taken in yet' });
    expect(screen.getByRole('row', { name: /Benzoin coupling Expected yield 35 \/ 55 \/ 70 % 40 %/ })).toBeTruthy();
    expect(screen.getByText(/Not balanced: Benzoin coupling \(7 C more on the left/)).toBeTruthy();
    expect((await stored()).revision).toBe(1);
    fireEvent.click(screen.getByRole('button', { name: 'Take it in as revision 2' }));
    await waitFor(async () => expect((await stored()).revision).toBe(2));
    expect(routeList.value).toHaveLength(1);
    key('z');
    await waitFor(() => expect(editedRoute()?.steps[0]?.yieldPercent).not.toBe(40));
  });

  test('the same file says that nothing differs, and can be left alone', async () => {
    await importRoute(file('mine.json', JSON.stringify(demo())));
    await screen.findByText(/nothing differs/);
    fireEvent.click(screen.getByRole('button', { name: 'Leave it' }));
    await screen.findByRole('heading', { name: 'Benzil for the practicals' });
    expect((await stored()).revision).toBe(1);
  });

  test('a new name comes in at once, and an unbalanced equation is said, not refused', async () => {
    const other = { ...demo(), name: 'Another' };
    other.steps[0].equation.uses[0].coefficient = 3;
    await importRoute(file('other.json', JSON.stringify(other)));
    expect(routesSaid.value).toContain('“Another” is taken in. Not balanced: Benzoin coupling');
  });
});

test('a printed amount that cannot be read is taken in as it stands, said, and marked at its field', async () => {
  const other = { ...demo(), name: 'Another' };
  const charge = other.steps[0].operations.find((one: { do: string }) => one.do === 'charge');
  charge.printed = '12 gg (0.1 mol)';
  await importRoute(file('other.json', JSON.stringify(other)));
  expect(routesSaid.value).toContain('“12 gg (0.1 mol)” cannot be read after “12”');
  await screen.findByRole('heading', { name: 'Another' });
  const printed = await screen.findByDisplayValue('12 gg (0.1 mol)');
  expect(printed.getAttribute('aria-invalid')).toBe('true');
  expect(document.getElementById(printed.getAttribute('aria-describedby') ?? '')?.textContent).toContain('12 gg');
});

test('a duplicate is a route of its own that names where it came from', async () => {
  fireEvent.click(screen.getByRole('button', { name: 'Duplicate' }));
  await screen.findByRole('heading', { name: 'Benzil for the practicals (copy)' });
  expect(editedRoute()?.note).toContain('Branched from “Benzil for the practicals”, revision 1.');
  expect(routeList.value).toHaveLength(2);
});

test('a material takes a pasted structure; one that does not fit its formula is refused with words', async () => {
  const fold = screen.getByText(/^Materials \(/).closest('details') as HTMLDetailsElement;
  fold.open = true;
  fireEvent(fold, new Event('toggle'));
  fireEvent.click(await screen.findByRole('button', { name: 'Edit the material benzil' }));
  const structure = field('Structure, SMILES or molfile');
  type(structure, 'CCO');
  await screen.findByText(/C2H6O|formula/);
  expect(structure.value).toBe('CCO');
  type(structure, 'O=C(c1ccccc1)C(=O)c1ccccc1');
  await waitFor(() => expect(editedRoute()?.materials['benzil']?.smiles).toBe('O=C(c1ccccc1)C(=O)c1ccccc1'));
  type(field('CAS number'), '64-17-5');
  expect(screen.getAllByRole('alert').some((one) => /ethanol/.test(one.textContent ?? ''))).toBe(true);
});
