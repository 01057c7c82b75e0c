import { grouped } from '../grouped.ts';
import { overallYield, type PathStep } from '../outcome/overall.ts';
import type { RunRow } from '../port/runs.ts';
import { entered } from '../quantity/figure.ts';
import type { Route, Step } from '../route/route.ts';

/** How a route was used so far, as the list of routes tells it. */
export interface RouteUse {
  /** When it was last planned with or run, ISO; null where it never was. */
  readonly last: string | null;
  readonly runs: number;
  /** The run that gave most of a last product; of any step where none gave one. Contained product, g. */
  readonly largest: { readonly run: number; readonly grams: number; readonly material: string } | null;
  /**
   * Overall yield along the longest path to a last product, each step at the mean of its finished runs, %. Null where
   * nothing was run or where steps on that path have no run with a yield: then `unrun` counts them.
   */
  readonly meanOverallPercent: number | null;
  readonly unrun: number;
}

/**
 * What the records of a route come to. @param rows its runs; @param planned when a plan of it was last changed, ISO.
 * A yield that a later step counts too is not looked for; domain.md section 9.
 */
export function routeUse(route: Route, rows: readonly RunRow[], planned: string | null): RouteUse {
  const moments = [planned, ...rows.map((row) => row.last)].filter((one) => one !== null).sort();
  return {
    last: moments.at(-1) ?? null,
    runs: rows.length,
    largest: largestRun(route, rows),
    ...meanOverall(route, rows),
  };
}

/** Steps whose product no other step takes up. */
function lastSteps(route: Route): readonly Step[] {
  const used = new Set(route.steps.flatMap((step) => usesOf(step)));
  return route.steps.filter((step) => !used.has(step.product));
}

function usesOf(step: Step): readonly string[] {
  const charged = step.operations.flatMap((one) => (one.do === 'charge' ? [one.material] : []));
  return [...step.equation.uses.map((term) => term.material), ...charged];
}

function largestRun(route: Route, rows: readonly RunRow[]): RouteUse['largest'] {
  const products = new Map(route.steps.map((step) => [step.id, step.product]));
  const given = rows.flatMap(({ id, step, productGrams }) => {
    const product = products.get(step);
    if (productGrams === null || product === undefined) return [];
    return [{ run: id, step, grams: productGrams, material: route.materials[product]?.name ?? product }];
  });
  const last = new Set(lastSteps(route).map((step) => step.id));
  const ofLast = given.filter((one) => last.has(one.step));
  const [most] = (ofLast.length > 0 ? ofLast : given).toSorted((one, other) => other.grams - one.grams);
  return most ? { run: most.run, grams: most.grams, material: most.material } : null;
}

function meanOverall(route: Route, rows: readonly RunRow[]): Pick<RouteUse, 'meanOverallPercent' | 'unrun'> {
  const finished = rows.filter((row) => row.phase === 'finished' && !row.early && row.yieldPercent !== null);
  const byStep = grouped(finished, (row) => row.step);
  if (finished.length === 0) return { meanOverallPercent: null, unrun: 0 };
  const mean = ({ id, yieldCountedIn }: Step): number | null => {
    const runs = byStep.get(id) ?? [];
    if (runs.length === 0) return yieldCountedIn === undefined ? null : 100;
    return runs.reduce((sum, row) => sum + (row.yieldPercent ?? 0), 0) / runs.length;
  };
  const steps = route.steps.map(
    (step): PathStep => ({
      id: step.id,
      product: step.product,
      basis: step.basis,
      uses: usesOf(step),
      yield: entered(`mean yield of ${step.title}`, mean(step) ?? 100, '%', 'its runs'),
    }),
  );
  const paths = lastSteps(route).flatMap((step) => overallYield(steps, step.product)?.longest ?? []);
  const [longest] = paths.toSorted((one, other) => other.steps.length - one.steps.length);
  const unrun = (longest?.steps ?? []).filter((id) => route.steps.some((step) => step.id === id && mean(step) === null)).length;
  return { meanOverallPercent: longest && unrun === 0 ? longest.percent.value : null, unrun };
}
