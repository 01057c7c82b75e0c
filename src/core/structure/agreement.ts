import { type Formula, parseFormula } from '../matter/formula.ts';
import type { Material } from '../matter/material.ts';
import type { FileProblem } from '../port/result.ts';
import type { Reference } from '../reference.ts';
import { pointer } from '../words/file-problems.ts';
import { structureWords } from '../words/structure-words.ts';
import { readStructure, type Structure, type StructureProblem } from './structure.ts';

/**
 * What is wrong with a structure beside a formula: it cannot be read, or the two have different atoms or charges. Null
 * where they agree, where there is no formula, and where the formula itself cannot be read (that is said elsewhere).
 */
export function structureProblem(structure: string, formula: string | undefined, reference: Reference): StructureProblem | null {
  const read = readStructure(structure);
  if (!read.ok) return read;
  const parsed = formula === undefined ? null : parseFormula(formula, reference);
  if (formula === undefined || !parsed?.ok || agree(read, parsed)) return null;
  return { ok: false, at: 0, words: structureWords.disagree(read.formula, formula) };
}

/** What is wrong with the structures of a file's materials, each at its place. */
export function structureProblems(materials: Readonly<Record<string, Material>>, reference: Reference): readonly FileProblem[] {
  return Object.entries(materials).flatMap(([key, { smiles, formula }]): readonly FileProblem[] => {
    if (smiles === undefined) return [];
    const words = /[\r\n]/.test(smiles.trim()) ? structureWords.oneLine : structureProblem(smiles, formula, reference)?.words;
    return words === undefined ? [] : [{ at: pointer(['materials', key, 'smiles']), words }];
  });
}

/** The same atoms and charge; a formula with halves (CaSO4·½H2O) stands for as many of itself as make them whole. */
function agree(structure: Structure, formula: Formula): boolean {
  const halves = [...formula.atoms.values()].some((count) => !Number.isInteger(count));
  const times = halves ? total(structure.atoms) / total(formula.atoms) : 1;
  const same = (one: number, other: number): boolean => Math.abs(one - other) < 1e-6;
  return (
    same(times, Math.round(times)) &&
    structure.atoms.size === formula.atoms.size &&
    same(structure.charge, formula.charge * times) &&
    [...structure.atoms].every(([key, count]) => same((formula.atoms.get(key) ?? 0) * times, count))
  );
}

function total(atoms: ReadonlyMap<string, number>): number {
  return [...atoms.values()].reduce((sum, count) => sum + count, 0);
}
