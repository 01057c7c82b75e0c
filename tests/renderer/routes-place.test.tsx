import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { RoutesPlace } from '../../src/renderer/places/routes/routes-place.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { place } from '../../src/renderer/state/place.ts';
import { draft } from '../../src/renderer/state/plan-store.ts';
import { openPlan } from '../../src/renderer/state/plan-route.ts';
import { openRoute, routesSaid } from '../../src/renderer/state/open-route.ts';
import { importRoute, refusedFile } from '../../src/renderer/state/routes-store.ts';
import { openWorkbook, planList, readPlans, routeList } from '../../src/renderer/state/workbook.ts';
import { RESOURCES } from '../main/workbook-fixture.ts';
import { type RealPort, realPort } from './real-port.ts';

let port: RealPort;

beforeEach(async () => {
  port = realPort();
  connectPort(port);
  openRoute.value = { at: 'none' };
  refusedFile.value = null;
  routesSaid.value = '';
  await openWorkbook();
});
afterEach(cleanup);

const file = (name: string, text: string) => ({ name, size: text.length, text: () => Promise.resolve(text) });
const demo = (): string => readFileSync(join(RESOURCES, 'demo', 'practicals.route.json'), 'utf8');

test('a route is read as a procedure: cautions before their operation, holds, limits, sources', async () => {
  render(<RoutesPlace />);
  await screen.findByRole('heading', { name: 'Benzil for the practicals' });
  const step = screen.getByRole('heading', { name: /^2 · Oxidation to benzil/ }).closest('section') as HTMLElement;
  const acid = within(step)
    .getByRole('rowheader', { name: /^nitric acid 68 % w\/w/ })
    .closest('tr');
  expect(within(acid as HTMLElement).getByLabelText<HTMLInputElement>('Ratio of nitric acid').value).toBe('4 mL/g');
  expect(acid?.previousElementSibling?.textContent).toContain('No ethanol, acetone or other organic liquid');
  expect(within(step).getByText(/until no brown gas is left above the liquid/)).toBeTruthy();
  expect(within(step).getByText(/Limit: never above 100 °C/)).toBeTruthy();
});

test('steps are numbered as a plan numbers them, whatever their order in the file', async () => {
  render(<RoutesPlace />);
  const turned = JSON.parse(demo());
  turned.name = 'Turned round';
  turned.steps.reverse();
  await importRoute(file('turned.json', JSON.stringify(turned)));
  await screen.findByRole('heading', { name: 'Turned round' });
  const heads = screen.getAllByRole('heading', { level: 2 }).map((head) => head.textContent?.trim() ?? '');
  const steps = heads.filter((text) => /^\d · /.test(text));
  expect(steps[0]).toMatch(/^1 · Benzoin coupling/);
  expect(steps[1]).toMatch(/^2 · Oxidation to benzil/);
  expect(steps).toHaveLength(4);
});

test('a step whose product is classed as explosive says at its place that it is not scaled', async () => {
  render(<RoutesPlace />);
  const named = JSON.parse(demo());
  named.name = 'Named anew';
  named.materials[named.steps[1].product] = { name: 'picric acid' };
  await importRoute(file('named.json', JSON.stringify(named)));
  await screen.findByRole('heading', { name: 'Named anew' });
  await screen.findByText(/makes picric acid, which is classed as explosive.*No amounts are worked out for this step/);
});

