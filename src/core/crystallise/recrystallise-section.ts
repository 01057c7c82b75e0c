import {
  benchLine,
  benchWords,
  type BenchInput,
  type BenchLine,
  type BenchPlot,
  type BenchSection,
} from '../bench/bench-section.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';
import type { Recrystallise } from '../route/route.ts';
import { known, unknown } from '../words/why.ts';
import { crystallise, leastSolvent, secondCrop } from './crystallise.ts';
import { fitted, perSolvent, solubilityAt, vantHoffFit } from './solubility.ts';

/** Points this far off the fitted line, as a part, are worth a word. */
const SCATTER = 0.15;
/** Part of the liquor's solvent that is taken off for a second crop. */
const TAKEN_OFF = 0.5;
const CURVE = 24;

/** The recrystallisation of one batch's product; null where the step has none. */
export function recrystalliseSection({ plan, step }: BenchInput): BenchSection | null {
  const of = step.recrystallise;
  if (!of) return null;
  return {
    kind: 'recrystallise',
    lines: [...amountLines(of, plan.batches.productGrams), ...scatterLines(of)],
    assumptions: ['pure', 'points'],
    plot: plotOf(of),
  };
}

function amountLines(of: Recrystallise, product: Figure<'g'>): readonly BenchLine[] {
  const hot = solubilityAt(of.points, of.per, of.hotCelsius);
  const cold = solubilityAt(of.points, of.per, of.coldCelsius);
  const least = { values: { solvent: of.solvent, celsius: of.hotCelsius } };
  if (!Number.isFinite(product.value)) return [benchLine('least', unknown('no product mass'), least)];
  if (!hot.ok) return [benchLine('least', hot, least)];
  const unit = of.per === '100 mL solvent' ? 'mL' : 'g';
  const solvent = computed(
    'least hot solvent',
    leastSolvent(product.value, hot.figure.value),
    unit,
    'product ÷ solubility when hot',
    [product, hot.figure],
  );
  const first = benchLine('least', known(solvent), least);
  if (!cold.ok) return [first, benchLine('crystals', cold)];
  if (cold.figure.value >= hot.figure.value) {
    return [first, benchWords('decreasing', { level: 'caution', values: { hot: of.hotCelsius, cold: of.coldCelsius } })];
  }
  return [first, ...cropLines(of, product, solvent, hot.figure, cold.figure)];
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
  return [
    benchLine('liquor', known(liquor), { values: { celsius: of.coldCelsius } }),
    ...(wash === 0 ? [] : [benchLine('washed', known(grams('in the washings', crop.washed, 'washings × solubility when cold')))]),
    benchLine('crystals', known(crystals)),
    benchLine('recovery', known(computed('best recovery', crop.recoveryPercent, '%', 'crystals ÷ product', [crystals, product]))),
    benchLine('second', known(grams('second crop', second, 'liquor − half of the solvent × solubility when cold'))),
  ];
}

function scatterLines({ points, per }: Recrystallise): readonly BenchLine[] {
  const fit = vantHoffFit(points, per);
  if (!fit || fit.scatter <= SCATTER) return [];
  return [benchWords('scatter', { level: 'caution', values: { percent: Math.round(100 * fit.scatter) } })];
}

/** The points, and the fitted line between the first and the last of them. */
function plotOf({ points, per, solvent }: Recrystallise): BenchPlot | null {
  const fit = vantHoffFit(points, per);
  if (!fit) return null;
  const sorted = [...points].sort((a, b) => a.celsius - b.celsius);
  const [from, to] = [sorted[0]?.celsius ?? 0, sorted.at(-1)?.celsius ?? 0];
  return {
    name: 'solubility',
    values: { solvent, per: per === '100 g solution' ? '100 g solvent' : per },
    x: '°C',
    y: 'g',
    points: sorted.map((point) => ({ x: point.celsius, y: perSolvent(point.grams, per) })),
    curve: Array.from({ length: CURVE + 1 }, (_, at) => {
      const x = from + ((to - from) * at) / CURVE;
      return { x, y: fitted(fit, x), inside: true };
    }),
  };
}
