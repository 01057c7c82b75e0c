import { expect, test } from 'vitest';
import { openBook } from './workbook-fixture.ts';

test('the first start opens the ready example', async () => {
  const { must } = openBook();
  const [route] = await must('routes.list', {});
  const [plan] = await must('plans.list', {});
  expect(route).toMatchObject({ id: 1, revision: 1 });
  expect(plan).toMatchObject({ id: 1, routeId: 1 });
  const { ask, routeRevision, state, revision } = await must('plans.read', { id: 1 });
  expect([routeRevision, state, revision]).toEqual([1, 1, 0]);
  const { route: whole } = await must('routes.read', { id: 1 });
  for (const { material } of ask.draws) expect(whole.materials).toHaveProperty(material);
  const shelf = await must('shelf.list', { search: '', from: 0, count: 500, sort: 'name' });
  expect(shelf.total).toBeGreaterThan(10);
  for (const { id, left } of shelf.rows) {
    const { ledger } = await must('shelf.bottle', { id });
    expect(ledger.map((line) => [line.kind, line.change])).toEqual(left === 0 ? [] : [['received', left]]);
  }
});

test('a plan is saved state by state, and an edit of an older state is a conflict', async () => {
  const { call, must } = openBook();
  const { ask } = await must('plans.read', { id: 1 });
  const renamed = { ...ask, name: 'Autumn practicals' };
  expect(await must('plans.save', { id: 1, after: 1, ask: renamed, words: 'name' })).toMatchObject({ state: 2 });
  expect(await call('plans.save', { id: 1, after: 1, ask, words: 'draw' })).toMatchObject({
    ok: false,
    code: 'conflict',
    detail: 'The plan has been changed meanwhile: its newest state is 2.',
  });
  expect(await must('plans.read', { id: 1 })).toMatchObject({ state: 2, revision: 0, ask: renamed });
  expect((await must('plans.states', { id: 1 })).map(({ state, words }) => [state, words])).toEqual([
    [2, 'name'],
    [1, 'Plan made'],
  ]);
  expect((await must('plans.list', {}))[0]?.name).toBe('Autumn practicals');
});

test('a revision gets its number when something is printed: one for each state, counted from 1', async () => {
  const { must } = openBook();
  const { ask } = await must('plans.read', { id: 1 });
  for (const after of [1, 2, 3]) await must('plans.save', { id: 1, after, ask, words: 'draw' });
  const issue = async (state: number) =>
    (await must('papers.issue', { planId: 1, state, kind: 'weighing', title: 'Sheet', paper: { state } })).revision;
  expect([await issue(2), await issue(4), await issue(2), await issue(1)]).toEqual([1, 2, 1, 3]);
  expect((await must('plans.read', { id: 1 })).revision).toBe(3);
});

test('an issued paper is kept exactly as it was', async () => {
  const { must, told } = openBook();
  const paper = { rows: [{ target: 9.96, low: null, text: 'µ ≥ “ü” 🜍' }], deep: { a: [[], {}, 0, -0.1, 1e-9] } };
  const { id, revision } = await must('papers.issue', { planId: 1, state: 1, kind: 'weighing', title: 'Sheet 2-1', paper });
  expect(await must('papers.read', { id })).toMatchObject({ id, revision, kind: 'weighing', title: 'Sheet 2-1', paper });
  expect(await must('papers.list', { planId: 1 })).toHaveLength(1);
  expect(told).toEqual(['plans']);
});

test('a listed paper says when the plan was changed since it was issued; undone, or only renamed, it is current again', async () => {
  const { must } = openBook();
  const { ask } = await must('plans.read', { id: 1 });
  await must('papers.issue', { planId: 1, state: 1, kind: 'weighing', title: 'Sheet', paper: {} });
  const earlier = async () => (await must('papers.list', { planId: 1 })).map((one) => one.earlier);
  expect(await earlier()).toEqual([false]);
  const draws = ask.draws.map((draw) => ({ ...draw, amount: draw.amount * 2 }));
  await must('plans.save', { id: 1, after: 1, ask: { ...ask, draws }, words: 'more' });
  expect(await earlier()).toEqual([true]);
  await must('papers.issue', { planId: 1, state: 2, kind: 'weighing', title: 'Sheet', paper: {} });
  expect(await earlier()).toEqual([false, true]);
  await must('plans.save', { id: 1, after: 2, ask: { ...ask, name: 'renamed' }, words: 'undo' });
  expect(await earlier()).toEqual([true, false]);
});

