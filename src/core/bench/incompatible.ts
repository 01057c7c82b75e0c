import type { Facts } from '../matter/facts.ts';
import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { atomGraph, is, near, type Node } from '../structure/atom-graph.ts';
import { isAzide } from './energetic.ts';
import { isPolyhalide } from './energetic-links.ts';
import { chartGroupsOf, type ChartPair, chartPairs } from './chart.ts';
import { hazardsOf } from './hazards.ts';
import { NEAT } from '../matter/form.ts';
import { isOxidiser, isStrongAcid, isStrongBase, type Nature, natureOf } from './nature.ts';

type Test = (nature: Nature) => boolean;

const group =
  (name: string): Test =>
  (nature) =>
    nature.groups.includes(name);
const acid: Test = (nature) => isStrongAcid(nature) || nature.groups.includes('acid');
const ammoniaOrAmine: Test = (nature) => nature.groups.includes('amine') || nature.ammonia;
const organic: Test = (nature) => nature.organic && !acid(nature);

/** Pairs that must not meet, and the code of the sentence that says why. */
const PAIRS: readonly (readonly [one: Test, other: Test, code: string])[] = [
  [isOxidiser, organic, 'oxidiser meets organic'],
  [isOxidiser, group('reducing agent'), 'oxidiser meets reducing agent'],
  [group('hypochlorite'), acid, 'acid frees chlorine'],
  [group('hypochlorite'), ammoniaOrAmine, 'chloramines'],
  [group('carbonate'), acid, 'acid frees carbon dioxide'],
  [group('azide'), acid, 'acid frees hydrazoic acid'],
  [group('cyanide'), acid, 'acid frees hydrogen cyanide'],
  [group('sulfide'), acid, 'acid frees hydrogen sulfide'],
  [group('nitrite'), acid, 'acid frees nitrous gases'],
  [group('water-reactive'), (nature) => nature.water, 'reacts with water'],
  [isStrongAcid, isStrongBase, 'neutralisation heat'],
];

/** How bad a meeting is: from what the program would have kept apart to what only gets warm. */
export type Severity = 'apart' | 'watched' | 'warm';

/** Why two substances must not meet unasked. */
export interface Clash {
  /** Of a sentence. */
  readonly code: string;
  readonly severity: Severity;
  /** Codes of the chart; empty where the chart does not have it. */
  readonly gives: readonly string[];
  /** Numbers of the chart's groups; empty likewise. */
  readonly groups: readonly (readonly [one: number, other: number])[];
  readonly fromMemory: boolean;
}

/** Sentences that say themselves what comes off. */
const SPECIFIC = /^(acid frees|azide meets|chloramines|reacts with water|neutralisation heat)/;
/** Groups whose fires and explosions are why the chart was made: oxidisers, alkali metals, peroxides, explosives. */
const FIERCE = new Set([2, 21, 30, 102, 104]);
/** Pairs that only get warm, or bubble. */
const MILD = new Set(['neutralisation heat', 'acid frees carbon dioxide']);

/**
 * Why two substances must not meet unasked; empty where nothing is known against it, which is not a proof that they may.
 * Source: the groups and pairs of EPA-600/2-80-076 (Hatayama et al., 1980), and pairs a small synthetic bench meets.
 */
export function clashesOf(one: Facts, other: Facts, reference: Reference): readonly Clash[] {
  let known = KNOWN.get(reference);
  if (!known) KNOWN.set(reference, (known = remember((first: Facts, second: Facts) => clashes(first, second, reference))));
  return known(one, other);
}

const KNOWN = new WeakMap<Reference, (one: Facts, other: Facts) => readonly Clash[]>();

