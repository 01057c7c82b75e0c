import type { ParseProblem } from '../quantity/parse.ts';
import type { Reference } from '../reference.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { materialChoices } from './choose-material.ts';
import { formulaQuestion, formulaTaken } from './formula-question.ts';
import { checked, type Edited, withStep } from './edited.ts';
import { type MaterialChoice, withMaterial, withoutLeftOver } from './edit-materials.ts';
import type { Route, Step, Term } from './route.ts';

/** One term as typed, with what it means. */
interface ReadTerm {
  readonly choice: MaterialChoice;
  readonly name: string;
  readonly coefficient: number;
  readonly gas: boolean;
  /** It was typed as a formula: which material that was taken as. */
  readonly taken: string | null;
}

export interface ReadEquation {
  readonly ok: true;
  readonly uses: readonly ReadTerm[];
  readonly makes: readonly ReadTerm[];
  /** Formulas that were typed for materials, and which they were taken as. */
  readonly taken: readonly string[];
}

const ARROW = /\s*(?:→|⟶|⇌|-+>|=+>?)\s*/;
const COEFFICIENT = /^(\d+(?:[.,]\d+)?)(?:\s+(?=\S)|(?=[A-Z(]))/;
const GAS = /\s*(?:↑|\(g\))\s*$/;

/** A step's equation in one line, by the names of its materials: "2 benzaldehyde → benzoin", gases with ↑. */
export function equationText(step: Step, route: Route): string {
  const side = (terms: readonly Term[]): string =>
    terms
      .map((term) => {
        const name = route.materials[term.material]?.name ?? term.material;
        return `${term.coefficient === 1 ? '' : `${term.coefficient} `}${name}${term.gas ? ' ↑' : ''}`;
      })
      .join(' + ');
  return `${side(step.equation.uses)} → ${side(step.equation.makes)}`;
}

/**
 * Reads an equation as it is written: names, formulas or CAS numbers parted by " + ", coefficients before them, ↑ or (g)
 * behind a gas, an arrow (→, -> or =) between the sides.
 * @returns its terms, or the index of the character that is wrong and what is expected there.
 */
export function readEquation(text: string, route: Route, reference: Reference): ReadEquation | ParseProblem {
  const arrow = ARROW.exec(text);
  if (!arrow) return { ok: false, at: text.length, words: words.arrow };
  const from = arrow.index + arrow[0].length;
  const second = ARROW.exec(text.slice(from));
  if (second) return { ok: false, at: from + second.index, words: words.oneArrow };
  const uses = readSide(text.slice(0, arrow.index), 0, route, reference);
  if (!uses.ok) return uses;
  const makes = readSide(text.slice(from), from, route, reference);
  if (!makes.ok) return makes;
  const taken = [...uses.terms, ...makes.terms].flatMap((term) => term.taken ?? []);
  return { ok: true, uses: uses.terms, makes: makes.terms, taken };
}

type Side = { readonly ok: true; readonly terms: readonly ReadTerm[] } | ParseProblem;

function readSide(text: string, at: number, route: Route, reference: Reference): Side {
  const terms: ReadTerm[] = [];
  let start = 0;
  for (const piece of text.split(/(\s\+(?:\s|$))/)) {
    const here = at + start;
    start += piece.length;
    if (/^\s\+\s?$/.test(piece)) continue;
    const term = readTerm(piece, here, route, reference);
    if ('words' in term) return term;
    if (terms.some((one) => same(one.choice, term.choice))) return { ok: false, at: here, words: words.twice(term.name) };
    terms.push(term);
  }
  return { ok: true, terms };
}

function same(one: MaterialChoice, other: MaterialChoice): boolean {
  if ('key' in one || 'key' in other) return 'key' in one && 'key' in other && one.key === other.key;
  return one.material.cas !== undefined && one.material.cas === other.material.cas;
}

function readTerm(piece: string, at: number, route: Route, reference: Reference): ReadTerm | ParseProblem {
  const lead = piece.length - piece.trimStart().length;
  const gas = GAS.test(piece);
  const body = piece.trim().replace(GAS, '');
  const number = COEFFICIENT.exec(body);
  const coefficient = number ? Number((number[1] ?? '').replace(',', '.')) : 1;
  const name = body.slice(number?.[0].length ?? 0).trim();
  if (name === '') return { ok: false, at: at + lead, words: words.termMissing };
  if (!(coefficient > 0 && coefficient <= 1000)) return { ok: false, at: at + lead, words: words.coefficient };
  const here = at + lead + (number?.[0].length ?? 0);
  const question = formulaQuestion(name, route, reference);
  if (question !== null) return { ok: false, at: here, words: question };
  const found = materialChoices(name, route, reference).find((one) => one.exact || (one.from === 'own' && one.formula !== null));
  if (!found) return { ok: false, at: here, words: words.unknownMaterial(name) };
  const taken = formulaTaken(name, found.name, route, reference);
  return { choice: found.choice, name: found.name, coefficient, gas, taken };
}

/** A step with this equation; basis and product follow where only one material can be meant. */
export function withEquation(route: Route, stepId: string, read: ReadEquation): Edited {
  const step = route.steps.find((one) => one.id === stepId);
  if (!step) return { ok: false, problems: [{ at: '', words: words.stepGone }] };
  let now = route;
  const take = (terms: readonly ReadTerm[], old: readonly Term[]): Term[] =>
    terms.map(({ choice, coefficient, gas }) => {
      const taken = withMaterial(now, choice);
      now = taken.route;
      const yieldPercent = old.find((one) => one.material === taken.key)?.yieldPercent;
      return {
        material: taken.key,
        coefficient,
        ...(gas ? { gas } : {}),
        ...(yieldPercent === undefined ? {} : { yieldPercent }),
      };
    });
  const uses = take(read.uses, step.equation.uses);
  const makes = take(read.makes, step.equation.makes);
  const [only] = makes;
  const product =
    makes.some((term) => term.material === step.product) || makes.length > 1 || !only ? step.product : only.material;
  const after = withStep(now, stepId, (one) => ({ ...one, equation: { uses, makes }, product }));
  return checked(withoutLeftOver(route, after));
}
