import type { Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { hydrolysisOf } from './acidity.ts';
import { type Facts, factsOf } from './facts.ts';
import { parseFormula } from './formula.ts';

/**
 * mol of water that a mole of a material takes up as it is hydrolysed, 1 or more: by the equation of its heat in
 * resources/tables/hydrolysis-heats.csv, else by the oxygen of what it turns into; 0 where water does nothing to it.
 */
export function waterTaken(facts: Facts, reference: Reference): number {
  const rows = hydrolysisOf(facts, reference).filter((row) => row.meets === 'water');
  if (rows.length === 0) return 0;
  const equation = facts.cas === null ? undefined : reference.hydrolysisHeat.get(facts.cas)?.equation;
  const written = equation === undefined ? null : /\+ (?:(\d+) )?water/.exec(equation.split('→')[0] ?? '');
  if (written) return Number(written[1] ?? 1);
  const made = rows.reduce(
    (sum, row) => sum + row.molPerMol * oxygenOf(factsOf({ name: row.makes, cas: row.makesCas }, reference), reference),
    0,
  );
  return Math.max(1, made - oxygenOf(facts, reference));
}

function oxygenOf({ formula }: Facts, reference: Reference): number {
  const read = formula === null ? null : parseFormula(formula, reference);
  return read?.ok ? (read.atoms.get('O') ?? 0) : 0;
}

/**
 * The part of what water hydrolyses that the water there suffices for, 0 to 1: all of it counts as reacting alike. What
 * is not known in moles counts as if there were enough water.
 * @param isWater which of the materials is water.
 */
export function hydrolysedPart(
  all: readonly { readonly facts: Facts; readonly moles: Figure<'mol'> | null }[],
  isWater: (facts: Facts) => boolean,
  reference: Reference,
): number {
  let [water, taken] = [0, 0];
  for (const { facts, moles } of all) {
    if (isWater(facts)) water += moles?.value ?? Number.POSITIVE_INFINITY;
    else taken += (moles?.value ?? 0) * waterTaken(facts, reference);
  }
  return taken > 0 ? Math.min(1, water / taken) : Number(water > 0);
}
