import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { Ask } from '../../src/core/plan/ask.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { keepDraftsIn } from '../../src/renderer/state/kept-draft.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import {
  canRedo,
  canUndo,
  commitEdit,
  draft,
  editPlan,
  followPlan,
  keepMine,
  openNewestPlan,
  openPlanById,
  planLoad,
  redoPlan,
  saveAgain,
  saveState,
  saveTrouble,
  takeOther,
  undoPlan,
} from '../../src/renderer/state/plan-store.ts';
import { followRoute, openPlan } from '../../src/renderer/state/plan-route.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { type RealPort, realPort } from './real-port.ts';
import { until } from './until.ts';

let port: RealPort;

beforeEach(async () => {
  port = realPort();
  connectPort(port);
  expect(await openWorkbook()).toBe(true);
  await openNewestPlan();
  expect(planLoad.value).toEqual({ at: 'open' });
});
afterEach(() => {
  vi.useRealTimers();
  commitEdit();
});

/** The window's storage. */
function storage() {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  };
}

const rename = (name: string): void => editPlan('name', (ask) => ({ ...ask, name }));
const saves = (): number => port.calls.filter((call) => call.name === 'plans.save').length;
const settled = (): Promise<void> => until(() => expect(saveState.value).toBe('saved'));
const stored = async (): Promise<Ask> => (await port.book.must('plans.read', { id: openPlan.value?.id ?? 0 })).ask;

describe('saving', () => {
  test('typing is on screen at once and saved once, half a second after the last key', async () => {
    vi.useFakeTimers();
    for (const name of ['a', 'ab', 'abc']) {
      rename(name);
      expect(result.value?.name).toBe(name);
      vi.advanceTimersByTime(300);
    }
    expect(saves()).toBe(0);
    vi.advanceTimersByTime(300);
    vi.useRealTimers();
    await settled();
    expect(saves()).toBe(1);
    expect((await stored()).name).toBe('abc');
  });

  test('Enter or leaving the field saves at once; an edit that changed nothing is no state', async () => {
    rename('named');
    commitEdit();
    await settled();
    expect(saves()).toBe(1);
    const state = openPlan.value?.state;
    rename('other');
    rename('named');
    commitEdit();
    expect(canUndo.value).toBe(true);
    await settled();
    expect(saves()).toBe(1);
    expect(openPlan.value?.state).toBe(state);
  });

  test('edits made while a save is on its way are saved after it, in order', async () => {
    rename('one');
    commitEdit();
    rename('two');
    commitEdit();
    rename('three');
    commitEdit();
    await settled();
    expect((await stored()).name).toBe('three');
    expect(saves()).toBeLessThanOrEqual(3);
  });

  test('a failed save keeps what was typed, says why, and is saved when asked again', async () => {
    port.instead('plans.save', () => ({ ok: false, code: 'storage', detail: 'The disk is full.' }));
    rename('kept here');
    commitEdit();
    await until(() => expect(saveTrouble.value?.kind).toBe('failed'));
    expect(saveTrouble.value).toMatchObject({ words: expect.stringContaining('The disk is full.') });
    expect(saveState.value).toBe('not saved');
    expect(draft.value?.name).toBe('kept here');
    port.instead('plans.save', null);
    saveAgain();
    await settled();
    expect(saveTrouble.value).toBeNull();
    expect((await stored()).name).toBe('kept here');
  });
});

test('another plan is opened only when this one is saved', async () => {
  const first = openPlan.value?.id ?? 0;
  const other = await port.book.must('plans.create', {
    routeId: openPlan.value?.routeId ?? 0,
    ask: { name: 'other', draws: [] },
  });
  rename('one');
  commitEdit();
  rename('two');
  await openPlanById(other.id);
  expect(draft.value?.name).toBe('other');
  expect((await port.book.must('plans.read', { id: first })).ask.name).toBe('two');

  port.instead('plans.save', () => ({ ok: false, code: 'storage', detail: 'The disk is full.' }));
  rename('not saved');
  await openPlanById(first);
  expect(openPlan.value?.id).toBe(other.id);
  expect(draft.value?.name).toBe('not saved');
  port.instead('plans.save', null);
  saveAgain();
  await settled();
});

describe('undo and redo', () => {
  test('append the earlier and the later ask as new states', async () => {
    const before = draft.value?.name ?? '';
    rename('first');
    commitEdit();
    await settled();
    const state = openPlan.value?.state ?? 0;
    undoPlan();
    expect(draft.value?.name).toBe(before);
    await settled();
    expect(openPlan.value?.state).toBe(state + 1);
    expect((await stored()).name).toBe(before);
    expect(canRedo.value).toBe(true);
    redoPlan();
    await settled();
    expect(openPlan.value?.state).toBe(state + 2);
    expect((await stored()).name).toBe('first');
    expect(canRedo.value).toBe(false);
  });

  test('typing that is not saved yet is undone without a state', async () => {
    const before = draft.value;
    rename('half typed');
    undoPlan();
    expect(draft.value).toBe(before);
    await settled();
    expect(saves()).toBe(0);
  });

  test('a new edit ends what could be redone', async () => {
    rename('first');
    commitEdit();
    await settled();
    undoPlan();
    await settled();
    rename('second');
    commitEdit();
    await settled();
    expect(canRedo.value).toBe(false);
  });
});

