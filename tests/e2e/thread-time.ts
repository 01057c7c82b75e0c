// Processor time of the window's own thread: a busy machine, where a test waits for its turn, counts little in it.
import type { CDPSession, Page } from 'playwright';

/** What the window's thread has done since it began: scripts alone, or also style, layout and drawing. */
type Kind = 'ScriptDuration' | 'TaskDuration';

export async function threadTimes(page: Page): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  return session;
}

/** Milliseconds so far. */
export async function millisecondsOf(session: CDPSession, kind: Kind): Promise<number> {
  const { metrics } = await session.send('Performance.getMetrics');
  return (metrics.find((one) => one.name === kind)?.value ?? Number.NaN) * 1000;
}

/** A frame has been drawn. */
export const drawn = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done))));
