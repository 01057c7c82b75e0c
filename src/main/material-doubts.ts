import type { Material } from '../core/matter/material.ts';
import type { FileProblem } from '../core/port/result.ts';
import type { Reference } from '../core/reference.ts';

/**
 * What the structures have against a file's materials, each at its place: one that cannot be read or does not fit its
 * formula. The reader of structures is large, so it is loaded only where there is a structure.
 */
export async function materialDoubts(
  materials: Readonly<Record<string, Material>>,
  reference: Reference,
): Promise<readonly FileProblem[]> {
  if (Object.values(materials).every((material) => material.smiles === undefined)) return [];
  const { structureProblems } = await import('../core/structure/agreement.ts');
  return structureProblems(materials, reference);
}
