import { type ParsedQuantity, type ParseProblem, parseQuantity } from '../quantity/parse.ts';
import { solutionWords as words } from '../words/solution-words.ts';
import type { Form, Strength } from './form.ts';

/** An amount of a solution as typed, with the strength it is to have. */
export interface TypedSolution {
  readonly ok: true;
  /** In g, mL or (of the solute) mol. */
  readonly amount: { readonly by: 'g' | 'mL' | 'mol'; readonly value: number };
  readonly strength: Strength | 'saturated';
}

const OF = /\s(?:of|@)\s/;
const SATURATED = /^\s*(?:a\s+)?saturated(?:\s+solution)?\s*$/i;
const PER_MOLE = /\s*\(\s*(\d+(?:[.,]\d+)?)\s*(?:eq\s*)?per\s+mol\s*\)\s*$/;

/**
 * Reads what is wanted as a chemist says it: `250 mL of 3 mol/L`, `1 kg of 70 % w/w`, `0.5 mol of 2 mol/L`, `100 mL of saturated`. A strength
 * in eq/L names its equivalents: `1 L of 2 eq/L (2 per mol)`.
 * @returns amount and strength, or the index of the character that is wrong and what was expected.
 */
export function readSolution(text: string): TypedSolution | ParseProblem {
  const of = OF.exec(text);
  if (!of) return withoutStrength(text);
  const amount = parseQuantity(text.slice(0, of.index));
  if (!amount.ok) return { ...amount, at: Math.min(amount.at, of.index) };
  const { dimension } = amount.entry;
  if (dimension === 'strength') return { ok: false, at: 0, words: words.read.amountFirst };
  const value = amount.base * amount.portions;
  if (!(value > 0)) return { ok: false, at: 0, words: words.read.above };
  const from = of.index + of[0].length;
  const saturated = SATURATED.test(text.slice(from));
  const strength = saturated ? ({ ok: true, value: 'saturated' } as const) : readStrength(text.slice(from));
  if (!strength.ok) return { ...strength, at: strength.at + from };
  const by = ({ mass: 'g', volume: 'mL', amount: 'mol' } as const)[dimension];
  return { ok: true, amount: { by, value }, strength: strength.value };
}

function withoutStrength(text: string): ParseProblem {
  const alone = parseQuantity(text);
  if (!alone.ok) return alone;
  const missing = alone.entry.dimension === 'strength' ? words.read.needsAmount : words.read.needsStrength;
  return { ok: false, at: text.length, words: missing };
}

/** Reads a strength with its basis: `70 % w/w`, `3 mol/L`, `2 eq/L (2 per mol)`. */
function readStrength(text: string): { readonly ok: true; readonly value: Strength } | ParseProblem {
  const per = PER_MOLE.exec(text);
  const read = parseQuantity(per ? text.slice(0, per.index) : text);
  if (!read.ok) return read;
  if (read.entry.dimension !== 'strength' || read.portions !== 1) return { ok: false, at: 0, words: words.read.strengthHere };
  if (!(read.value > 0)) return { ok: false, at: 0, words: words.read.above };
  const { value, basis } = strengthTyped(read);
  if (basis !== 'eq/L') return { ok: true, value: { value, basis } };
  const equivalentsPerMole = Number((per?.[1] ?? '').replace(',', '.'));
  if (!(equivalentsPerMole > 0 && equivalentsPerMole <= 100)) return { ok: false, at: text.length, words: words.read.perMole };
  return { ok: true, value: { value, basis, equivalentsPerMole } };
}

/** A strength on the basis it is kept in: 500 mmol/L is 0.5 mol/L. @param read a quantity whose dimension is a strength. */
export function strengthTyped({ value, base, unit, entry }: ParsedQuantity): Pick<Strength, 'value' | 'basis'> {
  // Fifteen digits are what was typed: 35 × 0.001 is 0.035. What is on its basis already stays to the last digit.
  return { value: unit === entry.base ? value : Number(base.toPrecision(15)), basis: entry.base as Strength['basis'] };
}

const NEAT = /^\s*(?:neat|pure)?\s*(?:(?:assay\s*)?(\d+(?:[.,]\d+)?)\s*%?)?\s*$/i;

/**
 * Reads how a material stands in a bottle that is not on the shelf: `98 % w/w`, `3 mol/L`, `neat`, `assay 95 %`.
 * @param solvent of a solution; undefined for water.
 */
export function readPresented(
  text: string,
  solvent: string | undefined,
): { readonly ok: true; readonly form: Form } | ParseProblem {
  const neat = /^\s*(neat|pure|assay)\b/i.test(text) ? NEAT.exec(text.replace(/\s*w\/w\s*$/i, '')) : null;
  if (neat) {
    const assay = neat[1] === undefined ? undefined : Number(neat[1].replace(',', '.'));
    if (assay === undefined) return { ok: true, form: { kind: 'neat' } };
    if (assay > 0 && assay <= 100) return { ok: true, form: { kind: 'neat', assayPercent: assay } };
    return { ok: false, at: text.search(/\d/), words: words.read.assay };
  }
  const strength = readStrength(text);
  if (!strength.ok) return strength;
  return { ok: true, form: { kind: 'solution', strength: strength.value, ...(solvent === undefined ? {} : { solvent }) } };
}
