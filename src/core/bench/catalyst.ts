import { foldName, type Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';

/** Palladium, platinum, rhodium, ruthenium: as powders they are hydrogenation catalysts. */
const METALS = new Set(['7440-05-3', '7440-06-4', '7440-16-6', '7440-18-8']);
const NAMES =
  /raney|(?:palladium|platinum|rhodium|ruthenium|pd|pt|rh|ru|pd\(oh\)2|palladium hydroxide)(?: \([^)]*\))? ?(?:on|\/) ?(?:active |activated )?(?:c\b|carbon|charcoal|alumina)|pearlman/;

/**
 * Whether a charge is a metal catalyst that can ignite in air and set solvent vapour on fire, by its CAS number or its
 * name. Source: Prudent Practices in the Laboratory (1995), Laboratory Chemical Safety Summary, palladium on carbon
 * (nap.edu 4911, p. 370), read in stored copies; platinum metals and Raney nickel: Evonik, precious metal powder
 * catalysts, and Freie Universität Berlin, hydrogenation catalysts, read there.
 */
export function isPyrophoricCatalyst(facts: Facts, form: Form): boolean {
  if (form.kind === 'solution') return false;
  return (facts.cas !== null && METALS.has(facts.cas)) || NAMES.test(foldName(facts.name));
}
