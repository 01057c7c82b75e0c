import { tidyCas } from '../matter/cas.ts';
import { findMaterials } from '../matter/find-material.ts';
import { foldForSearch, foldSpellings } from '../matter/fold-name.ts';
import { parseFormula } from '../matter/formula.ts';
import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { fromTable, type MaterialChoice } from './edit-materials.ts';
import { hydrateNamed, hydratesSaid } from './hydrate-name.ts';
import type { Route } from './route.ts';

/** What a typed name may mean, the likeliest first: the first is what Enter takes. */
export interface NameChoice {
  readonly choice: MaterialChoice;
  readonly name: string;
  readonly formula: string | null;
  readonly cas: string | null;
  /** From the route itself, the built-in table, or new and the person's own. */
  readonly from: 'route' | 'table' | 'own';
  /** What was typed besides its name, e.g. "anhydrous", "pellets": kept as a note. */
  readonly said: string | null;
  /** It is exactly what was typed, not only what begins so. */
  readonly exact: boolean;
}

const MOST = 8;

/**
 * Materials a typed name, formula or CAS number may mean: the route's own before the built-in table's, what it is exactly
 * before what begins so; then a material of one's own by that name; then what only holds the text or is nearly spelled
 * so. Never empty for a text with a letter or digit in it.
 */
export function materialChoices(typed: string, route: Route | null, reference: Reference): readonly NameChoice[] {
  const { name: text, formula } = nameAndFormula(typed, reference);
  const folded = foldSpellings(foldForSearch(text));
  if (folded === '') return [];
  const fromTables = findMaterials(text, reference).map((found): Ranked => {
    const { row, synonym } = found;
    const rank = found.nearly
      ? 4
      : rankOf(text, folded, { name: row.name, synonyms: [synonym], formula: row.formula, cas: row.cas });
    return { choice: tableChoice(row, rank === 0), rank };
  });
  const own = route ? fromRoute(text, folded, route, fromTables) : [];
  const inRoute = new Set(Object.values(route?.materials ?? {}).flatMap((one) => one.cas ?? []));
  const table = fromTables.filter((one) => !inRoute.has(one.choice.cas ?? ''));
  const hydrate = [...own, ...table].some((one) => one.rank === 0) ? null : hydrateNamed(text, reference);
  const known = [...own, ...table, ...(hydrate ? [{ choice: hydrateChoice(hydrate), rank: 0 }] : [])];
  const hydrates = known.some((one) => one.rank === 0) ? [] : saidHydrates(text, route, reference);
  const bare = known.some((one) => one.rank <= 1) ? null : withoutQualifiers(text);
  const all = [...hydrates, ...known, ...(bare ? qualified(bare, route, reference) : [])];
  const exact = all.some((one) => one.rank === 0);
  const made = exact ? [] : [{ choice: ownChoice(text, formula, reference), rank: 2 }];
  const sorted = [...all, ...made].sort((a, b) => a.rank - b.rank);
  // A material of one's own can always be chosen, however many begin so.
  const cut = sorted.slice(0, MOST);
  const kept = made.every((one) => cut.includes(one)) ? cut : [...cut.slice(0, MOST - 1), ...made];
  return kept.map((one) => one.choice);
}

/** The hydrates that "hydrated" may mean, the route's own first, before a material of one's own by that name. */
function saidHydrates(text: string, route: Route | null, reference: Reference): readonly Ranked[] {
  const found = hydratesSaid(text, reference);
  return (found?.rows ?? []).map((row) => {
    const key = Object.entries(route?.materials ?? {}).find(([, one]) => one.cas === row.cas)?.[0];
    const choice = { ...hydrateChoice(fromTable(row)), said: found?.said ?? null, exact: false };
    return key === undefined
      ? { choice, rank: 1.2 }
      : { choice: { ...choice, choice: { key }, from: 'route' as const }, rank: 1.1 };
  });
}

/** Words that say how a material looks or was dried, not what it is. */
const BEFORE =
  /^(?:(?:anhydrous|dry|dried|powdered|finely|fine|crushed|granular|iced|ice[- ]cold|cold|absolute|fused|dist\.|de-ionised|de-ionized|hot|warm|boiling|freshly|distilled|deionised|deionized|redistilled|pure|purified|c\.\s?p\.|tech(?:nical|\.)|reagent[- ]grade|anhyd\.?|commercial|colou?rless|pulveri[sz]ed|decolou?ri[sz]ing|activated|animal|solid|aqueous|aq\.|abs\.|excess|gaseous|equal volume of|solution (?:of|containing(?: of)?)|an?|the)\s+)+/i;
const BEHIND =
  /(?:\s+(?:pellets|dust|turnings|wire|foil|ribbon|shot|gas|powder|flakes|beads|granules|chips|filings|solution|crystals|anhydrous|aq\.?|aqueous|in water))+$/i;

interface Bare {
  readonly name: string;
  readonly said: string;
}

function withoutQualifiers(text: string): Bare | null {
  const before = BEFORE.exec(text)?.[0] ?? '';
  const behind = BEHIND.exec(text.slice(before.length))?.[0] ?? '';
  const name = text.slice(before.length, text.length - behind.length);
  const said = `${before} ${behind}`
    .replaceAll(/\b(?:the|an?|of)\b/gi, '')
    .replaceAll(/\s+/g, ' ')
    .trim();
  return name === text || name.trim() === '' ? null : { name, said };
}

