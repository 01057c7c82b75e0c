import { type Signal, useComputed, useSignal, useSignalEffect } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { type Facts, factsOf } from '../../../core/matter/facts.ts';
import { hydrateOf } from '../../../core/matter/hydrate.ts';
import type { Material } from '../../../core/matter/material.ts';
import { anhydrousOf, sameSubstance } from '../../../core/matter/solution-parts.ts';
import type { Reference } from '../../../core/reference.ts';
import type { Bottle } from '../../../core/shelf/shelf.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { reference, shelfChanges } from '../../state/workbook.ts';
import { solutionDraft } from './make-solution-draft.ts';

/** A bottle of the substance, with what is known of its material. */
export interface SourceBottle {
  readonly bottle: Bottle;
  readonly material: Material;
  readonly facts: Facts;
}

export interface Bottles {
  /** Null until they are read. */
  readonly list: Signal<readonly SourceBottle[] | null>;
  readonly trouble: Signal<string>;
}

/** Bottles of the substance on the shelf, hydrates of it too, read again whenever the shelf changes. */
export function useSourceBottles(): Bottles {
  const list = useSignal<readonly SourceBottle[] | null>(null);
  const trouble = useSignal('');
  const question = useRef(0);
  // The material alone, so that typing an amount does not ask the shelf again.
  const material = useComputed(() => solutionDraft.value?.material ?? null);
  const read = async (of: Material, tables: Reference): Promise<void> => {
    question.current += 1;
    const mine = question.current;
    const answer = await readBottles(of, tables);
    if (mine !== question.current) return;
    trouble.value = typeof answer === 'string' ? answer : '';
    if (typeof answer !== 'string') list.value = answer;
  };
  useSignalEffect(() => {
    void shelfChanges.value;
    if (material.value && reference.value) void read(material.value, reference.value);
  });
  return { list, trouble };
}

async function readBottles(material: Material, tables: Reference): Promise<readonly SourceBottle[] | string> {
  const answer = await call('shelf.snapshot', { materials: [...relatives(material, tables)] });
  if (!answer.ok) return troubleWords(answer);
  const own = factsOf(material, tables);
  return answer.value.bottles.flatMap((bottle) => {
    const found = answer.value.materials[bottle.material];
    if (!found || bottle.left <= 0) return [];
    const facts = factsOf(found, tables);
    return sameSubstance(own, facts, tables) ? [{ bottle, material: found, facts }] : [];
  });
}

/** The material, its anhydrous form, and the hydrates of it that the built-in table knows. */
function relatives(material: Material, tables: Reference): readonly Material[] {
  const base = anhydrousOf(factsOf(material, tables), tables);
  const hydrates = tables.rows.materials.filter((row) => {
    if (base.formula === null || !row.formula.startsWith(`${base.formula}·`)) return false;
    const facts = factsOf({ name: row.name, cas: row.cas }, tables);
    return hydrateOf(facts, tables) !== null && sameSubstance(base, facts, tables);
  });
  const named = (name: string, cas: string | null): Material => ({ name, ...(cas === null ? {} : { cas }) });
  return [material, named(base.name, base.cas), ...hydrates.map((row) => named(row.name, row.cas))];
}
