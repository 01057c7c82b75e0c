import { benchLine, type BenchInput, type BenchLine } from '../bench/bench-section.ts';
import type { Content } from '../bench/contents.ts';
import type { Moment } from '../bench/moments.ts';
import { acidPartsOf } from '../matter/acidity.ts';
import { amountOf } from '../plan/amounts.ts';
import type { ChargePlan } from '../plan/result.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { known } from '../words/why.ts';
import type { Neutralisation } from './neutralisation.ts';
import { equivalentsOf, isCarbonate, protonsGiven } from './neutralise.ts';

/** Charged so many times what the equation uses, it far exceeds it. Common practice, no source. */
const FAR = 1.5;
/** Protons a mole gives at the least to be called an acid at this pH: a round figure, no source. */
const LEAST_GIVEN = 0.05;
/** g/mol; standard atomic weights. */
const WATER = 18.015;
const CARBON_DIOXIDE = 44.009;

/**
 * What an acid charged far beyond the equation costs later: base, its volume, and the salt. Information at the acid's
 * charge; never a suggestion to take less, since the excess may be the procedure's safety or its solvent.
 */
export function excessLines(all: readonly Neutralisation[], moments: readonly Moment[], of: BenchInput): readonly BenchLine[] {
  const seen = new Set<string>();
  return all.flatMap((one) =>
    one.agent === 'acid' || !one.needed.ok
      ? []
      : one.before.flatMap((content) => {
          if (seen.has(content.material)) return [];
          const lines = linesFor(content, one, moments, of);
          if (lines.length > 0) seen.add(content.material);
          return lines;
        }),
  );
}

function linesFor(content: Content, one: Neutralisation, moments: readonly Moment[], of: BenchInput): readonly BenchLine[] {
  const charges = of.plan.operations.filter(
    (operation): operation is ChargePlan => operation.kind === 'charge' && operation.material === content.material,
  );
  const [first] = charges;
  if (!first || !content.moles || content.moles.value === 0) return [];
  const charged = charges.reduce((sum, charge) => sum + (charge.moles?.value ?? Number.NaN), 0) / of.plan.batches.count;
  const used = usedOf(content.material, moments, of);
  const equivalents = equivalentsOf(content, one.endPH, of.reference);
  const takes = protonsGiven(one.facts, one.endPH, of.reference);
  if (!(charged >= FAR * used) || !equivalents.ok || !takes.ok) return [];
  // What hardly gives a proton on the way to this pH (hydrogen peroxide) costs no base, and makes no salt.
  if (equivalents.figure.value < LEAST_GIVEN * content.moles.value || takes.figure.value >= 0) return [];
  const moles = computed(
    `${one.facts.name} for the excess`,
    equivalents.figure.value / -takes.figure.value,
    'mol',
    'acid equivalents left ÷ protons a mole takes up',
    [equivalents.figure, takes.figure],
  );
  const amount = amountOf(one.facts, one.charge.form, { by: 'mol', figure: moles }, of.reference);
  const values = {
    material: content.facts.name,
    base: one.facts.name,
    form: one.charge.form.kind === 'solution' ? one.charge.formWords : '',
    charged,
    used,
    left: content.moles.value,
  };
  const at = { values, operation: first.id };
  const salt = saltOf(content, one, moles, of);
  return [
    benchLine('excess base', amount.grams, at),
    ...(one.charge.form.kind === 'solution' ? [benchLine('excess volume', amount.millilitres, at)] : []),
    ...(salt ? [benchLine('excess salt', known(salt), at)] : []),
  ];
}

/** mol that the equation used of a material, over the whole batch. */
function usedOf(material: string, moments: readonly Moment[], of: BenchInput): number {
  const coefficient = of.step.equation.uses.find((term) => term.material === material)?.coefficient ?? 0;
  return moments.reduce((sum, moment) => sum + moment.extent * coefficient, 0);
}

/** Mass of salt that the acid left and its base give: both, less the water and carbon dioxide that they form. */
function saltOf(content: Content, one: Neutralisation, base: Figure<'mol'>, of: BenchInput): Figure<'g'> | null {
  const parts = acidPartsOf(one.facts, of.reference);
  if ('code' in parts || !content.moles || !content.facts.molarMass || !one.facts.molarMass) return null;
  const formed = waterFrom(one, of);
  // What is hydrolysed first takes up water as well: its salts are not worked out.
  const own = acidPartsOf(content.facts, of.reference);
  if (formed === null || 'code' in own || own.some((part) => part.name !== content.facts.name && part.cas !== content.facts.cas))
    return null;
  const value = content.moles.value * content.facts.molarMass.value + base.value * (one.facts.molarMass.value - formed);
  return computed('salt from the excess', value, 'g', 'acid + base − water and carbon dioxide formed, without crystal water', [
    content.moles,
    content.facts.molarMass,
    base,
    one.facts.molarMass,
  ]);
}

/** g of water and carbon dioxide a mole of the base turns into; null for a base that keeps its atoms, or is not known. */
function waterFrom(one: Neutralisation, of: BenchInput): number | null {
  if (isCarbonate(one.facts, of.reference)) return WATER + CARBON_DIOXIDE;
  const hydroxides = /^(?:Na|K|Li|Cs)OH$/.test(one.facts.formula ?? '')
    ? 1
    : /^(?:Ca|Ba|Mg)\(OH\)2$/.test(one.facts.formula ?? '')
      ? 2
      : null;
  return hydroxides === null ? (one.facts.formula === 'NH3' ? 0 : null) : hydroxides * WATER;
}
