import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { drawn, millisecondsOf, threadTimes } from './thread-time.ts';
import { type Opened, openProgram } from './window.ts';

// Sixty steps of seven operations: typing must not wait for what did not change. Measured in processor time of the
// window's own thread, so that a busy machine counts little, and beside the same keystroke in a route of four steps.

const STEPS = 60;
let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

function longRoute(): string {
  const made = Object.fromEntries(
    Array.from({ length: STEPS + 1 }, (_, at) => [`m${at}`, { name: `intermediate ${at}`, formula: `C${10 + at}H${12 + at}O2` }]),
  );
  const materials = {
    ...made,
    ethanol: { name: 'ethanol', cas: '64-17-5' },
    toluene: { name: 'toluene', cas: '108-88-3' },
  };
  const charge = (id: string, material: string, rule: object): object => ({
    do: 'charge',
    id,
    stage: 'reaction',
    material,
    rule,
  });
  const steps = Array.from({ length: STEPS }, (_, at) => ({
    id: `s${at}`,
    title: `Step number ${at + 1}`,
    basis: `m${at}`,
    product: `m${at + 1}`,
    yieldPercent: 90,
    equation: { uses: [{ material: `m${at}`, coefficient: 1 }], makes: [{ material: `m${at + 1}`, coefficient: 1 }] },
    operations: [
      charge('c1', `m${at}`, { kind: 'basis' }),
      ...['ethanol', 'toluene', 'ethanol', 'toluene', 'ethanol'].map((material, index) =>
        charge(`c${index + 2}`, material, { kind: 'volumes', millilitresPerGram: 2 }),
      ),
      { do: 'hold', id: 'hold', stage: 'work-up', until: 'clear' },
    ],
  }));
  return JSON.stringify({ backweigh: 'route', version: 1, name: 'Sixty steps', materials, steps });
}

/** The middle of five times: `act`, and the frame after it. */
async function median(
  page: Page,
  act: (round: number) => Promise<void>,
  before: (round: number) => Promise<void> = async () => {},
) {
  const session = await threadTimes(page);
  const times: number[] = [];
  for (let round = 0; round < 5; round += 1) {
    await before(round);
    await page.waitForTimeout(600);
    const start = await millisecondsOf(session, 'ScriptDuration');
    await act(round);
    await drawn(page);
    times.push((await millisecondsOf(session, 'ScriptDuration')) - start);
  }
  return times.sort((a, b) => a - b)[2] ?? Number.NaN;
}

test('sixty steps: a keystroke in the target, and a charge entered in Routes, draw only what changed', async () => {
  const { id } = await opened.call('routes.import', { text: longRoute() });
  const draws = [{ id: 'draw', material: `m${STEPS}`, amount: 20, unit: 'g', shownIn: 'g' }] as const;
  const { page, complaints } = await opened.page();
  const short = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
  await short.waitFor();
  const four = await median(page, (round) => short.fill(`${21 + round} g`));

  await page.keyboard.press('Control+1');
  await page.getByRole('button', { name: /^Sixty steps/ }).click();
  const line = page.getByRole('combobox', { name: 'Next charge of Step number 30' });
  await line.waitFor();
  const entered = await median(
    page,
    () => line.press('Enter'),
    (round) => line.fill(`toluene ${round + 2} mL/g`),
  );

  await opened.call('plans.create', { routeId: id, ask: { name: 'Sixty steps', draws: [...draws] } });
  await page.reload();
  await page.getByRole('combobox', { name: 'Open another plan' }).selectOption('Sixty steps');
  const target = page.getByRole('textbox', { name: `Amount of intermediate ${STEPS}` });
  await target.waitFor();
  const planned = await median(page, (round) => target.fill(`${21 + round} g`));
  console.log(
    `a charge entered among ${STEPS} steps: ${entered.toFixed(0)} ms; the target typed: ${planned.toFixed(0)} ms, ` +
      `${(planned / four).toFixed(1)} times that of 4 steps (${four.toFixed(0)} ms)`,
  );
  // Measured: about 25 and 30 ms; before only what changed was drawn, 80 and 250.
  expect(entered).toBeLessThan(60);
  expect(planned).toBeLessThan(90);
  expect(complaints).toEqual([]);
  await page.context().close();
});