test('a paper may belong to no plan', async () => {
  const { must, call } = openBook();
  const paper = { solution: 'hydrochloric acid 3 mol/L' };
  const { id, revision } = await must('papers.issue', { planId: null, state: null, kind: 'make-up', title: 'Make-up', paper });
  expect(await must('papers.read', { id })).toMatchObject({ id, revision: 0, paper });
  expect(revision).toBe(0);
  expect((await must('papers.list', { planId: null })).map((one) => one.id)).toEqual([id]);
  expect(await must('papers.list', { planId: 1 })).toEqual([]);
  expect((await must('papers.pdf', { id })).name).toBe('Make-up.pdf');
  const half = await call('papers.issue', { planId: null, state: 1, kind: 'make-up', title: 'Make-up', paper });
  expect(half).toMatchObject({ ok: false, code: 'invalid input' });
});

test('the name of a PDF holds nothing a file system minds', async () => {
  const { must } = openBook();
  const { id } = await must('papers.issue', { planId: 1, state: 1, kind: 'k', title: '../a\\b:c*"<é>| 2', paper: {} });
  expect((await must('papers.pdf', { id })).name).toBe('a b c é 2, revision 1.pdf');
});

test('a route file comes in as a route of its own, and goes out as it is', async () => {
  const { must, told } = openBook();
  const { text } = await must('routes.export', { id: 1 });
  const { id } = await must('routes.import', { text });
  expect(id).toBe(2);
  expect((await must('routes.export', { id })).text).toBe(text);
  const { ask } = await must('plans.read', { id: 1 });
  expect(await must('plans.create', { routeId: id, ask })).toMatchObject({ id: 2, routeId: 2, routeRevision: 1, state: 1 });
  expect(told).toEqual(['routes', 'plans']);
});

test('revisions of a route are listed, and each is read as it was', async () => {
  const { must } = openBook();
  const { route } = await must('routes.read', { id: 1 });
  const renamed = { ...route, name: 'Another name' };
  await must('routes.save', { id: 1, after: 1, text: JSON.stringify(renamed) });
  const revisions = await must('routes.revisions', { id: 1 });
  expect(revisions.map((one) => [one.revision, one.name, one.steps])).toEqual([
    [2, 'Another name', route.steps.length],
    [1, route.name, route.steps.length],
  ]);
  expect((await must('routes.read', { id: 1, revision: 1 })).route).toEqual(route);
  expect((await must('routes.read', { id: 1 })).route.name).toBe('Another name');
});

test('a route file is looked at before it comes in: what it is, and the route of its name; nothing is written', async () => {
  const { must, told } = openBook();
  const { text } = await must('routes.export', { id: 1 });
  const { route } = await must('routes.read', { id: 1 });
  expect(await must('routes.preview', { text })).toEqual({ route, same: { id: 1, revision: 1, route } });
  const other = JSON.stringify({ ...route, name: 'Nobody has this name' });
  expect((await must('routes.preview', { text: other })).same).toBeNull();
  expect(told).toEqual([]);
  expect(await must('routes.list', {})).toHaveLength(1);
});

test('a wrong route file is refused with every place, and nothing is written', async () => {
  const { call, must, told } = openBook();
  const { route } = await must('routes.read', { id: 1 });
  const wrong = { ...route, steps: route.steps.map((step) => ({ ...step, basis: 'nothing', product: 'nowhere' })) };
  const refused = await call('routes.import', { text: JSON.stringify(wrong) });
  expect(refused).toMatchObject({ ok: false, code: 'refused' });
  expect(refused.ok ? [] : refused.problems?.map((problem) => problem.at)).toContain('/steps/0/basis');
  expect(await must('routes.list', {})).toHaveLength(1);
  expect(told).toEqual([]);
});

test('settings are kept whole', async () => {
  const { must, told } = openBook();
  const settings = await must('settings.read', {});
  await must('settings.save', { settings: { ...settings, paper: 'Letter' } });
  expect(await must('settings.read', {})).toEqual({ ...settings, paper: 'Letter' });
  expect(told).toEqual(['settings']);
});

test.each([
  ['routes.read', { id: 9 }, 'There is no route with the number 9.'],
  ['routes.read', { id: 1, revision: 9 }, 'The route with the number 1 has no revision 9.'],
  ['routes.revisions', { id: 9 }, 'There is no route with the number 9.'],
  ['plans.read', { id: 9 }, 'There is no plan with the number 9.'],
  ['plans.states', { id: 9 }, 'There is no plan with the number 9.'],
  ['papers.read', { id: 9 }, 'There is no issued paper with the number 9.'],
  ['papers.list', { planId: 9 }, 'There is no plan with the number 9.'],
  ['papers.pdf', { id: 9 }, 'There is no issued paper with the number 9.'],
  ['shelf.bottle', { id: 'B-9999' }, 'There is no bottle B-9999 on the shelf.'],
] as const)('%s of something that is not there says so', async (name, input, detail) => {
  const { call } = openBook();
  expect(await call(name, input as never)).toEqual({ ok: false, code: 'not found', detail });
});
