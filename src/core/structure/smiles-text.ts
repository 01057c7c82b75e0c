import { structureWords } from '../words/structure-words.ts';

/** One atom as a SMILES writes it. */
export interface SmilesAtom {
  /** Index of its first character. */
  readonly at: number;
  readonly element: string;
  readonly aromatic: boolean;
  /** Hydrogens written beside it in brackets; null outside brackets, where the bonds decide. */
  readonly hydrogens: number | null;
  readonly isotope: number | null;
  /** Bonds as they are written, double ones counted twice; between aromatic atoms each counts once. */
  readonly bonds: number;
}

/** A bond as it is written; between aromatic atoms its order is 1. */
export interface SmilesJoin {
  readonly one: number;
  readonly other: number;
  readonly order: number;
}

export type SmilesText =
  | { readonly ok: true; readonly atoms: readonly SmilesAtom[]; readonly joins: readonly SmilesJoin[] }
  | { readonly ok: false; readonly at: number; readonly words: string };

const PLAIN = /^(?:Cl|Br|[BCNOPSFI]|[bcnops])/;
const BRACKET =
  /^\[(?<isotope>\d{1,3})?(?<element>[A-Z][a-z]?|se|as|[bcnops])@{0,2}(?<hydrogens>H\d?)?(?:[+-]\d{1,2}|\++|-+)?(?::\d{1,4})?\]/;