const enter = (label: string, text: string): void => {
  const field = screen.getAllByLabelText<HTMLInputElement>(label)[0] as HTMLInputElement;
  fireEvent.input(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
};
const value = (label: string): string | undefined => screen.getAllByLabelText<HTMLInputElement>(label)[0]?.value;

test('amounts typed as published set the ratios, a ratio typed writes the print, and what does not agree is told', async () => {
  render(<RoutesPlace />);
  await screen.findByRole('heading', { name: 'Benzil for the practicals' });
  enter('benzaldehyde as published', '10.6 g (0.10 mol)');
  enter('thiamine hydrochloride as published', '1.7 g (0.0050 mol)');
  await waitFor(() => expect(value('Ratio of thiamine hydrochloride')).toBe('0.05046 equiv'));
  await waitFor(() => expect(screen.getByText('Saved as revision 3.')).toBeTruthy());
  enter('Ratio of thiamine hydrochloride', '10 mol %');
  await waitFor(() => expect(value('thiamine hydrochloride as published')).toMatch(/^3\.36\d+ g \(0\.00998832 mol\)$/));
  expect(screen.queryByText(/print says/)).toBeNull();
  enter('thiamine hydrochloride as published', '1.7 g (0.0060 mol)');
  await screen.findByText(/thiamine hydrochloride: the print says 6 mmol/);
  enter('Product as published', '5.0–5.5 g');
  // The step's own range was entered: it stays, and what the print comes to is told beside it.
  await screen.findByText(/comes to a yield of 47\.\d+ \/ 49\.\d+ \/ 51\.\d+ %; the expected yield stays as entered/);
  fireEvent.input(screen.getByLabelText('benzaldehyde as published'), { target: { value: '10.6 x' } });
  expect(screen.getByRole('alert').textContent).toContain('is not a unit known here');
  await waitFor(async () => {
    const stored = await port.call('routes.read', { id: 1 });
    expect(stored.ok && stored.value.revision).toBe(6);
  });
});

test('a refused file lists every problem with its place, and nothing is taken in', async () => {
  render(<RoutesPlace />);
  const broken = JSON.parse(demo());
  broken.steps[0].yieldPercent = 120;
  broken.steps[1].basis = 'no-such-material';
  broken.materials.benzil.cas = 'x';
  await importRoute(file('mine.json', JSON.stringify(broken)));
  const table = within(await screen.findByRole('alert')).getByRole('table');
  const rows = within(table).getAllByRole('row').slice(1);
  expect(rows.length).toBeGreaterThanOrEqual(2);
  expect(rows.every((row) => row.textContent?.includes('/'))).toBe(true);
  expect(routeList.value).toHaveLength(1);
  fireEvent.click(screen.getByRole('button', { name: 'Close' }));
  await waitFor(() => expect(screen.queryByRole('alert')).toBeNull());
});

test('a file that is no JSON is refused as a whole', async () => {
  await importRoute(file('notes.txt', 'hello'));
  expect(refusedFile.value?.problems.length).toBeGreaterThan(0);
});

test('a good file is taken in, opened and said', async () => {
  render(<RoutesPlace />);
  const other = { ...JSON.parse(demo()), name: 'Another route' };
  await importRoute(file('other.json', JSON.stringify(other)));
  await screen.findByRole('heading', { name: 'Another route' });
  expect(screen.getByRole('status').textContent).toBe('“Another route” is taken in.');
  expect(routeList.value).toHaveLength(2);
});

test('planning a route makes a plan of its last product under a free name, and goes there', async () => {
  render(<RoutesPlace />);
  fireEvent.click(await screen.findByRole('button', { name: 'Plan this route' }));
  await waitFor(() => expect(place.value).toBe('plan'));
  await waitFor(() => expect(draft.value?.name).toBe('Benzil for the practicals'));
  expect(draft.value?.draws).toMatchObject([{ material: 'diphenylquinoxaline', unit: 'g' }]);
  await readPlans();
  expect(planList.value).toHaveLength(2);
  const first = openPlan.value?.id;
  fireEvent.click(screen.getByRole('button', { name: 'Plan this route' }));
  await waitFor(() => expect(openPlan.value?.id).not.toBe(first));
  expect(draft.value?.name).toBe('Benzil for the practicals 2');
});

test('an empty list says what to do next', () => {
  routeList.value = [];
  render(<RoutesPlace />);
  expect(screen.getByText('There is no route yet')).toBeTruthy();
  expect(screen.getByRole('button', { name: 'Import a route file' })).toBeTruthy();
});
