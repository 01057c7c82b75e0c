import type { Settings } from '../settings.ts';

type Vessel = Settings['vessels'][number];

/** How a vessel is built, by the words of its name or of the apparatus a procedure asks for. */
type Build = 'beaker' | 'conical' | 'flask';

function buildOf(words: string): Build {
  if (/beaker/i.test(words)) return 'beaker';
  return /erlenmeyer|conical/i.test(words) ? 'conical' : 'flask';
}

/** Whether a vessel of the list is a funnel: layers are separated in it, nothing is made in it. */
export function isFunnel(name: string): boolean {
  return /funnel/i.test(name) && !/flask|beaker|erlenmeyer|reactor|vessel/i.test(name);
}

/**
 * Vessels that may serve where this apparatus is asked for: an open beaker only where a beaker is asked for, or where
 * the laboratory has nothing else; a funnel never, unless there is nothing but funnels.
 */
function servingVessels(apparatus: string, settings: Settings): readonly Vessel[] {
  const held = settings.vessels.filter((vessel) => !isFunnel(vessel.name));
  const vessels = held.length > 0 ? held : settings.vessels;
  if (buildOf(apparatus) === 'beaker') return vessels;
  const closed = vessels.filter((vessel) => buildOf(vessel.name) !== 'beaker');
  return closed.length > 0 ? closed : vessels;
}

/** Which vessels serve depends on the build asked for alone; every batch of every step asks. */
const servingBefore = new WeakMap<Settings['vessels'], Map<Build, readonly Vessel[]>>();

function smallestFirst(apparatus: string, settings: Settings): readonly Vessel[] {
  const build = buildOf(apparatus);
  const known = servingBefore.get(settings.vessels) ?? new Map<Build, readonly Vessel[]>();
  servingBefore.set(settings.vessels, known);
  const serving = known.get(build) ?? servingVessels(apparatus, settings).toSorted((a, b) => a.nominal - b.nominal);
  known.set(build, serving);
  return serving;
}

/**
 * The smallest vessel of the build asked for that is large enough; else the smallest of any that may serve; the largest
 * where none is.
 * @param millilitres nominal volume needed, mL, ≥ 0. @returns null where the laboratory has no vessel.
 */
export function vesselOf(apparatus: string, millilitres: number, settings: Settings): Vessel | null {
  const serving = smallestFirst(apparatus, settings);
  const able = serving.filter((vessel) => vessel.nominal >= millilitres * (1 - 1e-9));
  const build = buildOf(apparatus);
  return able.find((vessel) => buildOf(vessel.name) === build) ?? able[0] ?? serving.at(-1) ?? null;
}

/** The largest vessel that may serve. @throws RangeError where the laboratory has none. */
export function largestServing(apparatus: string, settings: Settings): Vessel {
  const serving = smallestFirst(apparatus, settings);
  const largest = serving.at(-1);
  if (!largest) throw new RangeError('the laboratory needs at least one vessel (got 0)');
  return largest;
}
