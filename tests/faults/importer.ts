// A process that takes one file after the other onto a shelf and says what was acknowledged, until it is killed.
// Started by the test with: <data folder> <name>
import { writeSync } from 'node:fs';
import { machineClock } from '../../src/main/clock.ts';
import { FileDesk } from '../../src/main/files/file-desk.ts';
import { openKeeper } from '../../src/main/store/keeper.ts';

const [, , folder = '', name = ''] = process.argv;
const ROWS = 3000;

const keeper = openKeeper({ folder, clock: machineClock, seed: () => {} });
const desk = new FileDesk(keeper);
for (let round = 1; ; round += 1) {
  const lot = `${name}-${round}`;
  const rows = Array.from({ length: ROWS }, (_, index) => `${lot}-${index},benzil,134-81-6,${index + 1} g,${lot}`);
  const text = ['bottle,material,CAS,left,lot', ...rows].join('\n');
  const file = await desk.open(`${lot}.csv`, Buffer.from(text), (error) => console.error(error));
  const preview = await desk.preview(file, {});
  if (preview.at !== 'table') throw new Error('no table');
  say({ begins: lot, rows: preview.counts.new });
  const written = await desk.write(file, preview.preview);
  say({ written: lot, added: written.added });
}

/** Written at once: what stands in the pipe has left this process, whatever becomes of it. */
function say(line: object): void {
  writeSync(1, `${JSON.stringify(line)}\n`);
}
