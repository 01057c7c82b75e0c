import type { Material } from '../core/matter/material.ts';
import { tableDoubts } from '../core/matter/table-doubts.ts';
import type { FileProblem } from '../core/port/result.ts';
import type { Reference } from '../core/reference.ts';

/**
 * What speaks against a file's materials, each at its place: the built-in tables (a CAS number that belongs to another
 * material, a hazard statement that does not exist), and structures that cannot be read or do not fit their formula. The
 * reader of structures is large, so it is loaded only where there is a structure.
 */
export async function materialDoubts(
  materials: Readonly<Record<string, Material>>,
  reference: Reference,
): Promise<readonly FileProblem[]> {
  const doubts = tableDoubts(materials, reference);
  if (Object.values(materials).every((material) => material.smiles === undefined)) return doubts;
  const { structureProblems } = await import('../core/structure/agreement.ts');
  return [...doubts, ...structureProblems(materials, reference)];
}
