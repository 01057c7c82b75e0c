// A process that acts on a shelf as fast as it can and says what was acknowledged, until it is killed. Started by the test
// with: <data folder> <seed>
import { writeSync } from 'node:fs';
import { openContext } from './context.ts';
import { shelfActs } from './shelf-acts.ts';

const [, , dataFolder = '', seed = '1'] = process.argv;

const context = openContext(dataFolder, () => {});
for await (const { act, ok, amounts } of shelfActs(context, Number(seed))) {
  // Written at once: what stands in the pipe has left this process, whatever becomes of it.
  writeSync(1, `${JSON.stringify({ act, ok, amounts: [...amounts] })}\n`);
}
