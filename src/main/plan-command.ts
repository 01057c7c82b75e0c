// The same plan as the window's, from a terminal: text, or the whole result as JSON at full precision.
//   npm run -s plan -- FILE.route.json --draw '25 g of benzil' [--shelf FILE.shelf.json] [--start '90 %'] [--json]
// Exit codes: 0 planned, 1 the route cannot be planned, 2 the command or a file is wrong.
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { benchNumbers } from '../core/bench/bench-numbers.ts';
import type { BenchSection } from '../core/bench/bench-section.ts';
import { stepCautions, type StepCautions } from '../core/caution/step-cautions.ts';
import { confidenceOf } from '../core/confidence/confidence.ts';
import { type Ask, type Draw, StartChoice } from '../core/plan/ask.ts';
import { meritOf } from '../core/outcome/merit.ts';
import { comparePlans } from '../core/plan/compare.ts';
import type { PlanInput } from '../core/plan/input.ts';
import { limitsOn, mostTarget } from '../core/plan/forward/most-target.ts';
import { plan } from '../core/plan/plan.ts';
import type { PlanResult } from '../core/plan/result.ts';
import { readPlan } from '../core/plan/read-plan.ts';
import { Settings } from '../core/plan/settings.ts';
import type { FileProblem } from '../core/port/result.ts';
import type { Material } from '../core/matter/material.ts';
import { withFigureList } from '../core/quantity/figure-json.ts';
import { indexReference, type Reference } from '../core/reference.ts';
import { readDraw } from '../core/route/read-draw.ts';
import { type FileReading, readFile } from '../core/route/read-file.ts';
import { readRoute } from '../core/route/read-route.ts';
import type { Route } from '../core/route/route.ts';
import { readRunFile } from '../core/run/read-run-file.ts';
import { shelfDoubts } from '../core/shelf/shelf-doubts.ts';
import { readShelf } from '../core/shelf/read-shelf.ts';
import { EMPTY_SHELF } from '../core/shelf/shelf.ts';
import { formatAmount } from '../core/quantity/format.ts';
import { mostTargetWords } from '../core/words/most-target-words.ts';
import { planWords } from '../core/words/plan-words.ts';
import { commandWords } from '../core/words/command-words.ts';
import { comparisonText, meritText, meritWords } from '../core/words/merit-words.ts';
import { planText } from '../core/words/plan-text.ts';
import { publishedText } from '../core/words/published-text.ts';
import { sentence } from '../core/words/sentences.ts';
import { materialDoubts } from './material-doubts.ts';
import { readReferenceRows } from './tables.ts';

const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

const OPTIONS = {
  draw: { type: 'string', multiple: true },
  shelf: { type: 'string' },
  run: { type: 'string', multiple: true },
  plan: { type: 'string' },
  start: { type: 'string' },
  date: { type: 'string' },
  beside: { type: 'string' },
  most: { type: 'boolean' },
  json: { type: 'boolean' },
  help: { type: 'boolean' },
} as const;

class Wrong extends Error {}

