import { hasRightCheckDigit } from '../matter/cas.ts';
import type { Material } from '../matter/material.ts';
import type { FileProblem } from '../port/result.ts';
import { pointer } from '../words/file-problems.ts';
import { type FileReading, readFile } from './read-file.ts';
import { type Charge, GROUPS_TAKEN, type Operation, Route, type Step } from './route.ts';

/** Reads a route file: the route, or every problem with its JSON pointer and words. */
export function readRoute(text: string): FileReading<Route> {
  return readFile(text, Route, checkRoute);
}

/** What the schema cannot say of a route: that names exist, are used once, and that each step knows its basis. */
export function checkRoute(route: Route): readonly FileProblem[] {
  return [
    ...materialProblems(route.materials),
    ...duplicates(route.steps.map((step) => step.id)).map((index) => ({
      at: pointer(['steps', index, 'id']),
      words: `another step is called "${route.steps[index]?.id}" already`,
    })),
    ...route.steps.flatMap((step, index) => stepProblems(step, route, ['steps', index])),
  ];
}

/** Checks on materials that any of our files may hold. */
export function materialProblems(materials: Readonly<Record<string, Material>>): readonly FileProblem[] {
  return Object.entries(materials)
    .filter(([, material]) => material.cas !== undefined && !hasRightCheckDigit(material.cas))
    .map(([key, material]) => ({
      at: pointer(['materials', key, 'cas']),
      words: `the check digit of CAS number ${material.cas} is wrong`,
    }));
}

type Path = readonly (string | number)[];

function stepProblems(step: Step, route: Route, at: Path): readonly FileProblem[] {
  return [
    ...unknownMaterials(step, route, at),
    ...basisProblems(step, at),
    ...yieldProblems(step, at),
    ...telescopeProblems(step, route, at),
    ...heatProblems(step, at),
    ...duplicates(step.operations.map((operation) => operation.id)).map((index) => ({
      at: pointer([...at, 'operations', index, 'id']),
      words: `another operation of this step is called "${step.operations[index]?.id}" already`,
    })),
  ];
}

export interface Mention {
  readonly path: Path;
  readonly key: string;
}

function unknownMaterials(step: Step, route: Route, at: Path): readonly FileProblem[] {
  return mentions(step)
    .filter(({ key }) => !Object.hasOwn(route.materials, key))
    .map(({ path, key }) => ({ at: pointer([...at, ...path]), words: `"${key}" is not among the materials of this file` }));
}

/** Every place of a step that names a material. */
export function mentions(step: Step): readonly Mention[] {
  return [
    { path: ['basis'], key: step.basis },
    { path: ['product'], key: step.product },
    ...(step.carriedWith ? [{ path: ['carriedWith', 'material'], key: step.carriedWith.material }] : []),
    ...step.equation.uses.map((term, index): Mention => ({ path: ['equation', 'uses', index, 'material'], key: term.material })),
    ...step.equation.makes.map(
      (term, index): Mention => ({ path: ['equation', 'makes', index, 'material'], key: term.material }),
    ),
    ...(step.recovers ?? []).map(
      (recovery, index): Mention => ({ path: ['recovers', index, 'material'], key: recovery.material }),
    ),
    ...step.operations.flatMap(operationMentions),
  ];
}

function operationMentions(operation: Operation, index: number): readonly Mention[] {
  if (operation.do === 'charge') {
    const carried = operation.carriedWith;
    return [
      { path: ['operations', index, 'material'], key: operation.material },
      ...(carried ? [{ path: ['operations', index, 'carriedWith', 'material'], key: carried.material }] : []),
    ];
  }
  if (operation.do === 'hold') return [];
  return operation.takes
    .map((taken, place): Mention => ({ path: ['operations', index, 'takes', place, 'what'], key: taken.what }))
    .filter(({ key }) => !GROUPS_TAKEN.includes(key));
}

function basisProblems(step: Step, at: Path): readonly FileProblem[] {
  const problems: FileProblem[] = [];
  const problem = (path: Path, words: string): number => problems.push({ at: pointer([...at, ...path]), words });
  if (!step.equation.uses.some((term) => term.material === step.basis))
    problem(['basis'], 'the basis needs to be among what the equation uses');
  if (!step.equation.makes.some((term) => term.material === step.product))
    problem(['product'], 'the product needs to be among what the equation makes');
  const isBasis = (charge: Charge): boolean => charge.rule.kind === 'basis';
  const charges = step.operations.flatMap((operation, index) => (operation.do === 'charge' ? [{ operation, index }] : []));
  const found = charges.filter(({ operation }) => isBasis(operation));
  if (found.length === 0) problem(['operations'], `one charge needs the rule "basis": that of ${step.basis}`);
  for (const { operation, index } of found) {
    if (operation.material !== step.basis)
      problem(['operations', index, 'rule'], `the rule "basis" belongs to the charge of ${step.basis}`);
  }
  for (const { index } of found.slice(1)) problem(['operations', index, 'rule'], 'only one charge can be the basis');
  return problems;
}

function yieldProblems(step: Step, at: Path): readonly FileProblem[] {
  const range = step.yieldPercent;
  if (typeof range === 'number') return [];
  const inOrder = range.lowest <= range.likeliest && range.likeliest <= range.highest;
  return inOrder
    ? []
    : [{ at: pointer([...at, 'yieldPercent']), words: 'the yields need to be in order: lowest, likeliest, highest' }];
}

/** A heat is per mole of something that reacts or forms, and heats of formation are of what the equation names. */
function heatProblems({ heat, equation }: Step, at: Path): readonly FileProblem[] {
  const named = [heat?.per ?? [], Object.keys(heat?.formation ?? {})].flat();
  const inEquation = new Set([...equation.uses, ...equation.makes].map((term) => term.material));
  return named
    .filter((key) => !inEquation.has(key))
    .map((key) => ({
      at: pointer([...at, 'heat', ...(key === heat?.per ? ['per'] : ['formation', key])]),
      words: `"${key}" is not in the equation of this step`,
    }));
}

/** A yield that a later step counts: that step uses this product, and nothing is lost here too. */
function telescopeProblems(step: Step, route: Route, at: Path): readonly FileProblem[] {
  if (step.yieldCountedIn === undefined) return [];
  const later = route.steps.find((one) => one.id === step.yieldCountedIn);
  const where = pointer([...at, 'yieldCountedIn']);
  if (!later) return [{ at: where, words: `"${step.yieldCountedIn}" is not a step of this file` }];
  if (later.basis !== step.product)
    return [{ at: where, words: `"${later.id}" needs ${step.product} as its basis to count this step's yield too` }];
  return step.yieldPercent === 100
    ? []
    : [{ at: pointer([...at, 'yieldPercent']), words: 'needs to be 100 where a later step counts the yield' }];
}

/** Indexes of entries whose name stood earlier in the list. */
export function duplicates(names: readonly string[]): readonly number[] {
  const seen = new Set<string>();
  return names.flatMap((name, index) => {
    if (seen.has(name)) return [index];
    seen.add(name);
    return [];
  });
}
