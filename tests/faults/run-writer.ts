// A process that weighs runs as fast as it can and says what was acknowledged, until it is killed. Started by the test with:
// <data folder> <seed>
import { writeSync } from 'node:fs';
import { openContext } from './context.ts';
import { runActs } from './run-acts.ts';

const [, , dataFolder = '', seed = '1'] = process.argv;
const context = openContext(dataFolder, () => {});
for await (const one of runActs(context, Number(seed))) writeSync(1, `${JSON.stringify(one)}\n`);