/** Where the command runs: the folder that paths are seen from, and where its lines go. */
export interface Terminal {
  readonly folder: string;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** Runs the command; gives its exit code. */
export async function planCommand(argv: readonly string[], terminal: Terminal): Promise<number> {
  try {
    return await run(argv, terminal);
  } catch (error) {
    if (!(error instanceof Wrong)) throw error;
    terminal.err(error.message);
    return 2;
  }
}

async function run(argv: readonly string[], { folder, out, err }: Terminal): Promise<number> {
  const { values, positionals } = readArguments(argv);
  if (values.help) {
    out(commandWords.usage);
    return 0;
  }
  const load = loaderFrom(folder);
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new Wrong(`${commandWords.oneRoute}\n${commandWords.usage}`);
  const route = load(file, readRoute);
  const shelf = values.shelf === undefined ? EMPTY_SHELF : load(values.shelf, readShelf);
  const reference = indexReference(readReferenceRows());
  await doubt(file, route.materials, reference);
  if (values.shelf !== undefined) await doubt(values.shelf, shelf.materials, reference, shelfDoubts(shelf, reference));
  const kept = askOf(load, values.plan, values.draw ?? [], route);
  const ask = values.start === undefined ? kept : { ...kept, start: startOf(values.start) };
  const settings = load(new URL('../../resources/tables/laboratory.json', import.meta.url), (text) =>
    readFile(text, Settings, () => []),
  );
  const asOf = values.date ?? today();
  if (!isDate(asOf)) throw new Wrong(commandWords.wrongDate(asOf));
  const input = { route, ask, shelf, settings, reference, asOf };
  const result = plan(input);
  const merit = result.solved ? meritOf({ result, route, shelf, reference }) : null;
  const confidence = confidenceOf(input);
  const bench = (step: string): readonly BenchSection[] => benchNumbers(input, result, step);
  const runs = values.run === undefined ? null : values.run.map((one) => load(one, (text) => readRunFile(text, sha256)));
  const cautions = (step: string): StepCautions => stepCautions(input, result, step, runs);
  const beside = values.beside === undefined ? null : planBeside(load, values.beside, input);
  const besideMerit = beside?.result.solved ? meritOf({ result: beside.result, route, shelf, reference }) : null;
  const compared = beside && comparePlans({ result, merit }, { result: beside.result, merit: besideMerit });
  if (values.json)
    out(
      JSON.stringify(
        withFigureList({
          ...result,
          confidence,
          merit,
          beside: compared,
          bench: benchOfEach(result, bench),
          cautions: cautionsOfEach(result, cautions),
        }),
        null,
        2,
      ),
    );
  else if (result.solved) {
    const text = [planText(result, confidence, bench, cautions).trimEnd(), ...(merit ? [meritText(merit, result)] : [])];
    if (beside && compared) text.push(comparisonText(compared, ask.name, beside.name));
    if (values.most) text.push(mostText(input));
    const published = publishedText(route, reference);
    out([...text, ...(published === '' ? [] : [published])].join('\n\n'));
  }
  if (result.solved) return 0;
  for (const notice of result.notices.filter((one) => one.level === 'error')) err(sentence(notice));
  return 1;
}

/** Bench numbers by step. */
function benchOfEach(
  result: PlanResult,
  bench: (step: string) => readonly BenchSection[],
): Readonly<Record<string, readonly BenchSection[]>> {
  return Object.fromEntries(result.steps.map((step) => [step.id, bench(step.id)]));
}

/** Cautions by step and operation, each with its sentence. */
function cautionsOfEach(
  result: PlanResult,
  cautions: (step: string) => StepCautions,
): Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> {
  const said = (step: string) => [...cautions(step)].filter(([, all]) => all.length > 0);
  return Object.fromEntries(
    result.steps.map((step) => [step.id, Object.fromEntries(said(step.id).map(([id, all]) => [id, all.map(sentence)]))]),
  );
}

/** The most of the first draw that everything on the shelf allows. */
function mostText(input: PlanInput): string {
  const draw = input.ask.draws[0];
  if (!draw) return '';
  const chosen = new Set(limitsOn(input).map((limit) => limit.material));
  const most = mostTarget(input, draw.id, chosen);
  const name = input.route.materials[draw.material]?.name ?? draw.material;
  const shown = most.kind === 'most' ? formatAmount(most.grams) : null;
  const head = shown ? [`${planWords.fromStock.most} ${shown.text} ${shown.unit} of ${name}.`] : [];
  return [
    planWords.fromStock.title,
    ...[...head, ...mostTargetWords(most), planWords.fromStock.basis].map((line) => `  ${line}`),
  ].join('\n');
}

function readArguments(
  argv: readonly string[],
): ReturnType<typeof parseArgs<{ options: typeof OPTIONS; allowPositionals: true; args: string[] }>> {
  try {
    return parseArgs({ args: [...argv], options: OPTIONS, allowPositionals: true });
  } catch (error) {
    throw new Wrong(`${error instanceof Error ? error.message : String(error)}\n${commandWords.usage}`);
  }
}

/** Reads and checks files; every problem is listed with its place. Paths are seen from the caller's folder. */
function loaderFrom(folder: string) {
  return <T>(path: string | URL, read: (text: string) => FileReading<T>): T => {
    let text: string;
    try {
      text = readFileSync(typeof path === 'string' ? resolve(folder, path) : path, 'utf8');
    } catch (error) {
      throw new Wrong(commandWords.unreadable(String(path), error instanceof Error ? error.message : String(error)));
    }
    const reading = read(text);
    if (!reading.ok) throw new Wrong(commandWords.problems(String(path), reading.problems.map(problemText)));
    return reading.value;
  };
}
type Load = ReturnType<typeof loaderFrom>;

/** Holds a file's materials against structures and the built-in table. */
async function doubt(
  file: string,
  materials: Readonly<Record<string, Material>>,
  reference: Reference,
  further: readonly FileProblem[] = [],
): Promise<void> {
  const problems = [...(await materialDoubts(materials, reference)), ...further];
  if (problems.length > 0) throw new Wrong(commandWords.problems(file, problems.map(problemText)));
}

function problemText(problem: FileProblem): string {
  return `${problem.at === '' ? '(whole file)' : problem.at}: ${problem.words}`;
}

function askOf(load: Load, planFile: string | undefined, written: readonly string[], route: Route): Ask {
  const kept = planFile === undefined ? { name: route.name, draws: [] } : load(planFile, (text) => readPlan(text, route)).ask;
  const problems: string[] = [];
  const draws = written.flatMap((text, index): readonly Draw[] => {
    const read = readDraw(text, `draw-${index + 1}`, route);
    if (read.ok) return [read.draw];
    problems.push(`--draw ${JSON.stringify(text)}: ${read.words}`);
    return [];
  });
  if (problems.length > 0) throw new Wrong(problems.join('\n'));
  if (draws.length === 0 && kept.draws.length === 0) throw new Wrong(`${commandWords.noDraw}\n${commandWords.usage}`);
  return draws.length === 0 ? kept : { ...kept, draws };
}

/** The plan to stand beside this one: another plan file, or with "route" this plan at the route's own yields. */
function planBeside(
  load: Load,
  other: string,
  input: PlanInput,
): { readonly name: string; readonly result: ReturnType<typeof plan> } {
  const { yields: _yields, learned: _learned, ...own } = input.ask;
  const ask =
    other === 'route' ? { ...own, name: meritWords.compare.routeYields } : load(other, (text) => readPlan(text, input.route)).ask;
  return { name: ask.name, result: plan({ ...input, ask }) };
}

/** A start as typed: a chance in per cent, or a multiple of the likeliest one. */
function startOf(text: string): StartChoice {
  const match = /^\s*(\d+(?:[.,]\d+)?)\s*(%?)\s*$/.exec(text);
  const value = Number((match?.[1] ?? '').replace(',', '.'));
  const read = StartChoice.safeParse(match?.[2] === '%' ? { chancePercent: value } : { multiplier: value });
  if (!match || !read.success) throw new Wrong(commandWords.wrongStart(text));
  return read.data;
}

/** A day that is in the calendar. */
function isDate(text: string): boolean {
  const day = new Date(`${text}T00:00:00Z`);
  return /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text);
}

function today(): string {
  const now = new Date();
  return `${now.getFullYear()}-${String(now.getMonth() + 1).padStart(2, '0')}-${String(now.getDate()).padStart(2, '0')}`;
}

if (import.meta.main)
  process.exitCode = await planCommand(process.argv.slice(2), {
    folder: process.env.INIT_CWD ?? process.cwd(),
    out: console.log,
    err: console.error,
  });
