import type { Reference } from '../../core/reference.ts';
import type { ReadRow } from '../../core/shelf/import/read-row.ts';
import { shownCell } from '../../core/shelf/import/table.ts';
import { structureWords } from '../../core/words/structure-words.ts';

/** The rows with what speaks against their structures. The reader of structures is large: it is loaded only where there is one. */
export async function withStructures(
  rows: readonly ReadRow[],
  column: number | null,
  reference: Reference,
): Promise<readonly ReadRow[]> {
  if (rows.every((row) => row.material?.smiles === undefined)) return rows;
  const { structureProblem } = await import('../../core/structure/agreement.ts');
  const known = new Map<string, string | null>();
  return rows.map((row) => {
    const { smiles, formula } = row.material ?? {};
    if (smiles === undefined) return row;
    const key = `${smiles}\n${formula ?? ''}`;
    if (!known.has(key)) {
      const many = /[\r\n]/.test(smiles.trim());
      known.set(key, many ? structureWords.oneLine : (structureProblem(smiles, formula, reference)?.words ?? null));
    }
    const words = known.get(key) ?? null;
    return words === null ? row : { ...row, problems: [...row.problems, { column, value: shownCell(smiles), words }] };
  });
}
