import { parseFormula } from '../matter/formula.ts';
import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import { structureProblem } from './agreement.ts';
import { structureWords } from '../words/structure-words.ts';
import { hillFormula } from './hill.ts';
import { readStructure, smilesOf } from './structure.ts';

export type Drawn = { readonly ok: true; readonly material: Material } | { readonly ok: false; readonly words: string };

/**
 * A material with this structure, pasted as SMILES or molfile and kept as SMILES. A material without a formula takes that
 * of its structure; one whose formula differs from it is refused with words. An empty text takes the structure away.
 * @param known the formula the built-in table has for it, if any.
 */
export function withStructure(material: Material, pasted: string, known: string | undefined, reference: Reference): Drawn {
  if (pasted.trim() === '') {
    const { smiles: _, ...rest } = material;
    return { ok: true, material: rest };
  }
  const read = readStructure(pasted);
  if (!read.ok) return read;
  const written = /[\r\n]/.test(pasted.trim()) ? smilesOf(pasted) : { ok: true as const, smiles: pasted.trim() };
  if (!written.ok) return written;
  const formula = material.formula ?? known;
  const wrong = structureProblem(written.smiles, formula, reference);
  if (wrong) return wrong;
  return {
    ok: true,
    material: { ...material, smiles: written.smiles, ...(formula === undefined ? { formula: read.formula } : {}) },
  };
}

/**
 * A material with what was typed: a formula, or a structure that brings its formula along. What reads as both (CCO is C2O
 * and ethanol) is a question, never a guess.
 */
export function withFormulaOrStructure(material: Material, typed: string, reference: Reference): Drawn {
  const text = typed.trim();
  const formula = parseFormula(text, reference);
  const structure = withStructure(material, text, undefined, reference);
  const drawn = structure.ok ? structure.material.formula : undefined;
  if (formula.ok && drawn !== undefined && drawn !== hillFormula(formula.atoms, formula.charge))
    return { ok: false, words: structureWords.formulaOrStructure(text, hillFormula(formula.atoms, formula.charge), drawn) };
  if (formula.ok) return { ok: true, material: { ...material, formula: text } };
  return structure.ok ? structure : { ok: false, words: formula.words };
}
