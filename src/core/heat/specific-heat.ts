import { hydrateOf } from '../matter/hydrate.ts';
import { anhydrousOf } from '../matter/solution-parts.ts';
import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { parseFormula } from '../matter/formula.ts';
import { heatCapacity } from '../matter/heat-capacity.ts';
import { solventFacts } from '../matter/named.ts';
import { massFraction } from '../matter/solution.ts';
import { computed, type Figure, marksOf, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';

/** Digits an estimate deserves, and those of a table value. */
const ESTIMATE_DIGITS = 1;
const TABLE_DIGITS = 3;

/**
 * Values taken where the table has none, J/(g·K): low ones, so that the rise comes out high. At least nine in ten of the
 * table's rows of the same kind lie above; what no kind fits takes the lowest. Source: the table of specific heats.
 */
export const ASSUMED = {
  'organic liquid': 1.6,
  'organic solid': 1,
  'with chlorine, bromine or iodine': 0.7,
  other: 0.34,
} as const;
export type Kind = keyof typeof ASSUMED;

/** Heat capacity of a charge at 25 °C, J/(g·K). */
export interface SpecificHeat {
  readonly figure: Figure<'J/(g·K)'>;
  /** True where any part of it is assumed. */
  readonly estimated: boolean;
}

/**
 * Heat capacity of a material as it is charged: of the table, of a solution by the model or by its parts, else a low
 * estimate that says so. Never fails: what is assumed is marked.
 */
export function specificHeat(facts: Facts, form: Form, reference: Reference): SpecificHeat {
  if (form.kind !== 'solution') return pure(facts, reference);
  const fraction = massFraction(facts, form, reference);
  const solvent = solventFacts(form, reference);
  if (!fraction.ok || !solvent) return marked(assumed(facts, reference));
  const own = anhydrousOf(facts, reference);
  const modelled = solvent.cas === WATER && own.cas !== null && reference.laliberte.has(own.cas);
  if (modelled) return marked(heatCapacity(own, asAnhydrous(facts, own, fraction.figure), reference));
  const w = fraction.figure.value;
  const [solute, rest] = [pure(facts, reference).figure, pure(solvent, reference).figure];
  const value = w * solute.value + (1 - w) * rest.value;
  const how = 'its parts by mass';
  return marked(
    computed(`heat capacity of ${facts.name} in ${solvent.name}`, value, 'J/(g·K)', how, [solute, rest, fraction.figure]),
  );
}

const WATER = '7732-18-5';

/** What a formula is for a heat capacity that has to be assumed. */
export function kindOf(facts: Pick<Facts, 'formula' | 'state'>, reference: Reference): Kind {
  const formula = facts.formula === null ? null : parseFormula(facts.formula, reference);
  if (!formula?.ok || !formula.atoms.has('C') || !formula.atoms.has('H')) return 'other';
  if (['Cl', 'Br', 'I'].some((heavy) => formula.atoms.has(heavy))) return 'with chlorine, bromine or iodine';
  const light = [...formula.atoms.keys()].every((symbol) => ['C', 'H', 'N', 'O', 'F', 'S', 'Si', 'P', 'D'].includes(symbol));
  if (!light) return 'other';
  return facts.state === 'liquid' ? 'organic liquid' : 'organic solid';
}

function pure(facts: Facts, reference: Reference): SpecificHeat {
  const row = facts.cas === null ? undefined : reference.specificHeat.get(facts.cas);
  if (!row) return { figure: ofHydrate(facts, reference) ?? assumed(facts, reference), estimated: true };
  const label = `heat capacity of ${facts.name}`;
  return { figure: sourced(label, row.value, 'J/(g·K)', `${row.source}, 25 °C, ${row.phase}`, TABLE_DIGITS), estimated: false };
}

/** J/(g·K) of water of crystallisation: low (ice has about 2). Common practice, no source. */
const CRYSTAL_WATER = 1.8;
const WATER_MASS = 18.015;

/** A hydrate that the table does not have: its anhydrous substance, and its water at a low value. */
function ofHydrate(facts: Facts, reference: Reference): Figure<'J/(g·K)'> | null {
  const hydrate = hydrateOf(facts, reference);
  if (!hydrate || !facts.molarMass) return null;
  const dry = pure(hydrate.anhydrous, reference).figure;
  const wet = Math.min(1, (hydrate.water * WATER_MASS) / facts.molarMass.value);
  const water = sourced('heat capacity of its water', CRYSTAL_WATER, 'J/(g·K)', 'assumed: low', ESTIMATE_DIGITS, 'estimate');
  const value = wet * CRYSTAL_WATER + (1 - wet) * dry.value;
  return computed(`heat capacity of ${facts.name}`, value, 'J/(g·K)', 'anhydrous substance + water, by mass', [dry, water]);
}

function assumed(facts: Facts, reference: Reference): Figure<'J/(g·K)'> {
  const kind = kindOf(facts, reference);
  const source = `assumed: low for its kind (${kind})`;
  return sourced(`heat capacity of ${facts.name}`, ASSUMED[kind], 'J/(g·K)', source, ESTIMATE_DIGITS, 'estimate');
}

function marked(figure: Figure<'J/(g·K)'>): SpecificHeat {
  return { figure, estimated: marksOf(figure).includes('estimate') };
}

/** Mass fraction of the substance without its water of crystallisation, where the strength counts a hydrate. */
function asAnhydrous(facts: Facts, own: Facts, fraction: Figure<'g/g'>): Figure<'g/g'> {
  if (own === facts || !own.molarMass || !facts.molarMass) return fraction;
  const value = (fraction.value * own.molarMass.value) / facts.molarMass.value;
  return computed(`mass fraction of ${own.name}`, value, 'g/g', 'mass fraction × molar masses', [
    fraction,
    own.molarMass,
    facts.molarMass,
  ]);
}
