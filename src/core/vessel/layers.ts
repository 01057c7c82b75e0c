import type { BenchInput } from '../bench/bench-section.ts';
import { type Content, type Contents, inPhase } from '../bench/contents.ts';
import type { Moment } from '../bench/moments.ts';
import { natureOf } from '../bench/nature.ts';
import { freedGases } from '../quench/freed-gases.ts';
import { ASSUMED_SOLID_DENSITY } from '../plan/step/pot.ts';
import type { Removal } from '../route/route.ts';

export type LayerName = 'aqueous layer' | 'organic layer';

/** One liquid layer before it is separated, one batch. */
export interface Layer {
  readonly name: LayerName;
  /** What most of it is. */
  readonly main: string;
  /** Null where a part of it is not known. */
  readonly grams: number | null;
  readonly millilitres: number | null;
  /** Materials without a mass or volume. */
  readonly missing: readonly string[];
  /** Materials whose density is assumed. */
  readonly assumed: readonly string[];
}

/** What lies in the funnel before a separation. */
export interface Layers {
  readonly removal: Removal;
  readonly aqueous: Layer;
  readonly organic: Layer;
  /** The one that lies above; null where that is not certain. */
  readonly upper: LayerName | null;
  /** Solids that are in neither layer here: which of them dissolves where is not worked out. */
  readonly loose: Contents;
  /** Room they take where it is known, mL; some at 1.3 g/mL. */
  readonly looseMillilitres: number;
  /** Solvents that mix with water and stand by an organic layer: they go into both. */
  readonly mixing: readonly string[];
  /** Where the route says the product stays; null where it does not say. */
  readonly product: LayerName | null;
}

/** Densities closer than this, g/mL, do not tell what lies above: dissolved matter turns them over. No source. */
const ALIKE = 0.03;

/** The layers before every separation of a step that takes one. */
export function layersOf(of: BenchInput, moments: readonly Moment[]): readonly Layers[] {
  return of.step.operations.flatMap((operation, at): readonly Layers[] => {
    const there = moments[at]?.before;
    if (operation.do !== 'removal' || operation.how !== 'separate' || !there) return [];
    return [layersIn(operation, there, carbonDioxideLeft(at, there, moments, of), of)];
  });
}

const CARBON_DIOXIDE = '124-38-9';

/**
 * Carbon dioxide that acid drove out of what is in the aqueous layer, g: since the last removal, as far as the acid goes.
 * What is not known counts as none, which leaves the layer heavier; a solid is in no layer yet.
 */
function carbonDioxideLeft(at: number, there: Contents, moments: readonly Moment[], of: BenchInput): number {
  const last = of.step.operations.findLastIndex((one, index) => index < at && one.do === 'removal');
  const since = new Set(moments.slice(last + 1, at).map((moment) => moment.operation));
  const dissolved = new Set(inPhase(there, 'aqueous').map(({ facts }) => facts.name));
  return freedGases(of).reduce((sum, { operation, gas, from, stoichiometric }) => {
    const counts = gas.cas === CARBON_DIOXIDE && from !== null && dissolved.has(from) && since.has(operation);
    return counts && stoichiometric.ok && gas.molarMass ? sum + stoichiometric.figure.value * gas.molarMass.value : sum;
  }, 0);
}

/** A layer less a gas that left it; its volume stays. */
function lighter(one: Layer, grams: number): Layer {
  return one.grams === null ? one : { ...one, grams: Math.max(0, one.grams - grams) };
}

function layersIn(removal: Removal, contents: Contents, gasGrams: number, of: BenchInput): Layers {
  const there = contents.filter((one) => one.grams !== 0 && one.moles?.value !== 0);
  const aqueous = lighter(layer('aqueous layer', inPhase(there, 'aqueous')), gasGrams);
  const organic = layer('organic layer', inPhase(there, 'organic'));
  const loose = inPhase(there, 'solid');
  const both = organic.millilitres !== 0 && aqueous.millilitres !== 0;
  const mixing = both
    ? inPhase(there, 'aqueous').filter((one) => natureOf(one.facts, of.reference).organic && isLiquid(one))
    : [];
  return {
    removal,
    aqueous,
    organic,
    upper: both ? upperOf(aqueous, organic, { loose, mixing }) : null,
    loose,
    looseMillilitres: loose.reduce((sum, one) => sum + (roomOf(one) ?? 0), 0),
    mixing: mixing.map((one) => one.facts.name),
    product: productIn(removal, of),
  };
}

