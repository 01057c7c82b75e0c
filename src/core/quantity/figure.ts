/**
 * A figure: a number that can say where it came from. Everything the program computes is one, so that
 * "explain this number" works everywhere and no value loses its source.
 */

/** Units a figure may carry. Internal units are fixed; what is shown may be scaled (mg, mmol, L). */
export type Unit =
  | 'mol'
  | 'g'
  | 'mL'
  | 'g/mL'
  | 'g/mol'
  | 'mol/L'
  | 'mol/kg'
  | 'mol/mL'
  | 'mol/g'
  | 'g/L'
  | 'g/g'
  | 'mL/g'
  | 'mL/mol'
  | '°C'
  | 'kJ'
  | 'kJ/mol'
  | 'K'
  | 'J/(g·K)'
  | 'min'
  | 'W'
  | 'W/(m²·K)'
  | 'm²'
  | '%'
  | 'L'
  | 'L/min'
  | 'mL/min'
  | 'bar·L'
  | '';

/** How far a value can be trusted when it was not read from its source directly. */
export type Mark = 'from memory' | 'model' | 'formula' | 'estimate' | 'common practice, no source';

export type Provenance =
  | { readonly kind: 'entered'; readonly where: string }
  | { readonly kind: 'source'; readonly source: string; readonly mark?: Mark }
  | { readonly kind: 'computed'; readonly how: string; readonly of: readonly Figure[] };

export interface Figure<U extends Unit = Unit> {
  /** Short label that `explain` shows, e.g. "benzil needed". */
  readonly label: string;
  readonly value: number;
  readonly unit: U;
  /** Significant digits the value deserves. */
  readonly digits: number;
  readonly from: Provenance;
}

/** A double carries 15 significant decimal digits safely; a counted or defined number deserves all of them. */
export const EXACT = 15;
/** Planning amounts are never shown with fewer significant digits than this. */
export const LEAST_DIGITS = 3;

/** A value the person typed. `where` says in which field or file place. */
export function entered<U extends Unit>(label: string, value: number, unit: U, where: string, digits = EXACT): Figure<U> {
  return { label, value, unit, digits, from: { kind: 'entered', where } };
}

/** A value taken from a table or a publication. */
export function sourced<U extends Unit>(
  label: string,
  value: number,
  unit: U,
  source: string,
  digits: number,
  mark?: Mark,
): Figure<U> {
  return { label, value, unit, digits, from: mark ? { kind: 'source', source, mark } : { kind: 'source', source } };
}

/** A value computed from other figures; deserves as many digits as the poorest of them, but at least three. */
export function computed<U extends Unit>(label: string, value: number, unit: U, how: string, of: readonly Figure[]): Figure<U> {
  const digits = of.reduce((least, figure) => Math.min(least, figure.digits), EXACT);
  return { label, value, unit, digits: Math.max(LEAST_DIGITS, digits), from: { kind: 'computed', how, of } };
}

/** The marks ("from memory", "estimate" …) found anywhere in a figure's ancestry, each once. */
export function marksOf(figure: Figure): readonly Mark[] {
  const marks = new Set<Mark>();
  const seen = new Set<Figure>();
  const visit = (one: Figure): void => {
    if (seen.has(one)) return;
    seen.add(one);
    if (one.from.kind === 'source' && one.from.mark) marks.add(one.from.mark);
    if (one.from.kind === 'computed') one.from.of.forEach(visit);
  };
  visit(figure);
  return [...marks];
}
