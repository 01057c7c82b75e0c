import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { type Facts, factsOf, foldName } from './facts.ts';
import { type Form, solventOf } from './form.ts';
import type { Material } from './material.ts';

const names = new WeakMap<Reference, ReadonlyMap<string, MaterialRow>>();

/** The built-in material of a name or synonym, case and spaces aside; null where the table has none. */
export function materialNamed(name: string, reference: Reference): MaterialRow | null {
  let known = names.get(reference);
  if (!known) {
    const rows = reference.rows.materials.map((row) => [foldName(row.name), row] as const);
    const others = reference.rows.synonyms.flatMap(({ synonym, cas }) => {
      const row = reference.material.get(cas);
      return row ? [[foldName(synonym), row] as const] : [];
    });
    known = new Map([...others, ...rows]);
    names.set(reference, known);
  }
  return known.get(foldName(name)) ?? null;
}

const solvents = new WeakMap<Reference, Map<string, Facts | null>>();

/** What is known of a solution's solvent; null for what is no solution, and for a solvent the table does not know. */
export function solventFacts(form: Form, reference: Reference): Facts | null {
  if (form.kind !== 'solution') return null;
  const name = solventOf(form);
  const known = solvents.get(reference) ?? new Map<string, Facts | null>();
  solvents.set(reference, known);
  const found = known.get(name);
  if (found !== undefined) return found;
  const row = materialNamed(name, reference);
  const material: Material | null = row && { name: row.name, cas: row.cas, formula: row.formula };
  const facts = material && factsOf(material, reference);
  known.set(name, facts);
  return facts;
}

/** Whether two solutions are in one solvent, by whichever of its names: THF is tetrahydrofuran. Nothing said is water. */
export function sameSolvent(
  one: { readonly solvent?: string | undefined },
  other: { readonly solvent?: string | undefined },
  reference: Reference,
): boolean {
  const [a, b] = [solventOf(one), solventOf(other)];
  if (a === b) return true;
  const [known, wanted] = [materialNamed(a, reference), materialNamed(b, reference)];
  return known !== null && known.cas === wanted?.cas;
}
