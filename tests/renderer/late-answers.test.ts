// Answers that come when what they were asked for is no longer on screen, and changes that are told between the two.
import { beforeEach, describe, expect, test } from 'vitest';
import { inOrder } from '../../src/renderer/state/in-order.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { commitLab, editLab, followLab } from '../../src/renderer/state/lab-store.ts';
import { beside, putBeside } from '../../src/renderer/state/merit-result.ts';
import { openRoute } from '../../src/renderer/state/open-route.ts';
import { planInput } from '../../src/renderer/state/plan-result.ts';
import { draft, openPlanById, planLoad, planOpened } from '../../src/renderer/state/plan-store.ts';
import { openPlan, readShelf, route, shelf } from '../../src/renderer/state/plan-route.ts';
import {
  changeStep,
  followOpenRoute,
  followPlanRoute,
  routeSaved,
  takeSavedRoute,
  undoRoute,
} from '../../src/renderer/state/route-edits.ts';
import { openRouteById } from '../../src/renderer/state/routes-store.ts';
import { openWorkbook, readToday, settings } from '../../src/renderer/state/workbook.ts';
import { hold } from './in-hand.ts';
import { type RealPort, realPort } from './real-port.ts';
import { until } from './until.ts';

let port: RealPort;
let second: number;

/** A second route, another plan of the first one, and the first plan on screen. */
beforeEach(async () => {
  port = realPort();
  connectPort(port);
  const { route } = await port.book.must('routes.read', { id: 1 });
  await port.book.must('routes.import', { text: JSON.stringify({ ...route, name: 'Another route' }) });
  const { ask } = await port.book.must('plans.read', { id: 1 });
  second = (await port.book.must('plans.create', { routeId: 1, ask: { ...ask, name: 'Another plan' } })).id;
  await openWorkbook();
  await openPlanById(1);
});

test('an answer that was overtaken by the next one is dropped', async () => {
  const inTurn = inOrder();
  const lets: ((word: string) => void)[] = [];
  const ask = (): Promise<string | null> => inTurn(new Promise<string>((done) => lets.push(done)));
  const [first, next, last] = [ask(), ask(), ask()];
  lets[1]?.('second');
  expect(await next).toBe('second');
  lets[0]?.('first');
  expect(await first).toBeNull();
  lets[2]?.('third');
  expect(await last).toBe('third');
});

describe('plans', () => {
  test('of two plans chosen one after the other the last is open, though the first is read later', async () => {
    const held = hold(port, 'plans.read');
    const one = openPlanById(second);
    await until(() => expect(held.count()).toBe(1));
    const other = openPlanById(1);
    await until(() => expect(held.count()).toBe(2));
    held.letGo(1);
    await until(() => expect(planLoad.value.at).toBe('open'));
    held.end();
    await Promise.all([one, other]);
    expect([openPlan.value?.id, draft.value?.name]).toEqual([1, (await port.book.must('plans.read', { id: 1 })).ask.name]);
  });

  test('what changes on the shelf while a plan is opened is looked at once it is open', async () => {
    const held = hold(port, 'shelf.snapshot');
    void openPlanById(second);
    await until(() => expect(held.count()).toBe(1));
    const { id } = shelf.value.bottles.find((one) => one.left > 1) ?? { id: '' };
    await port.book.must('shelf.change', { id, place: 'moved meanwhile' });
    // What the window does when it is told.
    const told = planOpened().then(readShelf);
    held.end();
    await told;
    expect(openPlan.value?.id).toBe(second);
    expect(shelf.value.bottles.find((one) => one.id === id)?.place).toBe('moved meanwhile');
  });

  test('the bottles as they were do not come over the bottles as they are', async () => {
    const held = hold(port, 'shelf.snapshot');
    const { id } = shelf.value.bottles.find((one) => one.left > 1) ?? { id: '' };
    const before = readShelf();
    await until(() => expect(held.count()).toBe(1));
    await port.book.must('shelf.change', { id, place: 'the new place' });
    const after = readShelf();
    await until(() => expect(held.count()).toBe(2));
    held.letGo(1);
    await after;
    held.end();
    await before;
    expect(shelf.value.bottles.find((one) => one.id === id)?.place).toBe('the new place');
  });

  test('a revision of the route read before an edit here is not gone by after it, whichever comes first', async () => {
    await openRouteById(1);
    const [step] = (await port.book.must('routes.read', { id: 1 })).route.steps;
    const set = (title: string) => changeStep(step?.id ?? '', 'name', (one) => ({ ...one, title }));
    const planned = (): string | undefined => route.value?.steps.find((one) => one.id === step?.id)?.title;
    set('First name');
    await routeSaved();
    const held = hold(port, 'routes.read');
    // Told of the first, it is read as it stands then; the next edit is typed before the answer is here.
    const told = followPlanRoute();
    await until(() => expect(held.count()).toBe(1));
    set('Second name');
    await routeSaved();
    const toldAgain = followPlanRoute();
    await until(() => expect(held.count()).toBe(2));
    held.letGo(1);
    await toldAgain;
    expect(planned()).toBe('Second name');
    held.end();
    await told;
    expect(planned()).toBe('Second name');
  });

  test('a revision of another window is gone by, though its bottles are read later than those of the next', async () => {
    const { route: own, revision } = await port.book.must('routes.read', { id: 1 });
    const save = (note: string, after: number) =>
      port.book.must('routes.save', { id: 1, after, text: JSON.stringify({ ...own, note }) });
    const held = hold(port, 'shelf.snapshot');
    await save('one', revision);
    const told = followPlanRoute();
    await until(() => expect(held.count()).toBe(1));
    await save('two', revision + 1);
    const toldAgain = followPlanRoute();
    await until(() => expect(held.count()).toBe(2));
    held.letGo(1);
    await toldAgain;
    held.end();
    await told;
    expect(route.value?.note).toBe('two');
  });

  test('a plan read late stands beside nothing when nothing was chosen meanwhile', async () => {
    const held = hold(port, 'plans.read');
    const chosen = putBeside(String(second));
    await until(() => expect(held.count()).toBe(1));
    await putBeside('none');
    held.end();
    await chosen;
    expect(beside.value).toEqual({ kind: 'none' });
  });
});

