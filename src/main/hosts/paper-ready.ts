import { READY } from '../../core/port/wire.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';

const READY_MILLISECONDS = 60_000;
const LOOK_EVERY_MILLISECONDS = 40;

/** Script that reads how far a paper's page is. */
export const READ_STATE = `document.documentElement.dataset[${JSON.stringify(READY.name)}] ?? ''`;

/** Looks at a paper's page until it is laid out; refuses where it never is. `look` gives what READ_STATE reads. */
export async function untilReady(look: () => Promise<unknown>, waitMilliseconds = READY_MILLISECONDS): Promise<void> {
  for (const until = Date.now() + waitMilliseconds; Date.now() < until; ) {
    const state = await look();
    if (state === READY.value) return;
    if (state === READY.failed) throw new Refusal('not here', mainWords.paper.nothing);
    await new Promise((done) => setTimeout(done, LOOK_EVERY_MILLISECONDS));
  }
  throw new Refusal('not here', mainWords.paper.notReady);
}
