import { acidityOf, formShares } from '../matter/acidity.ts';
import { ownPH } from '../quench/neutral-heat.ts';
import type { Reference } from '../reference.ts';
import type { Content, Contents } from './contents.ts';
import { natureOf } from './nature.ts';

/** Less than this stays where it lies. */
const LITTLE = 1e-3;

/**
 * The part of an acid or base outside the water, 0 to 1, that is a salt at the pH that everything in the vessel makes: an
 * amine that acid has protonated, an acid that base has turned into its anion. It goes with the aqueous layer; whether
 * its neutral form does is not worked out. 0 where there is no water, or no pKa. pKa: resources/tables/acidity.csv.
 */
export function shareInWater(one: Content, contents: Contents, reference: Reference): number {
  if (one.phase === 'aqueous' || one.phase === 'gas' || one.moles?.value === 0) return 0;
  const acidity = acidityOf(one.facts, reference);
  if (!acidity || acidity.pKa.length === 0) return 0;
  const wet = contents.some(({ facts, phase, grams }) => phase === 'aqueous' && grams !== 0 && natureOf(facts, reference).water);
  if (!wet) return 0;
  const pH = ownPH(
    contents.flatMap(({ facts, moles }) => (moles ? [{ facts, moles }] : [])),
    reference,
  );
  const pKa = acidity.pKa.map(({ value }) => value);
  const salt = 1 - (formShares(pKa, pH)[acidity.protons] ?? 1);
  return salt < LITTLE ? 0 : salt;
}
