// Weighing while answers are late and another window writes: what is asked, opened and held back.
import { beforeEach, describe, expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import { openNewestPlan } from '../../src/renderer/state/plan-store.ts';
import {
  addToRun,
  beginRun,
  followRuns,
  leaveRun,
  openRun,
  othersWrote,
  run,
  said,
  starting,
} from '../../src/renderer/state/run-store.ts';
import { commandFor } from '../../src/renderer/state/command.ts';
import { keyTooEarly, WEIGH_COMMANDS } from '../../src/renderer/state/weigh-commands.ts';
import { ask, asking, write } from '../../src/renderer/state/weigh-store.ts';
import { who } from '../../src/renderer/state/who.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { hold } from './in-hand.ts';
import { type RealPort, realPort } from './real-port.ts';
import { until } from './until.ts';

let port: RealPort;
let id: number;

const remark = (words: string, by = 'EK'): RunEntry => ({ kind: 'remark', by, words });
/** As another window writes. */
const elsewhere = (after: number): Promise<unknown> =>
  port.book.must('runs.add', { id, after, entry: remark('from elsewhere', 'CD') });

beforeEach(async () => {
  leaveRun();
  port = realPort();
  connectPort(port);
  await openWorkbook();
  await openNewestPlan();
  who.value = 'EK';
  starting.value = { step: result.value?.steps[0]?.id ?? '', batch: 1 };
  await beginRun();
  id = run.value?.id ?? 0;
  expect(run.value?.entries).toHaveLength(1);
});

describe('another window', () => {
  test('what this window is writing is not taken for another’s, whatever was being read meanwhile', async () => {
    const before = othersWrote.value;
    const adding = hold(port, 'runs.add');
    const reading = hold(port, 'runs.read');
    const added = addToRun(remark('own'));
    await until(() => expect(adding.count()).toBe(1));
    // Read when it is written, and told before this window knows.
    const followed = followRuns();
    reading.end();
    await followed;
    adding.end();
    await added;
    expect([run.value?.entries.length, othersWrote.value - before]).toEqual([2, 0]);
  });

  test('a reading that was begun before and answers in the middle of a write does not count it either', async () => {
    const before = othersWrote.value;
    port.instead('runs.read', async () => {
      // The write is in main by now, and its answer not here yet.
      await until(() => expect(adding.count()).toBe(1));
      return port.book.call('runs.read', { id });
    });
    const adding = hold(port, 'runs.add');
    const followed = followRuns();
    const added = addToRun(remark('own'));
    await followed;
    port.instead('runs.read', null);
    adding.end();
    await added;
    expect([run.value?.entries.length, othersWrote.value - before]).toEqual([2, 0]);
  });

  test('what it writes while this one is busy is shown, and counted, as soon as that is over', async () => {
    const before = othersWrote.value;
    const reading = hold(port, 'runs.read');
    const added = addToRun(remark('own'));
    // This window has read its own entry, and the answer is on its way.
    await until(() => expect(reading.count()).toBe(1));
    await elsewhere(2);
    await followRuns();
    reading.end();
    await added;
    await until(() => expect(run.value?.entries).toHaveLength(3));
    expect(othersWrote.value - before).toBe(1);
  });
});

test('what is asked for while an entry is written stays asked when it is written', async () => {
  const adding = hold(port, 'runs.add');
  const written = write(remark('first'));
  await until(() => expect(adding.count()).toBe(1));
  ask({ for: 'remark' });
  adding.end();
  await written;
  expect(asking.value).toEqual({ for: 'remark' });
});

test('a record that was changed outside takes no entry, and no key is offered for one', () => {
  const offered = (): readonly string[] => WEIGH_COMMANDS.filter((one) => one.when()).map(({ name }) => name);
  expect(offered()).toContain('weigh.pause');
  run.value = { ...(run.value ?? expect.fail()), broken: 1 };
  expect(offered()).toEqual(['weigh.who', 'weigh.leave']);
});

describe('a key pressed while an entry is written', () => {
  const press = (key: string): boolean => {
    const event = { key, ctrlKey: false, metaKey: false, shiftKey: false, altKey: false };
    const command = commandFor(event, WEIGH_COMMANDS, true);
    command?.do();
    return command !== undefined || keyTooEarly(event);
  };
  const kinds = (): readonly string[] => (run.value?.entries ?? []).map(({ entry }) => entry.kind);

  test('for a pause is told when it is written: nobody goes away from a run that is not paused', async () => {
    const adding = hold(port, 'runs.add');
    const written = write(remark('first'));
    await until(() => expect(adding.count()).toBe(1));
    expect(press('F9')).toBe(true);
    adding.end();
    await written;
    expect(kinds().slice(1)).toEqual(['remark']);
    expect(said.value).toMatchObject({ tone: 'wrong' });
    expect(said.value?.words).toContain('F9 came while an entry was being written');
    // Pressed again it does what it says, and is told of no more.
    press('F9');
    await until(() => expect(kinds().at(-1)).toBe('paused'));
    expect(said.value?.words ?? '').not.toContain('F9');
  });

  test('for what the balance is about to show is told as well: it is no part of the charge yet', async () => {
    const adding = hold(port, 'runs.add');
    const written = write(remark('first'));
    await until(() => expect(adding.count()).toBe(1));
    expect(press('F4')).toBe(true);
    adding.end();
    await written;
    expect(said.value?.words).toContain('F4 came while an entry was being written');
    expect(kinds()).not.toContain('charged');
  });

  test('is nothing to tell where nothing is being written', async () => {
    expect(press('F4')).toBe(false);
    await write(remark('first'));
    expect(said.value?.tone).toBe('done');
  });
});

test('a run whose record is read late is not opened when weighing was left meanwhile, nor over another', async () => {
  leaveRun();
  const reading = hold(port, 'runs.read');
  const opened = openRun(id);
  await until(() => expect(reading.count()).toBe(1));
  leaveRun();
  reading.end();
  await opened;
  expect(run.value).toBeNull();
});
