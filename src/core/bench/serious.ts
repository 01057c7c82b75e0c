import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { type Reference } from '../reference.ts';
import { type HydrolysisRow } from '../reference-rows.ts';
import { factsOf } from '../matter/facts.ts';
import { hazardsOf } from './hazards.ts';
import { worstFirst } from './severity.ts';

/** Statements serious enough to be said in words before a charge; the others stand as codes beside it. */
const SAID_IN_WORDS =
  /^(H2(?!90)|H30[014]|H31[0148]|H33[014]|H34[01]|H35[01]|H36[01]|H37[0-3]|EUH0(06|14|18|19|29|31|32|44|7[01]))/;

/** Texts of the serious statements of a material at a strength, the worst first, joined; empty where there are none or no entry. */
export function seriousStatements(facts: Facts, form: Form, reference: Reference): string {
  return inWords(hazardsOf(facts, form, reference)?.statements ?? [], reference);
}

/** The same of everything that is freed or made, as the pure substances: at what strength they end up is not known. */
export function seriousOfFreed(rows: readonly HydrolysisRow[], reference: Reference): string {
  const codes = rows.flatMap((row) => {
    const facts = factsOf({ name: row.makes, cas: row.makesCas }, reference);
    return hazardsOf(facts, NEAT, reference)?.statements ?? [];
  });
  return inWords([...new Set(codes)], reference);
}

function inWords(codes: readonly string[], reference: Reference): string {
  return worstFirst(codes.filter((code) => SAID_IN_WORDS.test(code)))
    .map((code) => reference.statement.get(code) ?? code)
    .join(' ');
}
