import type { Reference } from '../reference.ts';
import { abbreviationAt } from './abbreviations.ts';

/** Atoms of a formula, by element symbol or labelled isotope ("C-13", "H-2"), and the charge it carries. */
export interface Formula {
  readonly ok: true;
  readonly atoms: ReadonlyMap<string, number>;
  readonly charge: number;
}

export interface FormulaProblem {
  readonly ok: false;
  /** Index of the character that is wrong. */
  readonly at: number;
  readonly words: string;
}

const LONGEST = 300;
const DEEPEST = 20;
const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';
const DOTS = '·*.•⋅∙';
const CLOSING: Readonly<Record<string, string>> = { '(': ')', '[': ']', '{': '}' };

class Refused extends Error {
  readonly at: number;
  constructor(at: number, words: string) {
    super(words);
    this.at = at;
  }
}

/**
 * Reads a chemical formula: nested brackets, hydrates (`·`, `*`, `.`), Unicode subscripts, a charge at the end
 * (`NH4+` is one plus: digits that stand straight before a sign count atoms; write `SO4^2-` or `SO4²⁻` for two),
 * D, T and labels such as `[13C]`.
 * @returns the atoms, or the place and words of the first thing that is wrong. Never throws, for any text.
 */
export function parseFormula(text: string, reference: Reference): Formula | FormulaProblem {
  if (text.length > LONGEST) return { ok: false, at: LONGEST, words: 'a formula needs to be at most 300 characters long' };
  try {
    return new Reader(text, reference).whole();
  } catch (error) {
    if (error instanceof Refused) return { ok: false, at: error.at, words: error.message };
    throw error;
  }
}

class Reader {
  #at = 0;
  readonly #text: string;
  readonly #reference: Reference;

  constructor(text: string, reference: Reference) {
    this.#text = text;
    this.#reference = reference;
  }

