// A process that writes into a workbook as fast as it can and says what was acknowledged, until it is killed or has
// written enough. Started by the tests with: <data folder> <name> <how many, 0 for no end>
import { writeSync } from 'node:fs';
import type { ProcedureInput, ProcedureName, ProcedureOutput } from '../../src/core/port/port.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import type { Correctable, RunEntry } from '../../src/core/run/entry.ts';
import { machineClock } from '../../src/main/clock.ts';
import { answer } from '../../src/main/procedures/index.ts';
import { seedWorkbook } from '../../src/main/seed.ts';
import { openContext } from './context.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';

const [, , dataFolder = '', name = 'writer', most = '0'] = process.argv;

const context = openContext(dataFolder, (database, resources) => seedWorkbook(database, resources, machineClock));
const { keeper } = context;
say({ opened: keeper.trouble() === null, trouble: keeper.trouble() });
if (keeper.trouble() !== null) process.exit(3);

const rounds = most === '0' ? Number.POSITIVE_INFINITY : Number(most);
for (let round = 1; round <= rounds; round++) await write(round);
keeper.close();

/** One bottle with two movements, one saved state, one paper, one run; each said only after it was acknowledged. */
async function write(round: number): Promise<void> {
  const lot = `${name}-${round}`;
  const material = { name: `material ${round % 7}`, cas: '134-81-6' };
  const { id } = await must('shelf.add', { material, form: { kind: 'neat' }, amount: 100, unit: 'g', lot });
  say({ bottle: id, left: 100 });
  await must('shelf.move', { id, kind: 'used', change: -0.1, reason: lot });
  say({ bottle: id, left: 99.9 });
  const plan = await must('plans.read', { id: 1 });
  const words = lot;
  const saved = await answered('plans.save', { id: 1, after: plan.state, ask: plan.ask, words });
  // Another writer may have been quicker; that is a conflict in words, and nothing else is expected.
  if (!saved.ok) return saved.code === 'conflict' ? say({ conflict: plan.state }) : fail('plans.save', saved);
  say({ state: saved.value.state, words });
  const paper = { round, filler: 'x'.repeat(3000) };
  const issued = await must('papers.issue', { planId: 1, state: saved.value.state, kind: 'weighing', title: lot, paper });
  say({ paper: issued.id, revision: issued.revision, title: lot });
  await writeRun(id, lot, saved.value.state);
}

/** A run of its own: three weighings from the bottle, one of them corrected, and the product on the shelf. */
async function writeRun(bottle: string, lot: string, state: number): Promise<void> {
  const sheet = { ...sheetOf([charge({ id: 'benzoin', isBasis: true, portions: 3 })]), step: lot.slice(0, 80) };
  const { id: run } = await must('runs.start', { planId: 1, state, sheet, by });
  let number = 1;
  const add = async (entry: RunEntry, left: number): Promise<void> => {
    number = (await must('runs.add', { id: run, after: number, entry })).number;
    say({ run, entry: number, kind: entry.kind, bottle, left });
  };
  const weighed = (portion: number, net: number, complete: boolean): RunEntry =>
    taken('benzoin', net, { bottle, taken: net, moles: net / 212.248, portion, complete });
  await add(weighed(1, 10, false), 89.9);
  await add(weighed(2, 10, false), 79.9);
  const instead = weighed(2, 9.5, false) as Correctable;
  await add({ kind: 'correction', by, of: 3, reason: 'misread', instead }, 80.4);
  await add(weighed(3, 10, true), 70.4);
  const dry = { crop: 1, grams: 20, wet: false, assayPercent: null, place: '', text: '', bottle: null };
  await add({ kind: 'product', by, ...dry }, 70.4);
}

function answered<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<PortResult<ProcedureOutput<N>>> {
  return answer(context, name, input) as Promise<PortResult<ProcedureOutput<N>>>;
}

async function must<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<ProcedureOutput<N>> {
  const result = await answered(name, input);
  return result.ok ? result.value : fail(name, result);
}

function fail(name: string, result: object): never {
  say({ failed: name, ...result });
  process.exit(4);
}

/** Written at once: what stands in the pipe has left this process, whatever becomes of it. */
function say(line: object): void {
  writeSync(1, `${JSON.stringify(line)}\n`);
}
