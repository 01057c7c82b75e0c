import { grouped } from '../grouped.ts';
import { computed, type Figure } from '../quantity/figure.ts';

/** A step as far as yields along a path need it. */
export interface PathStep {
  readonly id: string;
  readonly product: string;
  /** Everything charged; what another step makes joins the two. */
  readonly uses: readonly string[];
  readonly basis: string;
  readonly yield: Figure<'%'>;
}

export interface PathYield {
  /** The material the path begins with: the basis of its first step. */
  readonly start: string;
  /** Steps from the start to the product, in order. */
  readonly steps: readonly string[];
  readonly percent: Figure<'%'>;
}

export interface Overall {
  /** Along the longest linear path; of paths with as many steps the one that yields least. */
  readonly longest: PathYield;
  /** Along the path from each bought basis; of several paths from one start the longest. */
  readonly byStart: readonly PathYield[];
}

/**
 * Overall yield of a linear or converging route: the product of the yields along one path, never of two branches
 * together. Convention: the longest linear path, and besides it the path from each starting material by name.
 * @param steps where two make one material, each is a path of its own; a material that feeds back to an earlier step of
 *   its own path is not followed twice. @returns null where no step makes the product.
 */
export function overallYield(steps: readonly PathStep[], product: string): Overall | null {
  const makersOf = grouped(steps, (step) => step.product);
  const last = makersOf.get(product);
  if (!last) return null;
  const known = new Map<string, readonly Path[]>();
  const paths = last.flatMap((step) => pathsTo(step, makersOf, known, new Set()));
  const best = new Map<string, Path>();
  for (const path of paths) {
    const before = best.get(path.start);
    if (!before || better(path, before)) best.set(path.start, path);
  }
  const all = [...best.values()].map(asYield);
  const longest = [...best.values()].reduce((one, other) => (better(other, one) ? other : one));
  return { longest: asYield(longest), byStart: all };
}

/** Percent after every step of a path: the cumulative yield. */
export function cumulativeYields(yields: readonly Figure<'%'>[]): readonly Figure<'%'>[] {
  const found: Figure<'%'>[] = [];
  let value = 100;
  yields.forEach((one, index) => {
    value *= one.value / 100;
    found.push(computed('cumulative yield', value, '%', 'product of the step yields', yields.slice(0, index + 1)));
  });
  return found;
}

interface Path {
  readonly start: string;
  readonly steps: readonly PathStep[];
  readonly fraction: number;
}

/** The best path from every start to this step: only those can be part of a longest one, so that few are kept. */
function pathsTo(
  step: PathStep,
  makersOf: ReadonlyMap<string, readonly PathStep[]>,
  known: Map<string, readonly Path[]>,
  open: ReadonlySet<string>,
): readonly Path[] {
  const done = known.get(step.id);
  if (done) return done;
  const within = new Set([...open, step.id]);
  const feeders = [...new Set(step.uses)].flatMap((material) =>
    (makersOf.get(material) ?? []).filter((maker) => !within.has(maker.id)),
  );
  const fraction = step.yield.value / 100;
  const own: readonly Path[] = makersOf.has(step.basis) ? [] : [{ start: step.basis, steps: [step], fraction }];
  const longer = feeders.flatMap((maker) =>
    pathsTo(maker, makersOf, known, within).map(
      (path): Path => ({ start: path.start, steps: [...path.steps, step], fraction: path.fraction * fraction }),
    ),
  );
  const best = new Map<string, Path>();
  for (const path of [...own, ...longer]) {
    const before = best.get(path.start);
    if (!before || better(path, before)) best.set(path.start, path);
  }
  const found = best.size > 0 ? [...best.values()] : [{ start: step.basis, steps: [step], fraction }];
  known.set(step.id, found);
  return found;
}

/** Longer, and of equal length the lower yield: it is what the other branches wait for. */
function better(one: Path, other: Path): boolean {
  return one.steps.length > other.steps.length || (one.steps.length === other.steps.length && one.fraction < other.fraction);
}

function asYield(path: Path): PathYield {
  const yields = path.steps.map((step) => step.yield);
  const percent = computed('overall yield', 100 * path.fraction, '%', 'product of the yields along the path', yields);
  return { start: path.start, steps: path.steps.map((step) => step.id), percent };
}
