import type { Facts } from '../matter/facts.ts';
import { computed, entered, type Figure, sourced } from '../quantity/figure.ts';
import type { Step, Term } from '../route/route.ts';
import { type Maybe, known, unknown } from '../words/why.ts';

/** Elements as they stand at 25 °C and 1 bar: their heat of formation is 0 by definition. */
const REFERENCE_STATES = new Set('H2 N2 O2 F2 Cl2 Br2 I2 Li Na K Mg Ca Al Sn Zn Fe Cu Ni Pd Pt'.split(' '));

/**
 * Enthalpy of an equation as it is written, kJ per mol of it: Σ ν·ΔfH of what it makes − Σ ν·ΔfH of what it uses;
 * negative where heat is given off. Source: Hess' law.
 * @param formation heats of formation by material, kJ/mol, in the states in which they react.
 * @returns why not, where one is missing. Elements in their reference state count as 0.
 */
export function enthalpyOf(
  { uses, makes }: Step['equation'],
  formation: Readonly<Record<string, number>>,
  facts: ReadonlyMap<string, Facts>,
): Maybe<'kJ/mol'> {
  const of: Figure[] = [];
  let sum = 0;
  const add = ({ material, coefficient }: Term, sign: number): string | null => {
    const figure = formationOf(material, formation, facts);
    if (!figure) return facts.get(material)?.name ?? material;
    sum += sign * coefficient * figure.value;
    of.push(entered('coefficient', coefficient, '', 'the equation'), figure);
    return null;
  };
  const missing = [...uses.map((term) => add(term, -1)), ...makes.map((term) => add(term, 1))].filter((one) => one !== null);
  if (missing.length > 0) return unknown('no heat of formation', { materials: missing.join(', ') });
  return known(computed('enthalpy of the equation', sum, 'kJ/mol', 'heats of formation, made − used', of));
}

function formationOf(
  material: string,
  formation: Readonly<Record<string, number>>,
  facts: ReadonlyMap<string, Facts>,
): Figure<'kJ/mol'> | null {
  const own = facts.get(material);
  const label = `heat of formation of ${own?.name ?? material}`;
  const value = formation[material];
  if (value !== undefined) return entered(label, value, 'kJ/mol', 'the step');
  if (!own?.formula || !REFERENCE_STATES.has(own.formula)) return null;
  return sourced(label, 0, 'kJ/mol', 'an element in its reference state', 15);
}