test('over midnight the plan goes by the new day', async () => {
  const before = planInput.value?.asOf;
  const { value } = (await port.book.call('program.about', {})) as { readonly value: object };
  port.instead('program.about', () => ({ ok: true, value: { ...value, today: '2031-01-01' } }));
  await readToday();
  expect([before === '2031-01-01', planInput.value?.asOf]).toEqual([false, '2031-01-01']);
});

describe('the laboratory’s list', () => {
  test('an edit begun while the last one is being kept is not taken back by its own echo', async () => {
    const reading = hold(port, 'settings.read');
    editLab({ strengthMatchPercent: 3 });
    const kept = commitLab('limits');
    await kept;
    const echo = followLab();
    await until(() => expect(reading.count()).toBe(1));
    editLab({ paper: 'Letter' });
    reading.end();
    await echo;
    expect(settings.value?.paper).toBe('Letter');
    await commitLab('paper');
    expect((await port.book.must('settings.read', {})).paper).toBe('Letter');
  });
});

describe('routes', () => {
  const title = (text: string): void => {
    const open = openRoute.value;
    const step = open.at === 'open' ? open.revision.route.steps[0]?.id : '';
    expect(changeStep(step ?? '', 'title', (one) => ({ ...one, title: text })).ok).toBe(true);
  };
  const stored = async (id: number) => (await port.book.must('routes.read', { id })).route.steps[0]?.title;

  test('edits made while another is saved, and another route already chosen, are saved too', async () => {
    await openRouteById(1);
    const held = hold(port, 'routes.save');
    title('first');
    await until(() => expect(held.count()).toBe(1));
    const other = openRouteById(2);
    title('second');
    title('third');
    held.letGo();
    await until(() => expect(held.count()).toBe(1));
    held.end();
    await other;
    expect(openRoute.value).toMatchObject({ at: 'open', id: 2 });
    expect(await stored(1)).toBe('third');
  });

  test('a route read before another window saved it is read again', async () => {
    const held = hold(port, 'routes.read');
    const opened = openRouteById(1);
    await until(() => expect(held.count()).toBe(1));
    const { route, revision } = await port.book.must('routes.read', { id: 1 });
    await port.book.must('routes.save', { id: 1, after: revision, text: JSON.stringify({ ...route, name: 'Renamed' }) });
    const followed = followOpenRoute();
    held.end();
    await Promise.all([opened, followed]);
    expect(openRoute.value).toMatchObject({ at: 'open', revision: { route: { name: 'Renamed' } } });
  });

  test('the saved route that is read late lends its undo to no other route', async () => {
    await openRouteById(1);
    title('never kept');
    await routeSaved();
    const held = hold(port, 'routes.read');
    const taken = takeSavedRoute();
    await until(() => expect(held.count()).toBe(1));
    const other = openRouteById(2);
    await until(() => expect(held.count()).toBe(2));
    held.end();
    await Promise.all([taken, other]);
    undoRoute();
    await routeSaved();
    expect(await stored(2)).not.toBe('never kept');
    expect((await port.book.must('routes.read', { id: 2 })).revision).toBe(1);
  });
});