describe('a reload before the save', () => {
  test('finds what was typed again and saves it; what is saved is not kept', async () => {
    const store = storage();
    const end = keepDraftsIn(store);
    port.instead('plans.save', () => ({ ok: false, code: 'storage', detail: 'The disk is full.' }));
    rename('typed before the crash');
    commitEdit();
    await until(() => expect(saveTrouble.value?.kind).toBe('failed'));
    end();
    // The window begins anew: nothing is known of the failure.
    saveTrouble.value = null;
    port.instead('plans.save', null);
    const after = keepDraftsIn(store);
    await openNewestPlan();
    expect(draft.value?.name).toBe('typed before the crash');
    await settled();
    expect((await stored()).name).toBe('typed before the crash');
    expect(store.kept.size).toBe(0);
    after();
  });

  test('leaves alone what cannot be read', async () => {
    const store = storage();
    const plan = openPlan.value;
    const typed = draft.value;
    for (const text of [JSON.stringify({ after: -1, ask: { ...typed, name: 'old' } }), '{', 'null', '{"after":1,"ask":3}']) {
      store.kept.set(`backweigh draft ${plan?.id}`, text);
      const end = keepDraftsIn(store);
      store.kept.set(`backweigh draft ${plan?.id}`, text);
      await openNewestPlan();
      expect(draft.value?.name).toBe(typed?.name);
      end();
    }
  });
});

describe('another window', () => {
  /** What another window does to the same plan. */
  async function changeElsewhere(name: string): Promise<void> {
    const now = await port.book.must('plans.read', { id: openPlan.value?.id ?? 0 });
    await port.book.must('plans.save', { id: now.id, after: now.state, ask: { ...now.ask, name }, words: 'elsewhere' });
  }

  test('its change is taken over while nothing is typed here, and can be undone', async () => {
    await changeElsewhere('from elsewhere');
    await followPlan();
    expect(draft.value?.name).toBe('from elsewhere');
    expect(canUndo.value).toBe(true);
  });

  test('a conflict keeps what was typed; "keep mine" saves it after the newest state', async () => {
    await changeElsewhere('from elsewhere');
    rename('mine');
    commitEdit();
    await until(() => expect(saveTrouble.value).toEqual({ kind: 'conflict' }));
    expect(draft.value?.name).toBe('mine');
    await keepMine();
    await settled();
    expect((await stored()).name).toBe('mine');
  });

  test('what was on its way when the window began anew is nobody else’s: what was typed after it goes on', async () => {
    const store = storage();
    const key = `backweigh draft ${openPlan.value?.id}`;
    const before = openPlan.value?.state ?? 0;
    port.instead('plans.save', () => ({ ok: false, code: 'storage', detail: '' }));
    rename('on its way');
    commitEdit();
    const sent = draft.value;
    rename('typed after it');
    commitEdit();
    await until(() => expect(saveTrouble.value?.kind).toBe('failed'));
    port.instead('plans.save', null);
    // It arrived, and the window began anew before its answer came.
    await changeElsewhere('on its way');
    saveTrouble.value = null;
    const after = keepDraftsIn(store);
    store.kept.set(key, JSON.stringify({ after: before, ask: draft.value, sent }));
    await openNewestPlan();
    expect(saveTrouble.value).toBeNull();
    expect(draft.value?.name).toBe('typed after it');
    await settled();
    expect((await stored()).name).toBe('typed after it');
    after();
  });

  test('a conflict that was not answered is asked again after a reload, with what was typed', async () => {
    const store = storage();
    const end = keepDraftsIn(store);
    await changeElsewhere('from elsewhere');
    rename('mine');
    commitEdit();
    await until(() => expect(saveTrouble.value).toEqual({ kind: 'conflict' }));
    end();
    // The window begins anew.
    saveTrouble.value = null;
    const after = keepDraftsIn(store);
    await openNewestPlan();
    expect(draft.value?.name).toBe('mine');
    expect(saveTrouble.value).toEqual({ kind: 'conflict' });
    expect((await stored()).name).toBe('from elsewhere');
    await keepMine();
    await settled();
    expect((await stored()).name).toBe('mine');
    expect(store.kept.size).toBe(0);
    after();
  });

  test('"take the other" shows it, and mine comes back by undo', async () => {
    await changeElsewhere('from elsewhere');
    rename('mine');
    commitEdit();
    await until(() => expect(saveTrouble.value).toEqual({ kind: 'conflict' }));
    await takeOther();
    expect(draft.value?.name).toBe('from elsewhere');
    undoPlan();
    await settled();
    expect((await stored()).name).toBe('mine');
  });
});

test('the route is edited while its plan is open: the plan goes by the new revision at once', async () => {
  const before = result.value?.steps[0]?.yield.value;
  const { route } = await port.book.must('routes.read', { id: 1 });
  const steps = route.steps.map((step) => ({ ...step, yieldPercent: 41 }));
  await port.book.must('routes.save', { id: 1, after: 1, text: JSON.stringify({ ...route, steps }) });
  await followRoute();
  expect(before).not.toBe(41);
  expect(result.value?.steps.map((step) => step.yield.value)).toContain(41);
});
