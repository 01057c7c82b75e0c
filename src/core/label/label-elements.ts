import { type Hazards, hazardsOf } from '../bench/hazards.ts';
import { factsOf } from '../matter/facts.ts';
import { type Form, NEAT, solventOf } from '../matter/form.ts';
import type { Material } from '../matter/material.ts';
import { solventFacts } from '../matter/named.ts';
import type { Reference } from '../reference.ts';

/** What a label says of hazards. */
export interface LabelElements {
  /** Codes of the GHS pictograms, in their own order. */
  readonly pictograms: readonly string[];
  readonly signal: 'Danger' | 'Warning' | '';
  readonly statements: readonly string[];
  /** Names of what has no harmonised entry: that means "read the safety sheet", never "harmless". */
  readonly unlisted: readonly string[];
}

/**
 * Pictograms, signal word and statements of what a bottle holds at its strength, each pictogram from the statements
 * that hold at it. Where the category decides between the two signal words, the entry's own word stands, else the
 * stronger. Source: CLP Annex I, Article 26 (precedence of pictograms).
 */
export function labelElements(material: Material, form: Form, reference: Reference): LabelElements {
  const facts = factsOf(material, reference);
  const hazards = hazardsOf(facts, form, reference);
  const statements = hazards?.statements ?? [];
  const rows = statements.flatMap((code) => reference.labelElement.get(code.slice(0, 4)) ?? []);
  const asked = new Set(rows.flatMap((row) => row.pictograms));
  // A gas under pressure has no harmonised entry of its own: that depends on how it is sold, and its row says so.
  if (form.kind === 'neat' && hazards?.pictograms.includes('GHS04')) asked.add('GHS04');
  return {
    pictograms: withPrecedence(asked, statements).toSorted(),
    signal: signalFor(hazards, reference),
    statements,
    unlisted: unlistedIn(material, form, reference),
  };
}

/**
 * The signal word of the statements that hold, and of nothing else: none where no statement does. Where the category
 * decides between the two words, the entry's own stands, else the stronger.
 */
export function signalFor(hazards: Hazards | null, reference: Reference): LabelElements['signal'] {
  const rows = (hazards?.statements ?? []).flatMap((code) => reference.labelElement.get(code.slice(0, 4)) ?? []);
  return signalOf(
    rows.map((row) => row.signal),
    hazards?.signal ?? null,
  );
}

function signalOf(words: readonly string[], own: string | null): LabelElements['signal'] {
  if (words.includes('Danger')) return 'Danger';
  if (words.includes('either')) return own === 'Warning' ? 'Warning' : 'Danger';
  return words.includes('Warning') ? 'Warning' : '';
}

/** A statement that asks for the exclamation mark, and what makes the mark unnecessary for it (CLP Article 26). */
function withPrecedence(asked: ReadonlySet<string>, statements: readonly string[]): readonly string[] {
  const has = (...codes: readonly string[]): boolean => statements.some((one) => codes.includes(one.slice(0, 4)));
  const irritates = (code: string): boolean => ['H315', 'H319'].includes(code);
  const needsMark = statements.some((statement) => {
    const code = statement.slice(0, 4);
    if (!EXCLAMATION.has(code)) return false;
    if (irritates(code) && has('H314', 'H318')) return false;
    return !((irritates(code) || code === 'H317') && has('H334'));
  });
  return [...asked].filter((one) => one !== 'GHS07' || (needsMark && !asked.has('GHS06')));
}

const EXCLAMATION = new Set(['H302', 'H312', 'H332', 'H315', 'H317', 'H319', 'H335', 'H336', 'H420']);

function unlistedIn(material: Material, form: Form, reference: Reference): string[] {
  const own = hazardsOf(factsOf(material, reference), NEAT, reference) === null ? [material.name] : [];
  const solvent = form.kind === 'solution' ? solventOf(form) : 'water';
  if (solvent === 'water') return own;
  const facts = solventFacts(form, reference);
  return facts && hazardsOf(facts, NEAT, reference) ? own : [...own, solvent];
}