/** What the name means without those words: before a material of one's own, behind what the whole text means. */
function qualified({ name, said }: Bare, route: Route | null, reference: Reference): readonly Ranked[] {
  return materialChoices(name, route, reference)
    .filter((one) => one.exact)
    .map((choice) => ({ choice: { ...choice, said: said === '' ? null : said }, rank: 1.5 }));
}

interface Ranked {
  readonly choice: NameChoice;
  readonly rank: number;
}

interface Names {
  readonly name: string;
  readonly synonyms: readonly string[];
  readonly formula: string | null;
  readonly cas: string | null;
}

/** 0 exactly what was typed, 1 begins so, 3 holds it. */
function rankOf(text: string, folded: string, { name, synonyms, formula, cas }: Names): number {
  const names = [name, ...synonyms].map((one) => foldSpellings(foldForSearch(one)));
  if (names.includes(folded) || sameFormula(formula, text) || (cas !== null && cas === tidyCas(text))) return 0;
  // "DIC" is no dichloromethane, "DMP" no DMPU: an abbreviation is meant as it stands, never as the beginning of a name.
  if (/^[A-Z]{2,6}$|\//.test(text)) return 3;
  return names.some((one) => one !== '' && one.startsWith(folded)) ? 1 : 3;
}

function sameFormula(formula: string | null, text: string): boolean {
  const plain = (one: string): string => one.normalize('NFKC').replaceAll(/[·*.•⋅∙\s]/g, '');
  return formula !== null && plain(formula) === plain(text);
}

/** The route's own materials by that name: what its table calls it counts too, "DCM" of the dichloromethane in use. */
function fromRoute(text: string, folded: string, route: Route, table: readonly Ranked[]): readonly Ranked[] {
  return Object.entries(route.materials).flatMap(([key, one]): readonly Ranked[] => {
    const { name, synonyms = [], formula = null, cas = null } = one;
    const byName = rankOf(text, folded, { name, synonyms: [...synonyms, key], formula, cas });
    const byTable = cas === null ? undefined : table.find(({ choice }) => choice.cas === cas)?.rank;
    const rank = Math.min(byName, byTable ?? byName);
    if (rank === 3 && byTable === undefined && !foldForSearch(name).includes(folded)) return [];
    const choice = { choice: { key }, name, formula, cas, from: 'route' as const, said: null, exact: rank === 0 };
    // Of two that begin so, the one already in use is meant.
    return [{ choice, rank: rank === 1 ? 0.5 : rank }];
  });
}

function tableChoice(row: MaterialRow, exact: boolean): NameChoice {
  const { name, formula, cas } = row;
  return { choice: { material: fromTable(row) }, name, formula, cas, from: 'table', said: null, exact };
}

/** A name with its formula behind it in brackets: "4-nitroacetanilide (C8H8N2O3)". */
function nameAndFormula(typed: string, reference: Reference): { readonly name: string; readonly formula: string | null } {
  const text = typed.trim();
  const found = /^(\S.*?)\s*\(([A-Z][\w·*.()]*)\)$/.exec(text);
  const formula = found?.[2] ?? '';
  const isOne = /\d/.test(formula) && parseFormula(formula, reference).ok;
  return isOne ? { name: found?.[1] ?? '', formula } : { name: text, formula: null };
}

function hydrateChoice(material: Material): NameChoice {
  const { name, formula = null, cas = null } = material;
  return { choice: { material }, name, formula, cas, from: cas === null ? 'own' : 'table', said: null, exact: true };
}

function ownChoice(text: string, formula: string | null, reference: Reference): NameChoice {
  const own = ownMaterial(text, reference);
  const material = formula === null ? own : { ...own, formula };
  return {
    choice: { material },
    name: material.name,
    formula: material.formula ?? null,
    cas: null,
    from: 'own',
    said: null,
    exact: false,
  };
}

/** Capitals alone are an abbreviation, though "NCS" or "HBTU" could be read as elements; "KSCN" and "HI" are formulas. */
function isAbbreviation(name: string): boolean {
  return /^[A-Z]{3,}$/.test(name) && !/^[HK]{1,2}[BCNOFIPS]+$/.test(name);
}

/** Water from the ice machine: no bottle on the shelf. */
const ICE = /^(?:(?:crushed|cracked)\s+)?(?:ice(?:[\s/-]?water)?|water\/ice)$/i;

/** A material of one's own from what was typed; a formula names itself. */
function ownMaterial(text: string, reference: Reference): Material {
  const name = text.trim().replaceAll(/\s+/g, ' ').slice(0, 300);
  const looks = /^[A-Z0-9([]\S*$/.test(name) && /[\d²³⁺⁻]|^[A-Z][a-z]?[A-Z]/.test(name);
  if (ICE.test(name)) return { name, formula: 'H2O', utility: true };
  const formula = looks && !isAbbreviation(name) && parseFormula(name, reference).ok;
  return formula ? { name, formula: name } : { name };
}
