import { computed, EXACT, type Figure, sourced } from '../quantity/figure.ts';
import { formatSignificant } from '../quantity/format.ts';
import type { Reference } from '../reference.ts';
import type { ElementRow } from '../reference-rows.ts';
import { type FormulaProblem, parseFormula } from './formula.ts';

const WEIGHTS = 'CIAAW standard atomic weights 2021: Prohaska et al., Pure Appl. Chem. 94 (2022) 573';
const ISOTOPES = 'AME2020 isotope masses';

export interface MolarMass {
  readonly ok: true;
  readonly figure: Figure<'g/mol'>;
  /** Standard uncertainty, g/mol. */
  readonly uncertainty: number;
}

/**
 * Molar mass of a formula, g/mol, from the standard atomic weights of 2021 (conventional value where CIAAW gives an
 * interval). Uncertainty: each element's bounds taken as rectangular, linear within an element, in quadrature
 * between elements.
 * @returns a problem where the formula cannot be read or an element has no standard atomic weight.
 */
export function molarMass(formula: string, reference: Reference): MolarMass | FormulaProblem {
  const parsed = parseFormula(formula, reference);
  if (!parsed.ok) return parsed;
  let mass = 0;
  let variance = 0;
  const parts: Figure[] = [];
  for (const [symbol, count] of parsed.atoms) {
    const atom = atomOf(symbol, reference);
    if (!atom) return { ok: false, at: 0, words: `${symbol} has no standard atomic weight` };
    mass += count * atom.weight;
    variance += (count * atom.uncertainty) ** 2;
    parts.push(sourced(count === 1 ? symbol : `${symbol} × ${count}`, atom.weight, 'g/mol', atom.source, EXACT));
  }
  const uncertainty = Math.sqrt(variance);
  const how = `sum of atomic weights, standard uncertainty ${formatSignificant(uncertainty, 2)} g/mol`;
  const figure = computed(`molar mass of ${formula}`, mass, 'g/mol', how, parts);
  return { ok: true, figure: { ...figure, digits: digitsFor(mass, uncertainty) }, uncertainty };
}

function atomOf(symbol: string, reference: Reference): { weight: number; uncertainty: number; source: string } | null {
  const isotope = reference.isotope.get(symbol);
  if (isotope) return { weight: isotope.mass, uncertainty: 0, source: ISOTOPES };
  const element = reference.element.get(symbol);
  if (!element || element.weight === null) return null;
  return { weight: element.weight, uncertainty: standardUncertainty(element), source: WEIGHTS };
}

/** Half-width of the bounds over √3: a rectangular distribution. */
function standardUncertainty(element: ElementRow): number {
  const half = element.low !== null && element.high !== null ? (element.high - element.low) / 2 : (element.uncertainty ?? 0);
  return half / Math.sqrt(3);
}

/** Digits down to the last whose step is no finer than the uncertainty, as handbooks print them; between 4 and 8. */
function digitsFor(mass: number, uncertainty: number): number {
  if (uncertainty === 0) return 8;
  const digits = Math.floor(Math.log10(mass)) - Math.ceil(Math.log10(uncertainty)) + 1;
  return Math.min(8, Math.max(4, digits));
}
