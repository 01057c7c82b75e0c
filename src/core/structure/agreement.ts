import { parseFormula } from '../matter/formula.ts';
import type { Material } from '../matter/material.ts';
import type { FileProblem } from '../port/result.ts';
import type { Reference } from '../reference.ts';
import { pointer } from '../words/file-problems.ts';
import { readStructure } from './structure.ts';

/**
 * What is wrong with a structure beside a formula: it cannot be read, or the two have different atoms. Null where they
 * agree, or where the formula itself cannot be read (that is said elsewhere).
 */
export function structureProblem(structure: string, formula: string | undefined, reference: Reference): string | null {
  const read = readStructure(structure);
  if (!read.ok) return read.words;
  if (formula === undefined) return null;
  const parsed = parseFormula(formula, reference);
  if (!parsed.ok || sameAtoms(read.atoms, parsed.atoms)) return null;
  return `the structure has ${read.formula}, the formula says ${formula}`;
}

/** Structures of a file's materials that cannot be read or do not fit their formula, each at its place. */
export function structureProblems(materials: Readonly<Record<string, Material>>, reference: Reference): readonly FileProblem[] {
  return Object.entries(materials).flatMap(([key, { smiles, formula }]): readonly FileProblem[] => {
    const words = smiles === undefined ? null : structureProblem(smiles, formula, reference);
    return words === null ? [] : [{ at: pointer(['materials', key, 'smiles']), words }];
  });
}

function sameAtoms(one: ReadonlyMap<string, number>, other: ReadonlyMap<string, number>): boolean {
  return one.size === other.size && [...one].every(([key, count]) => Math.abs((other.get(key) ?? 0) - count) < 1e-9);
}
