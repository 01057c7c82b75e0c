import { foldCell } from './read-cells.ts';

/** A strength as a spreadsheet has it, with the words around its number taken apart. */
export interface StrengthSaid {
  /** Number and basis alone. */
  readonly text: string;
  /** The solvent that is named; undefined where none is. */
  readonly solvent: string | undefined;
  /** What is said of the number: a least value, or only about. */
  readonly loosely: 'least' | 'about' | null;
  /** Two numbers, of which neither is the strength. */
  readonly range: boolean;
}

const SYMBOL = /^c\s*(?:\([^()]*\))?\s*=\s*/;
const LEAST = /^(?:≥|>=|>|min\.?\s|at\s+least\s)\s*/i;
const ABOUT = /^(?:~|≈|ca\.?|approx\.?|about)\s*(?=[\d.,])/i;
const IN = /^(.*\S)\s+in\s+(\S.*)$/i;
const WATERY = /\s+(?:aq\.?|aqueous)$/i;
const IN_ALCOHOL = /\s+(methanol|ethanol)ic$/i;
const SOLUTION = /\s+(?:solution|soln\.?|sol\.?)$/i;
const RANGE = /^\d+(?:[.,]\d+)?\s*%?\s*(?:-|to|bis)\s*\d/;

/**
 * Takes a strength apart: `c(HCl) = 0.1 mol/L`, `2.5 M in hexanes`, `37 % w/w aq.`, `ca. 25 wt%`, `37 % w/w HCl`.
 * @param cell as it stands in the file. @param names what the material goes by: one of them behind the strength is left away.
 */
export function strengthSaid(cell: string, names: readonly string[]): StrengthSaid {
  let text = foldCell(cell).replace(SYMBOL, '');
  const loosely = LEAST.test(text) ? 'least' : ABOUT.test(text) ? 'about' : null;
  text = text.replace(LEAST, '').replace(ABOUT, '');
  let solvent: string | undefined;
  const found = IN.exec(text);
  if (found) [, text = '', solvent] = found;
  else if (WATERY.test(text)) [text, solvent] = [text.replace(WATERY, ''), 'water'];
  else if (IN_ALCOHOL.test(text)) [text, solvent] = [text.replace(IN_ALCOHOL, ''), IN_ALCOHOL.exec(text)?.[1]?.toLowerCase()];
  text = text.replace(SOLUTION, '');
  const name = names.find((one) => one !== '' && text.toLowerCase().endsWith(` ${one.toLowerCase()}`));
  if (name !== undefined) text = text.slice(0, -name.length).trimEnd();
  return { text, solvent, loosely, range: RANGE.test(text) };
}
