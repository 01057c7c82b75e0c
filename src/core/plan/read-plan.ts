import type { FileProblem } from '../port/result.ts';
import { type FileReading, readFile } from '../route/read-file.ts';
import { duplicates } from '../route/read-route.ts';
import type { Route } from '../route/route.ts';
import { pointer } from '../words/file-problems.ts';
import { type Ask, PlanFile } from './ask.ts';

/** Reads a plan file against the route it belongs to: the plan, or every problem with its place and words. */
export function readPlan(text: string, route: Route): FileReading<PlanFile> {
  return readFile(text, PlanFile, ({ ask }) => askProblems(ask, route));
}

function askProblems(ask: Ask, route: Route): readonly FileProblem[] {
  const steps = new Set(route.steps.map((step) => step.id));
  const draws = ask.draws.flatMap((draw, index): readonly FileProblem[] =>
    Object.hasOwn(route.materials, draw.material)
      ? []
      : [
          {
            at: pointer(['ask', 'draws', index, 'material']),
            words: `"${draw.material}" is not among the materials of the route`,
          },
        ],
  );
  const twice = duplicates(ask.draws.map((draw) => draw.id)).map((index) => ({
    at: pointer(['ask', 'draws', index, 'id']),
    words: `another draw is called "${ask.draws[index]?.id}" already`,
  }));
  const yields = Object.entries(ask.yields ?? {}).flatMap(([step, range]): readonly FileProblem[] => {
    const at = pointer(['ask', 'yields', step]);
    if (!steps.has(step)) return [{ at, words: `"${step}" is not a step of the route` }];
    const inOrder = typeof range === 'number' || (range.lowest <= range.likeliest && range.likeliest <= range.highest);
    return inOrder ? [] : [{ at, words: 'the yields need to be in order: lowest, likeliest, highest' }];
  });
  const leftOut = (ask.leaveOut ?? []).flatMap((step, index): readonly FileProblem[] =>
    steps.has(step) ? [] : [{ at: pointer(['ask', 'leaveOut', index]), words: `"${step}" is not a step of the route` }],
  );
  const learned = Object.keys(ask.learned ?? {}).flatMap((step): readonly FileProblem[] =>
    steps.has(step) ? [] : [{ at: pointer(['ask', 'learned', step]), words: `"${step}" is not a step of the route` }],
  );
  return [...draws, ...twice, ...yields, ...learned, ...leftOut];
}
