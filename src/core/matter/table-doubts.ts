import type { FileProblem } from '../port/result.ts';
import type { Reference } from '../reference.ts';
import { pointer } from '../words/file-problems.ts';
import { materialWords } from '../words/material-words.ts';
import { casDoubt } from './cas.ts';
import { readHazardCode } from './hazard-code.ts';
import type { Material } from './material.ts';

/**
 * What the built-in tables have against a file's materials, each at its place: a CAS number that belongs to another
 * material than the name or the formula, a hazard statement that does not exist.
 */
export function tableDoubts(materials: Readonly<Record<string, Material>>, reference: Reference): readonly FileProblem[] {
  return Object.entries(materials).flatMap(([key, material]): readonly FileProblem[] => {
    const doubt = casDoubt(material, reference);
    const about = { at: pointer(['materials', key, 'cas']) };
    const hazards = (material.hazards ?? []).flatMap((code, index): readonly FileProblem[] => {
      const read = readHazardCode(code, reference);
      return read.ok ? [] : [{ at: pointer(['materials', key, 'hazards', index]), words: read.words }];
    });
    return [...(doubt ? [{ ...about, words: materialWords.casDoubt(doubt) }] : []), ...hazards];
  });
}
