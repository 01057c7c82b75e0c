import { benchLine, benchRange, benchWords, type BenchInput, type BenchLine } from '../bench/bench-section.ts';
import type { Content, Contents } from '../bench/contents.ts';
import { momentsOf } from '../bench/moments.ts';
import { grouped } from '../grouped.ts';
import { natureOf } from '../bench/nature.ts';
import { temperatureBefore } from '../bench/temperature-before.ts';
import { boilsFirst } from '../matter/boiling.ts';
import { NEAT } from '../matter/form.ts';
import { riseOf } from '../matter/heat-capacity.ts';
import { computed, entered, type Figure, sourced } from '../quantity/figure.ts';
import { neutraliseSection } from '../quench/neutralise-section.ts';
import { type ExtraHeat, extraHeats } from './extra-heats.ts';
import { specificHeat } from './specific-heat.ts';

/** A rise below this is not worth a line before its charge, K; it still counts in the sum. */
const WORTH_SAYING = 2;
/** One of several heats of a charge that is a smaller part of them all has no line of its own; it counts in the rise. */
const WORTH_A_PART = 0.01;
/** From here on it is a caution, K. */
const HOT = 10;
/** What a gram dissolved in water adds, J/(g·K): low and round, so that the rise comes out high. */
const DISSOLVED = 1;

/** Heats beside the reaction, each with its charge, and where all of them at once bring what is in the vessel by then. */
export function extraLines(extras: readonly ExtraHeat[], of: BenchInput): readonly BenchLine[] {
  const ids = [...new Set(extras.map(({ charge }) => charge.id))];
  return ids.flatMap((id) =>
    linesOf(
      extras.filter(({ charge }) => charge.id === id),
      id,
      of,
    ),
  );
}

function linesOf(extras: readonly ExtraHeat[], id: string, of: BenchInput): readonly BenchLine[] {
  const [first] = extras;
  if (!first) return [];
  const material = of.facts.get(first.charge.material)?.name ?? first.charge.material;
  const rise = riseTogether(extras, id, of);
  const unknown = extras.some(({ heat }) => !heat.ok);
  if (rise && !unknown && Math.abs(rise.value) < WORTH_SAYING) return [];
  const level = !unknown && rise && rise.value >= HOT ? ('caution' as const) : ('number' as const);
  const sum = extras.reduce((all, { heat }) => all + (heat.ok ? Math.abs(heat.figure.value) : 0), 0);
  const worthIt = extras.filter(({ heat }) => !heat.ok || Math.abs(heat.figure.value) >= WORTH_A_PART * sum);
  const each = worthIt.map(({ kind, heat, uncounted }) =>
    benchLine(kind, heat, {
      operation: id,
      values: { material, uncounted: uncounted.join(', ') },
      level: heat.ok ? level : 'number',
    }),
  );
  if (!rise) return each;
  const { from: before, carried } = temperatureBefore(of, id);
  const partly = unknown ? 'yes' : 'no';
  if (!before.ok) return [...each, benchLine('extra rise', before, { operation: id, values: { material, partly }, level })];
  const from = before.figure;
  const value = from.value + rise.value;
  const to = computed('temperature if all goes in at once', value, '°C', 'before + rise', [from, rise]);
  const values = { material, partly, ...(carried ? { carried: 'yes' } : {}) };
  return [
    ...each,
    benchRange('extra rise', from, to, { operation: id, values, level }),
    ...boilsLines(Math.max(from.value, value), id, material, of),
  ];
}

/** That what boils first boils, where all at once reaches it; also where the vessel is hotter than that already. */
function boilsLines(celsius: number, id: string, material: string, of: BenchInput): readonly BenchLine[] {
  const mixed = momentsOf(of).find((moment) => moment.operation === id)?.mixed ?? [];
  const liquids = mixed.flatMap(({ facts, grams }) =>
    facts.state === 'liquid' && !facts.usuallyDissolved && grams !== 0 ? [facts] : [],
  );
  const first = boilsFirst(liquids, of.reference);
  if (!first || celsius < first.celsius.value) return [];
  const values = { material, liquid: first.name, boiling: first.celsius.value };
  return [benchWords('extra boils', { operation: id, values, level: 'caution' })];
}

/**
 * What all at once warms the vessel by at each charge, K, from the heats beside the reaction and of a neutralisation: only
 * where every one of them is known and the equation itself does not run there. No entry: not known, never nothing.
 */
export function knownRises(of: BenchInput): ReadonlyMap<string, number> {
  const runs = new Set(momentsOf(of).flatMap(({ operation, extent }) => (extent > 0 ? [operation] : [])));
  const neutral = neutraliseSection(of)?.lines ?? [];
  const said = new Set(neutral.map(({ operation }) => operation));
  const byNeutral = neutral.flatMap(({ code, shown, operation }): readonly (readonly [string, number])[] =>
    code === 'temperature' && shown.kind === 'from to' && operation !== null
      ? [[operation, shown.to.value - shown.from.value]]
      : [],
  );
  const beside = grouped(extraHeats(of), ({ charge }) => charge.id);
  const byOthers = [...beside].flatMap(([id, extras]): readonly (readonly [string, number])[] => {
    const known = extras.every(({ heat, uncounted }) => heat.ok && uncounted.length === 0);
    const rise = known && !said.has(id) ? riseTogether(extras, id, of) : null;
    return rise ? [[id, rise.value]] : [];
  });
  return new Map([...byNeutral, ...byOthers].filter(([id]) => !runs.has(id)));
}

/** Rise of what is in the vessel with the charge in it, from the heats that are known; null where its mass is not. */
function riseTogether(extras: readonly ExtraHeat[], id: string, of: BenchInput): Figure<'K'> | null {
  const figures = extras.flatMap(({ heat }) => (heat.ok ? [heat.figure] : []));
  const mixed = momentsOf(of).find((moment) => moment.operation === id)?.mixed;
  const mixture = mixed ? bulkOf(mixed, of) : null;
  if (figures.length === 0 || !mixture) return null;
  const sum = figures.reduce((all, figure) => all + figure.value, 0);
  return riseOf(computed('heat given off', sum, 'kJ', 'Σ', figures), mixture.grams, mixture.capacity);
}

function bulkOf(
  contents: Contents,
  of: BenchInput,
): { readonly grams: Figure<'g'>; readonly capacity: Figure<'J/(g·K)'> } | null {
  let [grams, weighed] = [0, 0];
  for (const one of contents) {
    if (one.phase === 'gas') continue;
    if (one.grams === null) return null;
    grams += one.grams;
    weighed += one.grams * capacityOf(one, of);
  }
  if (!(grams > 0)) return null;
  const mass = entered('in the vessel', grams, 'g', 'everything charged so far, less what was taken away', 3);
  const source = 'by mass; 1 J/(g·K) for what is dissolved in water';
  return { grams: mass, capacity: sourced('heat capacity of it', weighed / grams, 'J/(g·K)', source, 3, 'estimate') };
}

function capacityOf(one: Content, { reference }: BenchInput): number {
  const dissolved = one.phase === 'aqueous' && !natureOf(one.facts, reference).water && one.facts.state !== 'liquid';
  const acid = one.phase === 'aqueous' && !natureOf(one.facts, reference).organic && !natureOf(one.facts, reference).water;
  return dissolved || acid ? DISSOLVED : specificHeat(one.facts, NEAT, reference).figure.value;
}
