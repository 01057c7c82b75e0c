import { benchLine, benchRange, benchWords, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { type Content, massIn } from '../bench/contents.ts';
import { gasLitres } from '../bench/gas.ts';
import { momentsOf } from '../bench/moments.ts';
import { natureOf } from '../bench/nature.ts';
import { boilsFirst } from '../matter/boiling.ts';
import { factsOf } from '../matter/facts.ts';
import { riseOf } from '../matter/heat-capacity.ts';
import { computed, type Figure, entered, sourced } from '../quantity/figure.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import type { Amount } from '../plan/amounts.ts';
import { ASSUMED_SOLID_DENSITY } from '../plan/pot.ts';
import { excessLines } from './excess-lines.ts';
import { dilutionHeat, type Moving, neutralisationHeat, roughCapacity } from './neutral-heat.ts';
import { carbonateLeast, onHandLines } from './on-hand-lines.ts';
import { type Neutralisation, neutralisationsOf, partOf } from './neutralisation.ts';
import { isCarbonate } from './neutralise.ts';

/** Temperature everything has before, where the charge names none, °C. */
const ROOM_CELSIUS = 20;
const WATER_BOILS = 100;
/** From this rise on the vessel is half full, K: the end of “negligible” after Stoessel (1993). */
export const STRONG_RISE = 50;
/** Less than this of what is needed is said to be too little. */
const ENOUGH = 0.99;

/** What every neutralising charge of a step meets: acid or base there, amount, heat, gas, vessel and time. */
export function neutraliseSection(of: BenchInput): BenchSection | null {
  const moments = momentsOf(of);
  const all = neutralisationsOf(of, moments);
  if (all.length === 0) return null;
  const lines = all.flatMap((one) => linesOf(one, of));
  const assumptions = ['conversion', 'hydrolysed', 'pKa', 'water left out', 'heat', 'capacity', 'volumes'];
  if (all.some((one) => !one.said)) assumptions.unshift('usual end');
  return { kind: 'neutralise', lines: [...excessLines(all, moments, of), ...lines], assumptions, plot: null };
}

function linesOf(one: Neutralisation, of: BenchInput): readonly BenchLine[] {
  const values = {
    material: one.facts.name,
    pH: one.endPH,
    form: one.charge.form.kind === 'solution' ? one.charge.formWords : '',
    excess: one.excessPercent,
  };
  const at = { values, operation: one.charge.id };
  const there = one.there.ok ? known(turned(one.there.figure)) : one.there;
  if (one.there.ok && one.there.figure.value === 0) return [benchWords('nothing', { ...at, level: 'caution' })];
  const acid = one.there.ok ? one.there.figure.value > 0 : one.agent === 'base';
  const lines = [benchLine(acid ? 'acid there' : 'base there', there, at)];
  if (acid !== (one.agent === 'base')) return [...lines, benchWords('wrong way', { ...at, level: 'caution' })];
  const mass = benchLine('mass', partOf(one.asked, 'g', one.needed), at);
  if (!one.needed.ok) return [...lines, mass];
  const heats = heatsOf(one, one.needed.figure, of);
  const warmed = temperatureLines(one, of, heats, at);
  return [
    ...lines,
    mass,
    ...(one.charge.form.kind === 'solution' || one.facts.state === 'liquid'
      ? [benchLine('volume', partOf(one.asked, 'mL', one.needed), at)]
      : []),
    ...carbonateLeast(one, of, at),
    ...onHandLines(one, of, at),
    ...coverLines(one, at),
    benchLine('heat', heats.neutral, at),
    benchLine('dilution', heats.dilution, at),
    ...warmed,
    ...carbonDioxideLines(one, of, at),
    vesselLine(one, warmed, of, at),
    ...timeLines(one, heats.all, of, at),
  ];
}

interface At {
  readonly values: BenchLine['values'];
  readonly operation: string;
}

/** Base there, counted as base. */
function turned(figure: Figure<'mol'>): Figure<'mol'> {
  if (figure.value >= 0) return figure;
  return computed('base equivalents', -figure.value, 'mol', 'protons it takes up', [figure]);
}

/** Where the amount does not follow from the pot: whether it is enough. */
function coverLines(one: Neutralisation, at: At): readonly BenchLine[] {
  if (one.said || !one.planned || !one.needed.ok || one.needed.figure.value === 0) return [];
  const covers = (one.planned.value * one.atMost) / one.needed.figure.value;
  if (covers >= ENOUGH) return [];
  const figure = computed('of what is needed', covers * 100, '%', 'planned ÷ needed', [one.planned, one.needed.figure]);
  return [benchLine('too little', known(figure), { ...at, level: 'caution' })];
}

/** The part of what is needed that really goes in. */
function partUsed(one: Neutralisation): number {
  if (!one.needed.ok || one.needed.figure.value === 0) return 0;
  return one.planned ? Math.min(1, one.planned.value / one.needed.figure.value) : 1;
}

/** Heat of neutralisation of what is planned, as far as it is needed. */
function heatOf(one: Neutralisation, { reference }: BenchInput): Maybe<'kJ'> {
  if (!one.needed.ok) return one.needed;
  const used = partUsed(one);
  const moving: Moving[] = one.before.flatMap(({ facts, moles }) => (moles ? [{ facts, moles }] : []));
  const all = neutralisationHeat(moving, [{ facts: one.facts, moles: one.needed.figure }], one.endPH, reference);
  return all.ok && used < 1 ? known(part(all.figure, used)) : all;
}

/** Heats of one neutralisation: the sum where both are known, else the neutralisation alone. */
interface Heats {
  readonly neutral: Maybe<'kJ'>;
  readonly dilution: Maybe<'kJ'>;
  readonly all: Maybe<'kJ'>;
}

function heatsOf(one: Neutralisation, moles: Figure<'mol'>, of: BenchInput): Heats {
  const neutral = heatOf(one, of);
  const agent = { facts: one.facts, moles, waterMoles: waterWith(one) };
  const dilution = dilutionHeat(one.before, agent, one.endPH, of.reference);
  if (!neutral.ok || !dilution.ok) return { neutral, dilution, all: neutral };
  const both = [neutral.figure, dilution.figure];
  const value = neutral.figure.value + dilution.figure.value;
  return { neutral, dilution, all: known(computed('heat in all', value, 'kJ', 'neutralisation + dilution', both)) };
}

function part(heat: Figure<'kJ'>, used: number): Figure<'kJ'> {
  return computed(heat.label, heat.value * used, 'kJ', 'as far as what is planned neutralises', [heat]);
}

/** Water the needed amount brings along, mol. */
function waterWith(one: Neutralisation): number {
  const { asked, needed, facts } = one;
  if (one.charge.form.kind !== 'solution' || !asked?.grams.ok || !asked.moles.ok || !needed.ok || !facts.molarMass) return 0;
  const share = needed.figure.value / Math.max(asked.moles.figure.value, 1e-300);
  return Math.max(0, (asked.grams.figure.value * share - needed.figure.value * facts.molarMass.value) / 18.015);
}

function temperatureLines(one: Neutralisation, of: BenchInput, { all, dilution }: Heats, at: At): readonly BenchLine[] {
  const fail = (why: Why): readonly BenchLine[] => [benchLine('temperature', { ok: false, why }, at)];
  if (!all.ok) return fail(all.why);
  const there = massIn(one.before);
  if (there === null || !one.asked?.grams.ok) return fail(unknown('no mass in the vessel', { material: one.facts.name }).why);
  const asked = one.asked.grams.figure;
  const grams = computed('mass in all', there + asked.value, 'g', 'what is there + what is added', [asked]);
  const waterThere = one.before.reduce((sum, content) => sum + (isWater(content, of) ? (content.grams ?? 0) : 0), 0);
  const capacity = roughCapacity(Math.min(grams.value, waterThere + waterWith(one) * 18.015), grams.value);
  const rise = riseOf(all.figure, grams, capacity);
  const celsius = one.charge.temperature?.to ?? ROOM_CELSIUS;
  const where = one.charge.temperature ? 'upper end of the charge’s window' : 'taken as room temperature';
  const from = entered('temperature before', celsius, '°C', where, 3);
  const to = computed('temperature if all goes in at once', celsius + rise.value, '°C', 'before + rise', [from, rise]);
  const code = dilution.ok ? 'temperature' : 'temperature alone';
  const boils = lowestBoiling(one, of);
  const lines = [benchRange(code, from, to, at)];
  if (to.value < boils.celsius) return lines;
  const values = { ...at.values, boiling: boils.celsius, liquid: boils.name };
  return [...lines, benchWords('boils', { operation: at.operation, values, level: 'caution' })];
}

function isWater(content: Content, { reference }: BenchInput): boolean {
  return natureOf(content.facts, reference).water;
}

/** What boils first of the liquids there; water where none of them has a boiling point, since the base brings it. */
function lowestBoiling(one: Neutralisation, { reference }: BenchInput): { readonly celsius: number; readonly name: string } {
  const liquids = one.before.flatMap(({ facts, phase, grams }) =>
    facts.state === 'liquid' && (phase === 'organic' || phase === 'aqueous') && grams !== 0 ? [facts] : [],
  );
  const wet = liquids.some((facts) => natureOf(facts, reference).water) || waterWith(one) === 0;
  const all = wet ? liquids : [...liquids, factsOf({ name: 'water', formula: 'H2O' }, reference)];
  const lowest = boilsFirst(all, reference);
  return lowest && lowest.celsius.value < WATER_BOILS
    ? { celsius: lowest.celsius.value, name: lowest.name }
    : { celsius: WATER_BOILS, name: 'water' };
}

/** Carbon dioxide at most, if all of the carbonate that may go in is decomposed. */
function carbonDioxideLines(one: Neutralisation, of: BenchInput, at: At): readonly BenchLine[] {
  if (!isCarbonate(one.facts, of.reference)) return [];
  if (!one.planned)
    return [benchLine('gas at most', unknown('no amount', { material: one.facts.name }), { ...at, level: 'caution' })];
  const value = one.planned.value * one.atMost;
  const most = computed('carbon dioxide', value, 'mol', 'all of the carbonate, with its largest amount', [one.planned]);
  const litres = computed('carbon dioxide', gasLitres(value), 'L', 'ideal gas at 25 °C and 1 atm', [most]);
  return [benchLine('gas at most', known(litres), { ...at, values: { ...at.values, moles: value }, level: 'caution' })];
}

/** The vessel for all of it: half full where it foams, is lively or grows hot, else as full as the laboratory allows. */
function vesselLine(one: Neutralisation, warmed: readonly BenchLine[], of: BenchInput, at: At): BenchLine {
  const { lively, most } = of.settings.fill;
  const foams = [one.facts, ...one.before.map(({ facts }) => facts)].some((facts) => isCarbonate(facts, of.reference));
  const rise = Math.max(0, ...warmed.map(({ shown }) => (shown.kind === 'from to' ? shown.to.value - shown.from.value : 0)));
  const unknownHeat = warmed.some(({ shown }) => shown.kind === 'unknown');
  const half = foams || unknownHeat || rise >= STRONG_RISE || of.step.stages?.[one.charge.stage]?.lively === true;
  const fill = half ? lively : most;
  return benchLine('vessel', vesselFor(one, fill), { ...at, values: { ...at.values, fill } });
}

function vesselFor(one: Neutralisation, most: number): Maybe<'mL'> {
  const there = roomOf(one.before);
  if (there === null) return unknown('no volume in the vessel', { material: one.facts.name });
  if (!one.asked) return one.needed.ok ? unknown('no amount', { material: one.facts.name }) : one.needed;
  const added = addedRoom(one.asked);
  if (!added) return unknown('no amount', { material: one.facts.name });
  const fill = entered('largest fill', most, '', 'the laboratory’s list');
  const value = (there + added.value * one.atMost) / most;
  return known(
    computed('vessel for all of it', value, 'mL', '(what is there + all that is added) ÷ largest fill', [added, fill]),
  );
}

/** Room of what is there, mL; solids and what was formed at 1.3 g/mL where no density is known. */
function roomOf(contents: Neutralisation['before']): number | null {
  const rooms = contents.map(({ phase, millilitres, grams }) =>
    phase === 'gas' ? 0 : (millilitres ?? (grams === null ? null : grams / ASSUMED_SOLID_DENSITY)),
  );
  return rooms.reduce<number | null>((sum, one) => (sum === null || one === null ? null : sum + one), 0);
}

function addedRoom({ millilitres, grams }: Amount): Figure<'mL'> | null {
  if (millilitres.ok) return millilitres.figure;
  if (!grams.ok) return null;
  const { figure } = grams;
  const density = sourced(
    'density of a solid',
    ASSUMED_SOLID_DENSITY,
    'g/mL',
    'taken where none is known',
    2,
    'common practice, no source',
  );
  return computed(figure.label, figure.value / density.value, 'mL', 'mass ÷ density', [figure, density]);
}

function timeLines(one: Neutralisation, heat: Maybe<'kJ'>, of: BenchInput, at: At): readonly BenchLine[] {
  const lines = [benchLine('time by cooling', coolingTime(heat, of), at)];
  const { overMinutes } = one.charge;
  if (overMinutes === null || !one.asked?.millilitres.ok) return lines;
  const { figure } = one.asked.millilitres;
  const minutes = entered('addition', overMinutes, 'min', 'the step');
  const rate = computed('rate of addition', figure.value / overMinutes, 'mL/min', 'volume ÷ time', [figure, minutes]);
  return [...lines, benchLine('rate', known(rate), { ...at, values: { ...at.values, minutes: overMinutes } })];
}

function coolingTime(heat: Maybe<'kJ'>, { settings }: BenchInput): Maybe<'min'> {
  if (settings.coolingWatts === undefined) return unknown('no cooling power');
  if (!heat.ok) return heat;
  const power = entered('cooling power', settings.coolingWatts, 'W', 'the laboratory’s list');
  const value = Math.max(0, heat.figure.value * 1000) / settings.coolingWatts / 60;
  return known(computed('shortest addition', value, 'min', 'heat ÷ cooling power', [heat.figure, power]));
}