  whole(): Formula {
    const atoms = new Map<string, number>();
    this.#blanks();
    if (this.#done()) throw new Refused(0, 'a formula is expected here, such as C6H12O6');
    this.#part(atoms);
    while (!this.#done() && DOTS.includes(this.#peek())) {
      this.#at += 1;
      this.#blanks();
      this.#part(atoms);
    }
    const charge = this.#charge();
    this.#blanks();
    if (!this.#done()) throw new Refused(this.#at, this.#unexpected());
    return { ok: true, atoms, charge };
  }

  /** A run of groups, with a factor in front as in ·5H2O. */
  #part(into: Map<string, number>): void {
    const factor = this.#factor();
    const found = this.#groups(0);
    if (found.size === 0) throw new Refused(this.#at, this.#unexpected());
    add(into, found, factor);
  }

  #groups(depth: number): Map<string, number> {
    const atoms = new Map<string, number>();
    for (;;) {
      this.#blanks();
      const one = this.#group(depth);
      if (!one) return atoms;
      add(atoms, one, this.#count());
    }
  }

  #group(depth: number): Map<string, number> | null {
    const open = this.#peek();
    const label = this.#label();
    if (label) return new Map([[label, 1]]);
    if (open in CLOSING) return this.#bracket(open, depth);
    const element = this.#element();
    return element ? new Map([[element, 1]]) : null;
  }

  #bracket(open: string, depth: number): Map<string, number> {
    const opened = this.#at;
    if (depth >= DEEPEST) throw new Refused(opened, 'brackets are nested too deeply');
    this.#at += 1;
    const inner = this.#groups(depth + 1);
    const close = CLOSING[open] ?? '';
    if (this.#done()) throw new Refused(opened, `this ${open} is never closed`);
    if (this.#peek() !== close) throw new Refused(this.#at, `"${close}" is expected here, not "${this.#peek()}"`);
    if (inner.size === 0) throw new Refused(opened, 'these brackets are empty');
    this.#at += 1;
    return inner;
  }

  /** `[13C]`, `(18O)` or `¹³C`: one labelled atom. */
  #label(): string | null {
    const rest = this.#text.slice(this.#at);
    const found = /^[[(](\d{1,3})([A-Z][a-z]?)[\])]/.exec(rest) ?? /^([⁰¹²³⁴⁵⁶⁷⁸⁹]{1,3})([A-Z][a-z]?)/.exec(rest);
    if (!found) return null;
    const key = `${found[2]}-${Number(plainDigits(found[1] ?? ''))}`;
    if (!this.#reference.isotope.has(key)) throw new Refused(this.#at, `the isotope ${found[0]} is not in the table`);
    this.#at += found[0].length;
    return key;
  }

  #element(): string | null {
    const letter = this.#peek();
    if (!/[A-Z]/.test(letter)) return null;
    const short = abbreviationAt(this.#text, this.#at);
    if (short) throw new Refused(this.#at, `${short.short} is an abbreviation: write its atoms (${short.formula})`);
    const two = this.#text.slice(this.#at, this.#at + 2);
    const symbol = two.length === 2 && this.#reference.element.has(two) ? two : letter;
    const label = ({ D: 'H-2', T: 'H-3' } as Readonly<Record<string, string>>)[symbol];
    if (!label && !this.#reference.element.has(symbol)) throw new Refused(this.#at, `"${two}" is not an element`);
    this.#at += symbol.length;
    return label ?? symbol;
  }

  #count(): number {
    const found = /^(\d{1,6}|[₀₁₂₃₄₅₆₇₈₉]{1,6})/.exec(this.#text.slice(this.#at));
    if (!found) return 1;
    const count = Number(plainDigits(found[0]));
    if (count === 0) throw new Refused(this.#at, 'a count needs to be at least 1');
    this.#at += found[0].length;
    return count;
  }

  #factor(): number {
    const found = /^(\d{1,4}(?:\.\d{1,4})?|½)\s*/.exec(this.#text.slice(this.#at));
    if (!found) return 1;
    const factor = found[1] === '½' ? 0.5 : Number(found[1]);
    if (factor === 0) throw new Refused(this.#at, 'a count needs to be at least 1');
    this.#at += found[0].length;
    return factor;
  }

  #charge(): number {
    this.#blanks();
    const found = /^(?:\^?\(?\^?(\d?)([+\-−])\)?|([⁰¹²³⁴⁵⁶⁷⁸⁹]?)([⁺⁻])|(\++|-+|−+))$/.exec(this.#text.slice(this.#at).trimEnd());
    if (!found) return 0;
    this.#at = this.#text.length;
    if (found[5]) return (found[5].startsWith('+') ? 1 : -1) * found[5].length;
    const size = Number(plainDigits(found[1] || found[3] || '1'));
    return found[2] === '+' || found[4] === '⁺' ? size : -size;
  }

  #unexpected(): string {
    if (this.#done()) return 'an element is expected here';
    const here = this.#peek();
    if (/[a-z]/.test(here)) return `"${here}" is not an element; symbols begin with a capital`;
    return `"${here}" is not expected here`;
  }

  #blanks(): void {
    while (!this.#done() && /\s/.test(this.#peek())) this.#at += 1;
  }
  #peek(): string {
    return this.#text[this.#at] ?? '';
  }
  #done(): boolean {
    return this.#at >= this.#text.length;
  }
}

function add(into: Map<string, number>, from: ReadonlyMap<string, number>, times: number): void {
  for (const [symbol, count] of from) into.set(symbol, (into.get(symbol) ?? 0) + count * times);
}

function plainDigits(text: string): string {
  return [...text]
    .map((digit) =>
      SUBSCRIPTS.includes(digit) ? SUBSCRIPTS.indexOf(digit) : SUPERSCRIPTS.includes(digit) ? SUPERSCRIPTS.indexOf(digit) : digit,
    )
    .join('');
}

/** Writes a formula with subscripts, as it is printed: C14H10O2 → C₁₄H₁₀O₂. Text that is no formula stays as it is. */
export function prettyFormula(text: string): string {
  return text.replaceAll(/(?<=[A-Za-z)\]])\d+/g, (digits) => [...digits].map((digit) => SUBSCRIPTS[Number(digit)]).join(''));
}
