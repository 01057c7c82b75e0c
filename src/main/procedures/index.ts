import * as z from 'zod/mini';
import { inputs, type ProcedureName, type Topic } from '../../core/port/port.ts';
import type { FileProblem, PortResult } from '../../core/port/result.ts';
import { schemaProblems } from '../../core/words/file-problems.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { sqliteCode } from '../store/database.ts';
import { shelfWritten } from '../files/file-desk.ts';
import { Refusal } from '../store/refusal.ts';
import { cautionProcedures } from './cautions.ts';
import { buyProcedures } from './buy.ts';
import type { Context, Procedure, Procedures } from './context.ts';
import { paperProcedures } from './papers.ts';
import { plainProblem } from './plain-data.ts';
import { planProcedures } from './plans.ts';
import { programProcedures } from './program.ts';
import { referenceProcedures } from './reference.ts';
import { refusalOf } from './refusal-of.ts';
import { routeProcedures } from './routes.ts';
import { runProcedures } from './runs.ts';
import { sessionProcedures } from './sessions.ts';
import { settingsProcedures } from './settings.ts';
import { bottleProcedures } from './bottles.ts';
import { shelfProcedures } from './shelf.ts';
import { fileProcedures } from './files.ts';

const procedures: Procedures = {
  ...shelfProcedures,
  ...bottleProcedures,
  ...fileProcedures,
  ...routeProcedures,
  ...planProcedures,
  ...settingsProcedures,
  ...paperProcedures,
  ...runProcedures,
  ...sessionProcedures,
  ...cautionProcedures,
  ...buyProcedures,
  ...referenceProcedures,
  ...programProcedures,
};

/** What changes when a procedure has succeeded; the others only read. */
const CHANGES: Partial<Record<ProcedureName, readonly Topic[]>> = {
  'shelf.add': ['shelf'],
  'shelf.change': ['shelf'],
  'shelf.changeMany': ['shelf'],
  'shelf.undoChange': ['shelf'],
  'shelf.correct': ['shelf'],
  'shelf.weigh': ['shelf'],
  'shelf.split': ['shelf'],
  'shelf.move': ['shelf'],
  'shelf.undo': ['shelf'],
  'shelf.test': ['shelf'],
  'shelf.import': ['shelf', 'orders'],
  'files.write': ['shelf'],
  'files.takeBack': ['shelf'],
  'files.bringBack': ['shelf'],
  'routes.import': ['routes'],
  'routes.save': ['routes'],
  'routes.hide': ['routes'],
  'plans.create': ['plans'],
  'plans.save': ['plans'],
  'settings.save': ['settings'],
  'papers.issue': ['plans'],
  'runs.start': ['plans', 'runs'],
  'runs.add': ['shelf', 'runs'],
  'sessions.create': ['sessions'],
  'sessions.save': ['sessions'],
  'cautions.acknowledge': ['cautions'],
  'packs.add': ['shelf'],
  'packs.remove': ['shelf'],
  'suppliers.set': ['orders'],
  'orders.place': ['orders'],
  'orders.receive': ['shelf', 'orders'],
  'orders.cancel': ['orders'],
  'orders.undo': ['shelf', 'orders'],
  'program.restore': ['program'],
  'program.begin': ['program'],
};

/**
 * The one door: checks the input, runs the procedure, tells the topics it changed. Never throws; what goes wrong comes
 * back as a code with a sentence.
 */
export async function answer(context: Context, name: string, input: unknown): Promise<PortResult<unknown>> {
  if (!isProcedure(name)) return refused(new Refusal('unknown procedure', mainWords.unknownProcedure(name.slice(0, 80))));
  try {
    // A file on its way to the shelf has the store for itself: whatever else would be written waits without holding up.
    if (CHANGES[name]) await shelfWritten(context.keeper);
    const value = await run(context, name, input);
    for (const topic of CHANGES[name] ?? []) context.tell(topic);
    return { ok: true, value };
  } catch (error) {
    const refusal = refusalOf(error);
    if (refusal.code === 'internal') context.report(error);
    if (sqliteCode(error)?.startsWith('SQLITE_CORRUPT')) setDamagedAside(context);
    return refused(refusal);
  }
}

export function isProcedure(name: string): name is ProcedureName {
  return Object.hasOwn(inputs, name);
}

function run<N extends ProcedureName>(context: Context, name: N, input: unknown): unknown {
  const problem = plainProblem(input);
  if (problem !== null) throw new Refusal('invalid input', problem);
  const parsed = z.safeParse(inputs[name], input);
  if (!parsed.success) throw invalid(schemaProblems(parsed.error.issues, input));
  // The schema of a name and its procedure are tied to each other by type; only the union hides it here.
  const procedure = procedures[name] as Procedure<N>;
  return procedure(context, parsed.data as Parameters<Procedure<N>>[1]);
}

const MOST_PROBLEMS = 100;

function invalid(found: readonly FileProblem[]): Refusal {
  const problems = found.slice(0, MOST_PROBLEMS);
  const [first] = problems;
  return new Refusal('invalid input', mainWords.invalidInput(first?.at ?? '', first?.words ?? ''), problems);
}

function refused(refusal: Refusal): PortResult<never> {
  const { code, message: detail, problems } = refusal;
  return problems.length === 0 ? { ok: false, code, detail } : { ok: false, code, detail, problems };
}

/** A page that could not be read: looks at the whole file at once, so that nothing more is written into a damaged one. */
function setDamagedAside({ keeper, tell, report }: Context): void {
  try {
    if (keeper.check('quick').length > 0) tell('program');
  } catch (error) {
    report(error);
  }
}
