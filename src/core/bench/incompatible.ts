import { isOxidiser, isStrongAcid, isStrongBase, type Nature } from './nature.ts';

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

/**
 * Why two materials must not meet unasked; empty where no pair of the table fits. An empty answer is not a proof
 * that they may. Source: after the reactivity groups of EPA-600/2-80-076 (Hatayama et al., 1980), the pairs a small
 * synthetic bench meets.
 */
export function incompatibilities(one: Nature, other: Nature): readonly string[] {
  return PAIRS.filter(([first, second]) => (first(one) && second(other)) || (first(other) && second(one))).map(
    ([, , code]) => code,
  );
}
