import type { Facts } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { Reference } from '../reference.ts';
import type { Charge, Step } from '../route/route.ts';
import { hazardsOf } from './hazards.ts';

/** Explosives of every division, unstable and desensitised ones too, and what explodes when it is heated. */
const EXPLODES = /^(H20\d|H21[01]|H24[01])$/;
/** Explosives proper: a vessel that holds one is a mixture that may explode. */
const EXPLOSIVE = /^H20[0-5]$/;

export interface Explosive {
  readonly material: string;
  readonly name: string;
  /** The statements that say so. */
  readonly codes: string;
  readonly how: 'made' | 'charged';
}

/**
 * The first material by which a step is classed as explosive: one it makes that is, or that explodes on heating (H200 to
 * H211, H240, H241), or one it charges, in the form it names, that is an explosive (H200 to H205); null where there is
 * none. A material without an entry is not known to be one, which is not the same as harmless.
 * Source: statements of the CLP Regulation (EC) 1272/2008, Annexes III and VI, or as given with the material.
 */
export function explosiveIn(step: Step, facts: ReadonlyMap<string, Facts>, reference: Reference): Explosive | null {
  for (const { material } of step.equation.makes) {
    const found = classed(material, facts, (one) => hazardsOf(one, NEAT, reference)?.statements ?? [], EXPLODES);
    if (found) return { ...found, how: 'made' };
  }
  for (const charge of step.operations.filter((one): one is Charge => one.do === 'charge')) {
    const form = charge.form ?? NEAT;
    const found = classed(charge.material, facts, (one) => hazardsOf(one, form, reference)?.statements ?? [], EXPLOSIVE);
    if (found) return { ...found, how: 'charged' };
  }
  return null;
}

function classed(
  material: string,
  facts: ReadonlyMap<string, Facts>,
  statements: (one: Facts) => readonly string[],
  which: RegExp,
): Omit<Explosive, 'how'> | null {
  const one = facts.get(material);
  // Joined codes, e.g. "H300+H310", are each looked at.
  const codes = one ? statements(one).filter((code) => code.split('+').some((part) => which.test(part.trim()))) : [];
  return one && codes.length > 0 ? { material, name: one.name, codes: codes.join(', ') } : null;
}
