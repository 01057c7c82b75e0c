// Late answers and second presses in the places: on the Bench, the Shelf, in Buy, and among a route's revisions.
import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { NEAT } from '../../src/core/matter/form.ts';
import { routeEditorWords } from '../../src/core/words/route-editor-words.ts';
import { batchKey, chosen, issuePaper, pages } from '../../src/renderer/places/bench/bench-store.ts';
import {
  editSession,
  keepSession,
  readSessions,
  saveNow,
  sessionDraft,
  sessions,
} from '../../src/renderer/places/bench/session-store.ts';
import { LineField } from '../../src/renderer/places/bench/weigh/line-field.tsx';
import { followBuying, packRows } from '../../src/renderer/places/buy/buy-store.ts';
import { Revisions } from '../../src/renderer/places/routes/revisions.tsx';
import { BottlePage } from '../../src/renderer/places/shelf/bottle-page.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { openRoute } from '../../src/renderer/state/open-route.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import { openNewestPlan } from '../../src/renderer/state/plan-store.ts';
import { route } from '../../src/renderer/state/plan-route.ts';
import { openRouteById } from '../../src/renderer/state/routes-store.ts';
import { routeSaved } from '../../src/renderer/state/route-edits.ts';
import { beginRun, followRuns, run, said, starting } from '../../src/renderer/state/run-store.ts';
import { who } from '../../src/renderer/state/who.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { hold } from './in-hand.ts';
import { type RealPort, realPort } from './real-port.ts';
import { until } from './until.ts';

let port: RealPort;

beforeEach(async () => {
  port = realPort();
  connectPort(port);
  await openWorkbook();
  await openNewestPlan();
  vi.spyOn(pages, 'open').mockImplementation(() => {});
});
afterEach(cleanup);

test('a paper whose button is pressed twice is kept once', async () => {
  const paper = { kind: 'fetch list', title: 'twice' } as never;
  await Promise.all([issuePaper(paper), issuePaper(paper)]);
  expect(port.calls.filter((one) => one.name === 'papers.issue')).toHaveLength(1);
});

test('a session kept by two presses is one; what is typed while it is kept, and while it is saved, is saved too', async () => {
  await readSessions();
  chosen.value = new Set([batchKey(result.value?.steps[0]?.id ?? '', 1)]);
  const creating = hold(port, 'sessions.create');
  const kept = [keepSession(), keepSession()];
  await until(() => expect(creating.count()).toBe(1));
  editSession({ name: 'typed meanwhile' });
  creating.end();
  await Promise.all(kept);
  expect(sessionDraft.value.name).toBe('typed meanwhile');
  const saving = hold(port, 'sessions.save');
  const first = saveNow();
  await until(() => expect(saving.count()).toBe(1));
  editSession({ name: 'and after' });
  const second = saveNow();
  saving.letGo();
  await until(() => expect(saving.count()).toBe(1));
  saving.end();
  await Promise.all([first, second]);
  const list = await port.book.must('sessions.list', { planId: 1 });
  expect(list.map((one) => one.session.name)).toEqual(['and after']);
  expect(sessions.value?.map((one) => one.session.name)).toEqual(['and after']);
});

test('Enter alone, straight after another window wrote, confirms nothing that nobody has seen', async () => {
  who.value = 'EK';
  starting.value = { step: result.value?.steps[0]?.id ?? '', batch: 1 };
  await beginRun();
  const { id = 0, entries = [] } = run.value ?? {};
  const { container } = render(<LineField />);
  const field = container.querySelector<HTMLInputElement>('.weigh-field') as HTMLInputElement;
  await port.book.must('runs.add', { id, after: entries.length, entry: { kind: 'paused', by: 'CD' } });
  await followRuns();
  await until(() => expect(run.value?.entries).toHaveLength(entries.length + 1));
  // Paused by the other window: Enter alone would go on.
  fireEvent.keyDown(field, { key: 'Enter' });
  await until(() => expect(said.value?.words).toContain('Another window wrote just now'));
  expect((await port.book.must('runs.read', { id })).entries).toHaveLength(entries.length + 1);
  await new Promise((done) => setTimeout(done, 750));
  fireEvent.keyDown(field, { key: 'Enter' });
  await until(() => expect(run.value?.entries.at(-1)?.entry.kind).toBe('resumed'));
});

test('packs of the route that was open before do not come over those of this one', async () => {
  const pack = { amount: 5, unit: 'g', form: NEAT, price: 1, supplier: 'North Ltd' } as const;
  await port.book.must('packs.add', { material: { name: 'benzil', cas: '134-81-6' }, pack });
  const held = hold(port, 'packs.list');
  const end = followBuying();
  await until(() => expect(held.count()).toBe(1));
  const before = route.value;
  route.value = before && { ...before, materials: { zz: { name: 'something else' } } };
  await until(() => expect(held.count()).toBe(2));
  held.letGo(1);
  await new Promise((done) => setTimeout(done));
  held.end();
  await new Promise((done) => setTimeout(done));
  expect(packRows.value).toEqual([]);
  end();
});

test('a revision that is read late is not put into the route that was opened meanwhile', async () => {
  const { route: first } = await port.book.must('routes.read', { id: 1 });
  await port.book.must('routes.import', { text: JSON.stringify({ ...first, name: 'Another route' }) });
  await port.book.must('routes.save', { id: 1, after: 1, text: JSON.stringify({ ...first, name: 'Renamed' }) });
  await openRouteById(1);
  const open = openRoute.value;
  if (open.at !== 'open') throw new Error('not open');
  render(<Revisions revision={open.revision} />);
  const restore = await screen.findByRole('button', { name: routeEditorWords.history.restore(1) });
  const held = hold(port, 'routes.read');
  fireEvent.click(restore);
  await until(() => expect(held.count()).toBe(1));
  const other = openRouteById(2);
  await until(() => expect(held.count()).toBe(2));
  held.letGo(1);
  await other;
  held.end();
  await new Promise((done) => setTimeout(done));
  await routeSaved();
  expect((await port.book.must('routes.read', { id: 2 })).route.name).toBe('Another route');
});

test('a bottle that is read late takes no keys from a field that somebody has gone to meanwhile', async () => {
  const search = document.body.appendChild(document.createElement('input'));
  const held = hold(port, 'shelf.bottle');
  render(<BottlePage id="B03" />);
  await until(() => expect(held.count()).toBe(1));
  search.focus();
  held.end();
  await screen.findByRole('heading', { level: 1, name: 'benzaldehyde' });
  expect(document.activeElement).toBe(search);
  search.remove();
});
