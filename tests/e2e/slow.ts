// A slower machine, for finding what only works while the program is quicker than the keys: with `frames` it draws
// late, with `answers` the store answers late, with `disorder` answers and changes come in another order than asked for,
// with `processor` it has a sixth of the processor. SLOW=frames,answers before the end-to-end tests slows every page of theirs.
import type { BrowserContext, Page } from 'playwright';

/** Milliseconds. */
const LATE = 200;

export async function slowed(context: BrowserContext, page: Page, how: string): Promise<void> {
  if (how.includes('frames')) await context.addInitScript(lateFrames, LATE);
  if (how.includes('answers')) {
    await context.route('**/call/*', async (route) => {
      await new Promise((done) => setTimeout(done, LATE));
      await route.continue();
    });
  }
  if (how.includes('disorder')) await context.addInitScript(anyOrder, LATE);
  if (how.includes('processor')) {
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: 6 });
  }
}

/** Runs in the page: frames come late, and so does what is put off until after one. */
function lateFrames(late: number): void {
  const frame = window.requestAnimationFrame.bind(window);
  const timeout = window.setTimeout.bind(window);
  window.requestAnimationFrame = (run) => timeout(() => frame(run), late);
  window.cancelAnimationFrame = (id) => clearTimeout(id);
  window.setTimeout = ((run: TimerHandler, wait = 0, ...rest: unknown[]) =>
    timeout(run, wait > 0 && wait < late ? late : wait, ...rest)) as typeof window.setTimeout;
}

/** Runs in the page: what main answers is told after any wait up to twice `late`, and so is what changed. */
function anyOrder(late: number): void {
  const send = window.fetch.bind(window);
  const wait = (): Promise<unknown> => new Promise((done) => setTimeout(done, Math.random() * 2 * late));
  window.fetch = async (address, how) => {
    const answer = await send(address, how);
    const path = String(address);
    if (path.includes('/call/')) await wait();
    if (!path.includes('/subscribe') || !answer.body) return answer;
    const slowly = new TransformStream<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>>({
      async transform(part, out) {
        await wait();
        out.enqueue(part);
      },
    });
    return new Response(answer.body.pipeThrough(slowly), answer);
  };
}
