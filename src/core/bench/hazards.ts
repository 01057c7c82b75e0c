import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { solventFacts } from '../matter/named.ts';
import { massFraction } from '../matter/solution.ts';
import type { Reference } from '../reference.ts';
import type { HazardLimitRow, HazardRow } from '../reference-rows.ts';
import { rememberOfThree } from '../remember.ts';

export interface Hazards {
  readonly statements: readonly string[];
  readonly pictograms: readonly string[];
  readonly signal: string | null;
  readonly source: string;
}

/**
 * Hazard statements of a material at its strength, and of the solvent it is dissolved in: the file's own, else the
 * harmonised entry (CLP Annex VI) with its specific concentration limits. Where the entry gives no limit for a
 * statement, the statement stays at any strength.
 * @returns null where neither has an entry: that means "read the safety sheet", never "harmless".
 */
export const hazardsOf = rememberOfThree((facts: Facts, form: Form, reference: Reference): Hazards | null => {
  const own = activeHazards(facts, form, reference);
  const solvent = solventFacts(form, reference);
  const dissolved = solvent && solvent.formula !== 'H2O' ? activeHazards(solvent, NEAT, reference) : null;
  if (!own || !dissolved) return own ?? dissolved;
  const both = (one: readonly string[], other: readonly string[]): readonly string[] => [...new Set([...one, ...other])].sort();
  return {
    statements: both(own.statements, dissolved.statements),
    pictograms: both(own.pictograms, dissolved.pictograms),
    signal: own.signal === 'Danger' ? own.signal : (dissolved.signal ?? own.signal),
    source: own.source,
  };
});

function activeHazards(facts: Facts, form: Form, reference: Reference): Hazards | null {
  const listed = listedHazards(facts, form, reference);
  if (!facts.ownHazards) return listed;
  // What is written with a material takes no statement of an explosive from its entry; a desensitised one has its own.
  const written = facts.ownHazards;
  const kept = written.some(isExplosiveCode) ? [] : (listed?.statements ?? []).filter(isExplosiveCode);
  return { statements: [...kept, ...written], pictograms: [], signal: null, source: 'as given with the material' };
}

/** H200 to H211: explosives of every division, unstable and desensitised ones too. */
export function isExplosiveCode(code: string): boolean {
  return code.split('+').some((part) => /^(H20\d|H21[01])$/.test(part.trim()));
}

/** Statements of the tables alone, by CAS number and by a name that the table of explosives lists; null without an entry. */
export const listedHazards = rememberOfThree((facts: Facts, form: Form, reference: Reference): Hazards | null => {
  const keys = [...new Set([facts.explosiveKey, facts.cas])].filter((one) => one !== null);
  const rows = keys.flatMap((key) => reference.hazards.get(key) ?? []);
  if (rows.length === 0) return null;
  const percent = percentOf(facts, form, reference);
  const fitting = rows.filter((row) => holdsAt(row, percent));
  const chosen = fitting.length > 0 ? fitting : rows;
  const limits = facts.cas === null ? [] : (reference.hazardLimits.get(facts.cas) ?? []);
  const statements = new Set(chosen.flatMap((row) => row.statements).filter((code) => appliesAt(code, limits, percent)));
  for (const limit of limits) if (percent !== null && inside(limit, percent)) statements.add(limit.statement);
  return {
    statements: [...statements].sort(),
    pictograms: [...new Set(chosen.flatMap((row) => row.pictograms))].sort(),
    signal: chosen.find((row) => row.signal)?.signal ?? null,
    source: chosen[0]?.source ?? '',
  };
});

/** % w/w of the material as it is handled; null where it is not known, and then nothing is ruled out. */
function percentOf(facts: Facts, form: Form, reference: Reference): number | null {
  const fraction = massFraction(facts, form, reference);
  return fraction.ok ? fraction.figure.value * 100 : null;
}

function holdsAt(row: HazardRow, percent: number | null): boolean {
  if (percent === null) return true;
  return (row.fromPercent === null || percent > row.fromPercent) && (row.toPercent === null || percent <= row.toPercent);
}

function appliesAt(code: string, limits: readonly HazardLimitRow[], percent: number | null): boolean {
  const own = limits.filter((limit) => limit.statement === code);
  return own.length === 0 || percent === null || own.some((limit) => inside(limit, percent));
}

function inside(limit: HazardLimitRow, percent: number): boolean {
  const above =
    limit.fromPercent === null || percent > limit.fromPercent || (limit.fromInclusive && percent === limit.fromPercent);
  const below = limit.toPercent === null || percent < limit.toPercent || (limit.toInclusive && percent === limit.toPercent);
  return above && below;
}