function clashes(one: Facts, other: Facts, reference: Reference): readonly Clash[] {
  const codes = [...incompatibilities(natureOf(one, reference), natureOf(other, reference))];
  const pairs = chartPairs(chartGroupsOf(one, reference), chartGroupsOf(other, reference), reference);
  const wetted = pairs.some(({ groups }) => groups.includes(WATER_REACTIVE) && groups.includes(WATER));
  if (wetted && !codes.includes('reacts with water')) codes.push('reacts with water');
  const named = codes.map((code): Clash => namedClash(code, pairs));
  const frees = freesToxicGas(one, other, reference) || freesToxicGas(other, one, reference);
  if (azideMeetsSolvent(one, other) || azideMeetsSolvent(other, one))
    named.unshift(bare('azide meets chlorinated solvent', 'apart'));
  if (frees && !codes.some((code) => code.startsWith('acid frees'))) named.push(bare('acid frees a poison', 'apart'));
  // A sentence of its own says all; the chart would say it again in general.
  if (named.some((clash) => SPECIFIC.test(clash.code) || clash.code.startsWith('oxidiser'))) return named;
  const chart = chartClash(pairs);
  return chart ? [...named, chart] : named;
}

function namedClash(code: string, pairs: readonly ChartPair[]): Clash {
  const severity: Severity = MILD.has(code) ? 'watched' : 'apart';
  if (!code.startsWith('oxidiser')) return bare(code, severity);
  const own = pairs.filter(({ groups }) => groups.some((number) => FIERCE.has(number)));
  return {
    code,
    severity,
    gives: union(own),
    groups: own.map((pair) => pair.groups),
    fromMemory: own.some((pair) => pair.fromMemory),
  };
}

const bare = (code: string, severity: Severity): Clash => ({ code, severity, gives: [], groups: [], fromMemory: false });

/** Every line of the chart for a pair, in one. */
function chartClash(pairs: readonly ChartPair[]): Clash | null {
  if (pairs.length === 0) return null;
  const gives = union(pairs);
  const groups = pairs.map((pair) => pair.groups);
  const fromMemory = pairs.some((pair) => pair.fromMemory);
  if (groups.some((pair) => pair.includes(WATER_REACTIVE)))
    return { code: 'chart: water-reactive', severity: 'watched', gives, groups, fromMemory };
  const burns = gives.some((code) => code === 'F' || code === 'E');
  if (burns && groups.some((pair) => pair.some((number) => FIERCE.has(number)))) {
    return { code: 'chart: apart', severity: 'apart', gives, groups, fromMemory };
  }
  const harms = gives.some((code) => code !== 'H' && code !== 'G');
  return { code: harms ? 'chart: watched' : 'chart: warm', severity: harms ? 'watched' : 'warm', gives, groups, fromMemory };
}

const [WATER, WATER_REACTIVE] = [106, 107] as const;
/** Worst first, as the sentence names them. */
const ORDER = ['X', 'E', 'F', 'GT', 'GF', 'P', 'H', 'G', 'U'];

function union(pairs: readonly ChartPair[]): readonly string[] {
  const all = new Set(pairs.flatMap((pair) => pair.gives));
  return ORDER.filter((code) => all.has(code));
}

/**
 * An azide with a liquid such as dichloromethane: polyazides form and explode. Source: N. P. Peet, “More On Sodium Azide”,
 * C&EN 88 (24), 14 June 2010, read: chlorinated solvents should never come into contact with sodium azide.
 */
function azideMeetsSolvent(one: Facts, other: Facts): boolean {
  if (one.smiles === null || other.smiles === null || other.state !== 'liquid') return false;
  return atomGraph(one.smiles).some(isIonicAzide) && isPolyhalide(atomGraph(other.smiles));
}

/** An azide ion, or one on a metal or hydrogen; an azide on carbon is made and kept in such solvents. */
function isIonicAzide(node: Node): boolean {
  return isAzide(node) && near(node).every((end) => near(end).every((next) => next === node || !is('C')(next)));
}

/** An acid with what its own statement says frees a poisonous gas: EUH031, EUH032 (CLP Annex II). */
function freesToxicGas(one: Facts, other: Facts, reference: Reference): boolean {
  if (!acid(natureOf(other, reference)) && !chartGroupsOf(other, reference).some((number) => number <= 3)) return false;
  return hazardsOf(one, NEAT, reference)?.statements.some((code) => code === 'EUH031' || code === 'EUH032') ?? false;
}

/**
 * Codes of the pairs that two natures fit; empty where no pair of the table fits: not a proof that they may meet.
 * Source: as clashesOf.
 */
export function incompatibilities(one: Nature, other: Nature): readonly string[] {
  return PAIRS.filter(([first, second]) => (first(one) && second(other)) || (first(other) && second(one))).map(
    ([, , code]) => code,
  );
}
