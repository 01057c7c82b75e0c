import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { stepCautions } from '../../src/core/caution/step-cautions.ts';
import type { PaperContext } from '../../src/core/paper/context.ts';
import { PlanFile } from '../../src/core/plan/ask.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { readFile } from '../../src/core/route/read-file.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import { readShelf } from '../../src/core/shelf/read-shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { settings, TODAY } from './build.ts';

const text = (path: string): string => readFileSync(join(import.meta.dirname, '../../resources/demo', path), 'utf8');

function value<T>(
  reading: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly unknown[] },
): T {
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.value;
}

/** The ready example as the program itself opens it, its plan, and what its papers are built from. */
export const demoInput: PlanInput = {
  route: value(readRoute(text('practicals.route.json'))),
  shelf: value(readShelf(text('prep-room.shelf.json'))),
  ask: value(readFile(text('practicals.plan.json'), PlanFile, () => [])).ask,
  settings,
  reference,
  asOf: TODAY,
};
export const demoPlan = plan(demoInput);
export const demoContext: PaperContext = {
  result: demoPlan,
  size: 'A4',
  mark: '.',
  settings,
  secondCheck: false,
  say: sentence,
  statements: reference.statement,
  bench: (step) => benchNumbers(demoInput, demoPlan, step),
  cautions: (step) => stepCautions(demoInput, demoPlan, step, []),
};