/** Nothing says that it is a solid that is dissolved. */
const isLiquid = (one: Content): boolean => one.phase !== 'solid' && one.facts.state !== 'solid' && one.facts.state !== 'gas';

function layer(name: LayerName, contents: Contents): Layer {
  const parts = contents.map((one) => ({ one, room: roomOf(one) }));
  const missing = parts.filter(({ one, room }) => one.grams === null || room === null).map(({ one }) => one.facts.name);
  const most = contents.toSorted((a, b) => (b.grams ?? 0) - (a.grams ?? 0))[0];
  const sum = (values: readonly (number | null)[]): number | null =>
    values.reduce<number | null>((all, value) => (all === null || value === null ? null : all + value), 0);
  return {
    name,
    main: most?.facts.name ?? '',
    grams: sum(contents.map((one) => one.grams)),
    millilitres: sum(parts.map(({ room }) => room)),
    missing,
    assumed: contents.filter((one) => one.millilitres === null && one.grams !== null).map((one) => one.facts.name),
  };
}

/** mL; a liquid without a density at 1 g/mL, a solid at 1.3. */
function roomOf(one: Content): number | null {
  if (one.millilitres !== null || one.grams === null) return one.millilitres;
  return isLiquid(one) ? one.grams : one.grams / ASSUMED_SOLID_DENSITY;
}

/** Density of a layer, g/mL; null where mass or volume is not known. */
export function densityOf({ grams, millilitres }: Bulk): number | null {
  return grams === null || millilitres === null || millilitres <= 0 ? null : grams / millilitres;
}

/** The lighter layer, if it stays the lighter one wherever the loose solids and the solvents that mix with water go. */
function upperOf(
  aqueous: Layer,
  organic: Layer,
  { loose, mixing }: { readonly loose: Contents; readonly mixing: Contents },
): LayerName | null {
  if (aqueous.assumed.includes(aqueous.main) || organic.assumed.includes(organic.main)) return null;
  const [solids, solvents] = [bulkOf(loose), bulkOf(mixing)];
  const cases = [
    [aqueous, organic],
    [plus(aqueous, solids, 1), organic],
    [aqueous, plus(organic, solids, 1)],
    [plus(aqueous, solvents, -1), plus(organic, solvents, 1)],
  ] as const;
  const differences = cases.map(([water, oil]) => (densityOf(water) ?? Number.NaN) - (densityOf(oil) ?? Number.NaN));
  if (differences.every((one) => one >= ALIKE)) return 'organic layer';
  return differences.every((one) => one <= -ALIKE) ? 'aqueous layer' : null;
}

type Bulk = Pick<Layer, 'grams' | 'millilitres'>;

function bulkOf(contents: Contents): Bulk {
  return contents.reduce<Bulk>((sum, one) => plus(sum, { grams: one.grams, millilitres: roomOf(one) }, 1), {
    grams: 0,
    millilitres: 0,
  });
}

/** One with the other in it (1) or out of it (−1); null where a part is not known. */
function plus(one: Bulk, other: Bulk, times: number): Bulk {
  const sum = (a: number | null, b: number | null): number | null => (a === null || b === null ? null : a + times * b);
  return { grams: sum(one.grams, other.grams), millilitres: sum(one.millilitres, other.millilitres) };
}

/** The layer the route leaves the product in: the one it does not take. */
function productIn({ takes }: Removal, { step }: BenchInput): LayerName | null {
  const whole = (what: string): boolean => takes.some((one) => one.what === what && one.percent > 0);
  if (takes.some(({ what }) => [step.product, step.basis, 'liquids', 'solids'].includes(what))) return null;
  if (whole('aqueous layer') === whole('organic layer')) return null;
  return whole('aqueous layer') ? 'organic layer' : 'aqueous layer';
}
