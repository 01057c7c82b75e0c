import { benchLine, benchWords, type BenchInput, type BenchLine } from '../bench/bench-section.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { known, unknown } from '../words/why.ts';
import { funnelFor } from './funnel.ts';
import { densityOf, type Layer, type Layers } from './layers.ts';

/** What a separation needs to be known: which layer lies where, how much of it, where the product is, what funnel. */
export function layerLines(layers: Layers, lively: boolean, of: BenchInput): readonly BenchLine[] {
  const { aqueous, organic, removal } = layers;
  const operation = removal.id;
  if (aqueous.millilitres === 0 || organic.millilitres === 0) {
    const only = aqueous.millilitres === 0 ? organic : aqueous;
    const code = only.millilitres === 0 ? 'no layer' : 'one layer';
    return [benchWords(code, { operation, level: 'caution', values: { layer: only.name, main: only.main } })];
  }
  const upper = layers.upper === 'organic layer' ? organic : aqueous;
  const lower = upper === organic ? aqueous : organic;
  const lines = layers.upper
    ? [layerLine('upper', upper, of, operation), layerLine('lower', lower, of, operation)]
    : [layerLine('layer', aqueous, of, operation), layerLine('layer', organic, of, operation), unsure(layers, operation)];
  return [...lines, ...looseLines(layers, operation), ...productLines(layers, operation), ...funnelLines(layers, lively, of)];
}

function layerLine(code: string, layer: Layer, { plan }: BenchInput, operation: string): BenchLine {
  const density = densityOf(layer);
  const values = {
    layer: layer.name,
    main: layer.main,
    density: density ?? '',
    grams: layer.grams ?? '',
    assumed: layer.assumed.join(', '),
  };
  return benchLine(code, volumeOf(layer, plan.batches.basisGrams), { values, operation });
}

function volumeOf(layer: Layer, basis: Figure) {
  const [missing] = layer.missing;
  if (layer.millilitres === null) return unknown('no volume of it', { material: missing ?? layer.main });
  return known(computed(`volume of the ${layer.name}`, layer.millilitres, 'mL', 'sum of what lies in it', [basis]));
}

/** Which layer lies above is not certain: what speaks against it. */
function unsure({ aqueous, organic, loose }: Layers, operation: string): BenchLine {
  const blind = [...aqueous.missing, ...organic.missing, ...loose.filter((one) => one.grams === null).map(nameOf)];
  const assumed = [aqueous, organic].filter((one) => one.assumed.includes(one.main)).map((one) => one.main);
  const [water, oil] = [densityOf(aqueous), densityOf(organic)];
  const why =
    blind.length > 0 || assumed.length > 0 || water === null || oil === null
      ? unknown('no density for layers', { material: [...new Set([...blind, ...assumed])].join(', ') })
      : unknown('layers too alike', { aqueous: water, organic: oil, loose: loose.map(nameOf).join(', ') });
  return benchLine('order', why, { operation, level: 'caution' });
}

const nameOf = (one: Layers['loose'][number]): string => one.facts.name;

function looseLines({ loose, mixing }: Layers, operation: string): readonly BenchLine[] {
  return [
    ...(loose.length > 0 ? [benchWords('loose', { operation, values: { materials: loose.map(nameOf).join(', ') } })] : []),
    ...(mixing.length > 0
      ? [benchWords('mixing', { operation, level: 'caution' as const, values: { materials: mixing.join(', ') } })]
      : []),
  ];
}

function productLines({ product, removal }: Layers, operation: string): readonly BenchLine[] {
  if (product) return [benchWords('product stays', { operation, values: { layer: product } })];
  const why = unknown('route does not say', { takes: removal.takes.map(({ what }) => what).join(', ') });
  return [benchLine('product', why, { operation, level: 'caution' })];
}

/** The funnel: both layers and room to shake; half full where gas comes off. */
function funnelLines(
  { aqueous, organic, removal, looseMillilitres }: Layers,
  lively: boolean,
  { plan, settings }: BenchInput,
): readonly BenchLine[] {
  const operation = removal.id;
  const basis = plan.batches.basisGrams;
  const [one, other] = [volumeOf(aqueous, basis), volumeOf(organic, basis)];
  if (!one.ok) return [benchLine('funnel', one, { operation, values: { name: '' } })];
  if (!other.ok) return [benchLine('funnel', other, { operation, values: { name: '' } })];
  const both = one.figure.value + other.figure.value + looseMillilitres;
  const fill = lively ? settings.fill.lively : settings.fill.most;
  const { needed, name, largest } = funnelFor(both, fill, settings);
  const figure = computed('funnel', needed, 'mL', 'both layers with what dissolves ÷ largest fill', [one.figure, other.figure]);
  const marked = {
    operation,
    values: { name: name ?? '', fill, both, largest: largest?.name ?? '', portions: largest?.portions ?? '' },
  };
  if (name) return [benchLine('funnel', known(figure), marked)];
  return [benchLine(largest ? 'funnel too small' : 'no funnel', known(figure), { ...marked, level: 'caution' })];
}
