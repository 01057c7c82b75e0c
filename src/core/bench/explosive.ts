import { explosiveKey } from '../matter/explosive-name.ts';
import { type Facts, factsOf, foldName } from '../matter/facts.ts';
import { type Form, NEAT, solventOf } from '../matter/form.ts';
import type { Reference } from '../reference.ts';
import { rememberOfThree } from '../remember.ts';
import type { Step } from '../route/route.ts';
import type { Why } from '../words/why.ts';
import { type ExplosiveKind, explosiveKindOf } from './explosive-structure.ts';
import { hazardsOf, isExplosiveCode, listedHazards } from './hazards.ts';

/** Explosives, and what explodes when it is heated. */
const explodes = (code: string): boolean =>
  isExplosiveCode(code) || code.split('+').some((part) => /^H24[01]$/.test(part.trim()));

export interface Explosive {
  readonly material: string;
  readonly name: string;
  /** The statements that say so; empty where the structure does. */
  readonly codes: string;
  /** What its structure holds; empty where statements say so. */
  readonly structure: ExplosiveKind | '';
  /** Where its statements come from; empty where its structure tells. */
  readonly source: string;
  readonly how: 'made' | 'charged';
}

/**
 * The first material by which a step is classed as explosive, or counts as such by its structure: one it makes that is,
 * or that explodes on heating (H200 to H211, H240, H241), or one it charges, in the form it names or as a solvent, that
 * is an explosive (H200 to H211), desensitised ones too: what tames them is thinned or taken away in a vessel. Null where
 * there is none. Found by CAS number, by name and by another name. What a person writes with a material adds to its
 * harmonised entry and takes nothing from it. A material without entry and structure is not known to be one, which is not
 * the same as harmless.
 * Source: statements of the CLP Regulation (EC) 1272/2008, Annexes III and VI, or as given with the material; structures
 * as in explosive-structure.ts.
 */
export const explosiveIn = rememberOfThree(
  (step: Step, facts: ReadonlyMap<string, Facts>, reference: Reference): Explosive | null => {
    for (const { material } of step.equation.makes) {
      const found = explosive(material, facts.get(material), NEAT, explodes, reference);
      if (found) return { ...found, how: 'made' };
    }
    for (const [material, one, form] of charged(step, facts, reference)) {
      const found = explosive(material, one, form, isExplosiveCode, reference);
      // A thin azide is asked about where it is made; bought, its supplier has classed it.
      if (found && found.structure !== 'azide') return { ...found, how: 'charged' };
    }
    return null;
  },
);

/** The reason that a step is not scaled, for its sentence. @param title of the step. */
export function explosiveWhy({ name, codes, structure, source, how }: Explosive, title: string): Why {
  return { code: 'explosive not scaled', values: { material: name, codes, structure, source, how, step: title } };
}

/** Whether a material is an explosive in a form: then nothing is made up from it. Source: as explosiveIn. */
export function isExplosive(one: Facts, form: Form, reference: Reference): boolean {
  return explosive('', one, form, isExplosiveCode, reference) !== null;
}

const byName = new WeakMap<ReadonlyMap<string, Facts>, ReadonlyMap<string, string>>();

/** Keys of a route's materials by their folded names; made once for a route, since every keystroke asks. */
function keysByName(facts: ReadonlyMap<string, Facts>): ReadonlyMap<string, string> {
  const known = byName.get(facts) ?? new Map([...facts].map(([key, one]) => [foldName(one.name), key]));
  byName.set(facts, known);
  return known;
}

/** Everything a step puts into its vessel, solvents that come along too. */
function charged(
  step: Step,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
): readonly (readonly [string, Facts | undefined, Form])[] {
  const named = (name: string) => keysByName(facts).get(foldName(name));
  const carried = (material: string) => [material, facts.get(material), NEAT] as const;
  const solvent = (form: Form): readonly (readonly [string, Facts | undefined, Form])[] => {
    if (form.kind !== 'solution') return [];
    const name = solventOf(form);
    const found = named(name);
    if (found !== undefined) return [carried(found)];
    return explosiveKey([name], reference) === null ? [] : [[name, factsOf({ name }, reference), NEAT]];
  };
  const recrystallised = step.recrystallise ? named(step.recrystallise.solvent) : undefined;
  return [
    ...step.operations.flatMap((one) => {
      if (one.do !== 'charge') return [];
      const form = one.form ?? NEAT;
      return [
        [one.material, facts.get(one.material), form] as const,
        ...solvent(form),
        ...(one.carriedWith ? [carried(one.carriedWith.material)] : []),
      ];
    }),
    ...(step.carriedWith ? [carried(step.carriedWith.material)] : []),
    ...(recrystallised === undefined ? [] : [carried(recrystallised)]),
  ];
}

function explosive(
  material: string,
  one: Facts | undefined,
  form: Form,
  which: (code: string) => boolean,
  reference: Reference,
): Omit<Explosive, 'how'> | null {
  if (!one) return null;
  const listed = listedHazards(one, form, reference);
  const given = hazardsOf(one, form, reference);
  const found = [listed, given].find((all) => all?.statements.some(which));
  const codes = [...new Set([listed, given].flatMap((all) => all?.statements ?? []))].filter(which);
  const structure = found ? '' : (explosiveKindOf(one, reference) ?? '');
  if (!found && structure === '') return null;
  return { material, name: one.name, codes: codes.join(', '), structure, source: found?.source ?? '' };
}
