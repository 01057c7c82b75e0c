import { benchLine, benchWords, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { prettyFormula } from '../matter/formula.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';
import type { Recrystallise } from '../route/route.ts';
import { known, unknown } from '../words/why.ts';
import { crystallise, leastSolvent, recovered, secondCrop } from './crystallise.ts';
import { type KnownSolubility, knownSolubility } from './known-solubility.ts';
import { pointCautions, temperatureCautions } from './solubility-cautions.ts';
import { type SolubilityCurve, solubilityAt, solubilityCurve } from './solubility-curve.ts';
import { solubilityPlot } from './solubility-plot.ts';
import { solventLimits } from './solvent-limits.ts';

/** Part of the liquor's solvent that is taken off for a second crop. */
const TAKEN_OFF = 0.5;

/** The recrystallisation of one batch's product; null where the step has none. */
export function recrystalliseSection({ plan, step, facts, reference }: BenchInput): BenchSection | null {
  const of = step.recrystallise;
  if (!of) return null;
  const product = facts.get(step.product) ?? null;
  const melts = (product?.cas ? reference.material.get(product.cas)?.meltingPoint : null) ?? null;
  const limits = temperatureCautions(of, solventLimits(of.solvent, facts, reference), melts);
  const holds = knownSolubility(of, product, reference);
  const base = { kind: 'recrystallise' as const };
  if (!holds) {
    const why = unknown('no solubility known', { product: product?.name ?? step.product, solvent: of.solvent });
    const least = benchLine('least', why, { values: { solvent: of.solvent, celsius: of.hotCelsius } });
    return { ...base, lines: [least, ...limits], assumptions: [], plot: null };
  }
  const curve = solubilityCurve(holds.points, of.changeCelsius);
  return {
    ...base,
    lines: [
      ...sourceLines(holds),
      ...amountLines(of, holds, curve, plan.batches.productGrams),
      ...pointCautions(of, holds, curve),
      ...limits,
    ],
    assumptions: ['pure', 'points', ...(holds.row ? ['table'] : [])],
    plot: solubilityPlot(of, holds, curve),
  };
}

function sourceLines({ row, water }: KnownSolubility): readonly BenchLine[] {
  if (!row) return [];
  const solute = row.formula === null ? row.solute : prettyFormula(row.formula);
  const values = { solute, source: row.source, mark: row.mark ?? '', water: water ?? '' };
  return [benchWords(water === null ? 'from table' : 'from table, hydrate', { values })];
}

function amountLines(
  of: Recrystallise,
  holds: KnownSolubility,
  curve: SolubilityCurve,
  product: Figure<'g'>,
): readonly BenchLine[] {
  const hot = solubilityAt(curve, of.hotCelsius);
  const cold = solubilityAt(curve, of.coldCelsius);
  const least = { values: { solvent: of.solvent, celsius: of.hotCelsius } };
  if (!Number.isFinite(product.value)) return [benchLine('least', unknown('no product mass'), least)];
  if (!hot.ok) return [benchLine('least', hot, least)];
  const unit = holds.per === '100 mL solvent' ? 'mL' : 'g';
  const enough = leastSolvent(product.value, hot.figure.value);
  const from = [product, hot.figure];
  const leastFigure = computed('least hot solvent', enough, unit, 'product ÷ solubility when hot', from);
  const solvent = withExcess(of, leastFigure);
  const first = [
    benchLine('least', known(leastFigure), least),
    ...(of.excessPercent === undefined
      ? []
      : [benchLine('taken', known(solvent), { values: { solvent: of.solvent, percent: of.excessPercent } })]),
  ];
  if (!cold.ok) return [...first, benchLine('crystals', cold)];
  if (cold.figure.value >= hot.figure.value) {
    return [...first, benchWords('decreasing', { level: 'caution', values: { hot: of.hotCelsius, cold: of.coldCelsius } })];
  }
  return [...first, ...cropLines(of, product, solvent, hot.figure, cold.figure)];
}

function withExcess({ excessPercent }: Recrystallise, least: Figure<'mL' | 'g'>): Figure<'mL' | 'g'> {
  if (excessPercent === undefined) return least;
  const excess = entered('excess of hot solvent', excessPercent, '%', 'the step');
  return computed('hot solvent taken', least.value * (1 + excessPercent / 100), least.unit, 'least + excess', [least, excess]);
}

function cropLines(
  of: Recrystallise,
  product: Figure<'g'>,
  solvent: Figure<'mL' | 'g'>,
  hot: Figure<'g'>,
  cold: Figure<'g'>,
): readonly BenchLine[] {
  const wash = of.washPerGram === undefined ? 0 : of.washPerGram * product.value;
  const crop = crystallise({ grams: product.value, solvent: solvent.value, hot: hot.value, cold: cold.value, wash });
  const washes = of.washPerGram === undefined ? [] : [entered('washings per g of product', of.washPerGram, '', 'the step')];
  const from = [product, solvent, cold, ...washes];
  const grams = (label: string, value: number, how: string): Figure<'g'> => computed(label, value, 'g', how, from);
  const liquor = grams('in the cold liquor', crop.liquor, 'solvent × solubility when cold');
  const crystals = grams('crystals at best', crop.crystals, 'product − liquor − washings');
  const second = secondCrop(crop.liquor, solvent.value, TAKEN_OFF, cold.value);
  const secondFigure = grams('second crop', second, 'liquor − half of the solvent × solubility when cold');
  const both = recovered(product.value, [crop.crystals, second]);
  const percent = (label: string, value: number, of: readonly Figure[]): Figure<'%'> =>
    computed(label, value, '%', 'crystals ÷ product', of);
  return [
    benchLine('liquor', known(liquor), { values: { celsius: of.coldCelsius } }),
    ...(wash === 0 ? [] : [benchLine('washed', known(grams('in the washings', crop.washed, 'washings × solubility when cold')))]),
    benchLine('crystals', known(crystals)),
    benchLine('recovery', known(percent('best recovery', crop.recoveryPercent, [crystals, product]))),
    benchLine('second', known(secondFigure)),
    benchLine('both', known(percent('both crops', both.recoveryPercent, [crystals, secondFigure, product]))),
  ];
}
