import { effect } from '@preact/signals';
import { expect, test } from 'vitest';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { result } from '../../src/renderer/state/plan-result.ts';
import { shelf } from '../../src/renderer/state/plan-route.ts';
import { openNewestPlan } from '../../src/renderer/state/plan-store.ts';
import { addToRun, beginRun, runState, starting } from '../../src/renderer/state/run-store.ts';
import { who } from '../../src/renderer/state/who.ts';
import { openWorkbook } from '../../src/renderer/state/workbook.ts';
import { realPort } from './real-port.ts';

test('a product that was recorded stands on the shelf before anything is planned again from it', async () => {
  connectPort(realPort());
  await openWorkbook();
  await openNewestPlan();
  who.value = 'EK';
  starting.value = { step: result.value?.steps[0]?.id ?? '', batch: 1 };
  await beginRun();
  const seen: boolean[] = [];
  const end = effect(() => {
    const bottle = runState.value?.products[0]?.bottle;
    if (bottle) seen.push(shelf.value.bottles.some((one) => one.id === bottle));
  });
  const text = { text: '19.65 g', place: '', bottle: null };
  const made = await addToRun({ kind: 'product', by: 'EK', crop: 1, grams: 19.65, wet: false, assayPercent: null, ...text });
  end();
  expect(made).toMatchObject({ ok: true, bottle: expect.stringMatching(/./) });
  expect(seen).toEqual([true]);
});