const BOND = /^[-=#$:/\\]/;
const RING = /^(?:\d|%\d\d)/;
const ORDERS: Readonly<Record<string, number>> = { '=': 2, '#': 3, $: 4 };
const HEAVY_HYDROGEN: Readonly<Record<string, number>> = { D: 2, T: 3 };

class Refused extends Error {
  readonly at: number;
  constructor(at: number, words: string) {
    super(words);
    this.at = at;
  }
}

/**
 * Reads the letters of a SMILES: which atoms it names, in their order, and whether brackets, branches, rings and bonds
 * fit together. Lenient readers pass over a branch that is never closed, a letter of another alphabet, a ring that
 * joins two atoms twice; here each is refused at its place. Valences are not judged.
 * Source: the OpenSMILES specification 1.0 (2016); stereo marks other than @ and @@ are left out.
 */
export function readSmilesText(text: string): SmilesText {
  try {
    const reader = new Reader(text);
    return { ok: true, atoms: reader.whole(), joins: reader.joins };
  } catch (error) {
    if (error instanceof Refused) return { ok: false, at: error.at, words: error.message };
    throw error;
  }
}

interface OpenBranch {
  readonly at: number;
  readonly from: number;
  readonly atoms: number;
}

interface OpenRing {
  readonly at: number;
  readonly from: number;
  readonly bond: string;
}

class Reader {
  readonly joins: SmilesJoin[] = [];
  readonly #text: string;
  #at = 0;
  readonly #atoms: SmilesAtom[] = [];
  readonly #bonds: number[] = [];
  /** The atom the next one is joined to; null at the start and after a dot. */
  #last: number | null = null;
  #bond: { readonly sign: string; readonly at: number } | null = null;
  readonly #branches: OpenBranch[] = [];
  readonly #rings = new Map<number, OpenRing>();
  readonly #joined = new Set<string>();

  constructor(text: string) {
    this.#text = text;
  }

  whole(): readonly SmilesAtom[] {
    while (this.#at < this.#text.length) this.#next();
    this.#noOpenBond();
    const [branch] = this.#branches;
    if (branch) throw new Refused(branch.at, structureWords.branchOpen);
    for (const [number, ring] of this.#rings) throw new Refused(ring.at, structureWords.ringOpen(number));
    if (this.#last === null) throw new Refused(Math.max(0, this.#text.length - 1), structureWords.dotAlone);
    return this.#atoms.map((atom, index) => ({ ...atom, bonds: this.#bonds[index] ?? 0 }));
  }

  #next(): void {
    const rest = this.#text.slice(this.#at, this.#at + 40);
    const plain = PLAIN.exec(rest)?.[0];
    const bond = BOND.exec(rest)?.[0];
    const ring = RING.exec(rest)?.[0];
    if (plain !== undefined) this.#plainAtom(plain);
    else if (rest.startsWith('[')) this.#bracketAtom(rest);
    else if (ring !== undefined) this.#ring(ring);
    else if (bond !== undefined) this.#openBond(bond);
    else if (rest.startsWith('(')) this.#openBranch();
    else if (rest.startsWith(')')) this.#closeBranch();
    else if (rest.startsWith('.')) this.#dot();
    else throw new Refused(this.#at, wrongSign(rest));
  }

  #plainAtom(symbol: string): void {
    const aromatic = /^[a-z]/.test(symbol);
    const element = aromatic ? symbol.toUpperCase() : symbol;
    this.#add({ at: this.#at, element, aromatic, hydrogens: null, isotope: null, bonds: 0 }, symbol.length);
  }

  #bracketAtom(rest: string): void {
    const found = BRACKET.exec(rest);
    if (!found?.groups) {
      if (rest.startsWith('[*')) throw new Refused(this.#at + 1, structureWords.anyAtom);
      const closed = this.#text.includes(']', this.#at);
      throw new Refused(this.#at, closed ? structureWords.bracket : structureWords.bracketOpen);
    }
    const { isotope, element = '', hydrogens } = found.groups;
    const heavy = HEAVY_HYDROGEN[element];
    const atom: SmilesAtom = {
      at: this.#at,
      element: heavy === undefined ? element.charAt(0).toUpperCase() + element.slice(1) : 'H',
      aromatic: /^[a-z]/.test(element),
      hydrogens: hydrogens === undefined ? 0 : Number(hydrogens.slice(1) || '1'),
      isotope: isotope === undefined ? (heavy ?? null) : Number(isotope),
      bonds: 0,
    };
    this.#add(atom, found[0].length);
  }

  #add(atom: SmilesAtom, length: number): void {
    this.#atoms.push(atom);
    const number = this.#atoms.length - 1;
    if (this.#last !== null) this.#join(this.#last, number, this.#bond?.sign ?? '');
    this.#last = number;
    this.#bond = null;
    this.#at += length;
  }

  #join(one: number, other: number, bond: string): void {
    const pair = one < other ? `${one}-${other}` : `${other}-${one}`;
    if (this.#joined.has(pair)) throw new Refused(this.#at, structureWords.joinedTwice);
    this.#joined.add(pair);
    this.joins.push({ one, other, order: ORDERS[bond] ?? 1 });
    for (const atom of [one, other]) this.#bonds[atom] = (this.#bonds[atom] ?? 0) + (ORDERS[bond] ?? 1);
  }

  #ring(sign: string): void {
    if (this.#last === null) throw new Refused(this.#at, structureWords.ringFirst);
    const number = Number(sign.replace('%', ''));
    const bond = this.#bond?.sign ?? '';
    const open = this.#rings.get(number);
    if (!open) this.#rings.set(number, { at: this.#at, from: this.#last, bond });
    else {
      if (open.from === this.#last) throw new Refused(this.#at, structureWords.ringSelf);
      if (!sameBond(open.bond, bond)) throw new Refused(this.#at, structureWords.ringBond(number));
      this.#join(open.from, this.#last, open.bond === '' ? bond : open.bond);
      this.#rings.delete(number);
    }
    this.#bond = null;
    this.#at += sign.length;
  }

  #openBond(sign: string): void {
    this.#noOpenBond();
    if (this.#last === null) throw new Refused(this.#at, structureWords.bondFirst);
    this.#bond = { sign, at: this.#at };
    this.#at += 1;
  }

  #openBranch(): void {
    this.#noOpenBond();
    if (this.#last === null) throw new Refused(this.#at, structureWords.branchFirst);
    this.#branches.push({ at: this.#at, from: this.#last, atoms: this.#atoms.length });
    this.#at += 1;
  }

  #closeBranch(): void {
    this.#noOpenBond();
    const branch = this.#branches.pop();
    if (!branch) throw new Refused(this.#at, structureWords.branchNotOpen);
    if (this.#atoms.length === branch.atoms) throw new Refused(branch.at, structureWords.branchEmpty);
    this.#last = branch.from;
    this.#at += 1;
  }

  #dot(): void {
    this.#noOpenBond();
    if (this.#last === null) throw new Refused(this.#at, structureWords.dotAlone);
    if (this.#branches.length > 0) throw new Refused(this.#at, structureWords.dotInside);
    this.#last = null;
    this.#at += 1;
  }

  #noOpenBond(): void {
    if (this.#bond) throw new Refused(this.#bond.at, structureWords.bondOpen);
  }
}

/** A ring's bond is written at one end or alike at both; the two slants are one kind. */
function sameBond(one: string, other: string): boolean {
  const plain = (bond: string): string => bond.replace(/[/\\]/, '-');
  return one === '' || other === '' || plain(one) === plain(other);
}

function wrongSign(rest: string): string {
  const sign = String.fromCodePoint(rest.codePointAt(0) ?? 0);
  if (/\s/.test(sign)) return structureWords.space;
  if (sign === '*') return structureWords.anyAtom;
  if (sign === '>') return structureWords.reaction;
  if (sign === 'H') return structureWords.bareHydrogen;
  return /^[!-~]$/.test(sign) ? structureWords.unexpected(sign) : structureWords.notPlain(sign);
}
