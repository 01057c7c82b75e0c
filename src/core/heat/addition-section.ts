import { benchLine, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { type Figure, entered } from '../quantity/figure.ts';
import type { Charge } from '../route/route.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { coolingPower, scaledAddition, shortestFor } from './addition-time.ts';
import { type Runaway, runawayOf, togetherWith } from './runaway.ts';

/** How slowly the charge that frees the heat has to be added, and what an addition that is known to go well becomes at this scale. */
export function additionSection(of: BenchInput): BenchSection | null {
  const charges = of.step.operations.filter((one): one is Charge => one.do === 'charge');
  const scaled = charges.filter((one) => one.knownAddition);
  const found = runawayOf(of);
  if (of.step.heat === undefined && scaled.length === 0 && !found.slow) return null;
  const cooled = coolingLines(of, found);
  const lines = [
    ...cooled.map(({ line }) => line),
    ...charges.flatMap((charge) => scaledLines(charge, of)),
    ...charges.flatMap((charge) => timeLines(charge, boundOf(charge, of, found, cooled), of)),
  ];
  const assumptions = [...(cooled.length > 0 ? ['cooling'] : []), ...(scaled.length > 0 ? ['scaled'] : [])];
  return { kind: 'addition', lines, assumptions, plot: null };
}

interface Cooled {
  readonly line: BenchLine;
  readonly time: Maybe<'min'>;
}

/** Shortest addition for the laboratory's cooling power, with what else the charges give off, and for the vessel's own. */
function coolingLines(of: BenchInput, found: Runaway): readonly Cooled[] {
  const { reaction, last } = found;
  if (last === null) return [];
  const material = of.facts.get(last.material)?.name ?? last.material;
  if (!reaction.ok) return [asLine('shortest', reaction, { material })];
  if (reaction.figure.value <= 0) return [asLine('shortest', unknown('heat is taken up'), { material })];
  const { shortestAddition } = of.plan.batches;
  const lines = [asLine('shortest', shortestAddition ? known(shortestAddition) : unknown('no cooling power'), { material })];
  const whole = togetherWith(reaction.figure, found.extra);
  const watts = of.settings.coolingWatts;
  if (watts !== undefined && found.extra && found.extra.value > 0)
    lines.push(asLine('shortest with the rest', known(shortestFor(whole, bath(watts))), { material }));
  const own = vesselPower(of, found);
  if (!own) return lines;
  const values = { material, vessel: own.name };
  const time: Maybe<'min'> = own.power.ok ? known(shortestFor(whole, own.power.figure)) : own.power;
  return [...lines, asLine('shortest by vessel', time, values)];
}

const bath = (watts: number): Figure<'W'> => entered('cooling power', watts, 'W', 'the laboratory’s list');

function asLine(code: string, time: Maybe<'min'>, values: BenchLine['values']): Cooled {
  return { line: benchLine(code, time, { values }), time };
}

/** What the vessel of the reaction carries away, where the laboratory's list has its U, A and coolant. */
function vesselPower(
  { plan, settings }: BenchInput,
  { process, last }: Runaway,
): { readonly name: string; readonly power: Maybe<'W'> } | null {
  const name = plan.batches.stages.find((one) => one.stage === last?.stage)?.vessel?.name;
  const cooling = settings.vessels.find((one) => one.name === name)?.cooling;
  if (name === undefined || !cooling) return null;
  if (!process.ok) return { name, power: process };
  const where = 'the laboratory’s list';
  const vessel = {
    transfer: entered('heat transfer', cooling.wattsPerSquareMetreKelvin, 'W/(m²·K)', where),
    area: entered('cooled surface', cooling.squareMetres, 'm²', where),
    coolant: entered('coolant', cooling.coolantCelsius, '°C', where),
  };
  return { name, power: coolingPower(vessel, process.figure) };
}

/** The least time at this scale of an addition that is known. */
function scaledTime({ knownAddition }: Charge, { plan }: BenchInput): Maybe<'min'> | null {
  if (!knownAddition) return null;
  const minutes = entered('known addition', knownAddition.minutes, 'min', 'the step');
  const grams = entered('basis in the known addition', knownAddition.basisGrams, 'g', 'the step');
  return scaledAddition(plan.batches.basisGrams, { minutes, grams });
}

function scaledLines(charge: Charge, of: BenchInput): readonly BenchLine[] {
  const time = scaledTime(charge, of);
  const { knownAddition } = charge;
  if (!time || !knownAddition) return [];
  const { minutes, basisGrams } = knownAddition;
  const material = of.facts.get(charge.material)?.name ?? charge.material;
  return [benchLine('scaled', time, { values: { material, minutes, grams: basisGrams } })];
}

/** The longest of the lower bounds that are known for one charge. */
function boundOf(charge: Charge, of: BenchInput, { last }: Runaway, cooled: readonly Cooled[]): Figure<'min'> | null {
  const times = [...(charge.id === last?.id ? cooled.map(({ time }) => time) : []), scaledTime(charge, of)];
  const bounds = times.flatMap((time) => (time?.ok ? [time.figure] : []));
  return bounds.toSorted((a, b) => b.value - a.value)[0] ?? null;
}

/** Immediately before a charge: that its time is shorter than a bound, or that it has none. */
function timeLines(charge: Charge, bound: Figure<'min'> | null, of: BenchInput): readonly BenchLine[] {
  if (!bound) return [];
  const material = of.facts.get(charge.material)?.name ?? charge.material;
  const given = charge.overMinutes;
  const where = { operation: charge.id, level: 'caution' as const };
  if (given === undefined) return [benchLine('no time given', known(bound), { ...where, values: { material } })];
  if (given >= bound.value * (1 - 1e-9)) return [];
  return [benchLine('too short', known(bound), { ...where, values: { material, minutes: given } })];
}
