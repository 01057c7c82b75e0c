import { benchLine, benchWords, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { gasLitres } from '../bench/gas.ts';
import { momentsOf } from '../bench/moments.ts';
import { natureOf } from '../bench/nature.ts';
import type { Facts } from '../matter/facts.ts';
import { heatOfHydrolysis } from '../matter/hydrolysis-heat.ts';
import { computed, type Figure, entered, sourced } from '../quantity/figure.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import type { Amount } from '../plan/amounts.ts';
import { ASSUMED_SOLID_DENSITY } from '../plan/step/pot.ts';
import { excessLines } from './excess-lines.ts';
import { dilutionHeat, type Moving, neutralisationHeat } from './neutral-heat.ts';
import { type At, type Heats, molesUsed, riseAtMost, temperatureLines, waterWith } from './all-at-once.ts';
import { carbonateLeast, onHandLines } from './on-hand-lines.ts';
import { type Neutralisation, neutralisationsOf, partOf } from './neutralisation.ts';
import { isCarbonate, isHydrolysed, isNothing, reactsWithWater } from './neutralise.ts';

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
  if (lines.length === 0) return null;
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
  if (one.there.ok && isNothing(one.before, one.there.figure.value))
    return one.charge.neutralises ? [] : [benchWords('nothing', { ...at, level: 'caution' })];
  const acid = one.there.ok ? one.there.figure.value > 0 : one.agent === 'base';
  const lines = [...unbalancedLines(of, at), benchLine(acid ? 'acid there' : 'base there', there, at)];
  if (acid !== (one.agent === 'base')) return [...lines, benchWords('wrong way', { ...at, level: 'caution' })];
  const mass = benchLine('mass', partOf(one.asked, 'g', one.needed), at);
  if (!one.needed.ok) return [...lines, mass, ...(one.planned ? [] : [benchLine('heat', one.needed, at)])];
  const used = molesUsed(one);
  const heats = heatsOf(one, used.ok ? used.figure : one.needed.figure, of);
  const hydrolysed = heats.hydrolysis ? { ...at, values: { ...values, hydrolysed: heats.hydrolysis.names } } : at;
  const warmed = temperatureLines(one, of, heats, hydrolysed);
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
    ...(heats.hydrolysis ? [benchLine('hydrolysis', heats.hydrolysis.heat, hydrolysed)] : []),
    benchLine('dilution', heats.dilution, at),
    ...warmed,
    ...carbonDioxideLines(one, of, at),
    vesselLine(one, warmed, of, at),
    ...timeLines(one, heats.all, of, at),
  ];
}

/** What an equation that does not balance leaves out is not in the vessel here, and may be acid or base. */
function unbalancedLines({ plan }: BenchInput, at: At): readonly BenchLine[] {
  const notice = plan.notices.find(({ code }) => code === 'unbalanced');
  if (!notice) return [];
  const values = { ...at.values, difference: String(notice.values.difference) };
  return [benchWords('not balanced', { operation: at.operation, values, level: 'caution' })];
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

function heatsOf(one: Neutralisation, moles: Figure<'mol'>, of: BenchInput): Heats {
  const neutral = heatOf(one, of);
  const agent = { facts: one.facts, moles, waterMoles: waterWith(one) };
  const dilution = dilutionHeat(one.before, agent, one.endPH, of.reference);
  const hydrolysis = hydrolysisIn(one, moles, of);
  const heats = [neutral, ...(hydrolysis ? [hydrolysis.heat] : []), ...(dilution.ok ? [dilution] : [])];
  return { neutral, hydrolysis, dilution, all: sumOf(heats) };
}

/** What is there, or goes in, and is an acid or base only by what water makes of it: it may still be whole. */
function hydrolysisIn(one: Neutralisation, moles: Figure<'mol'>, { reference }: BenchInput): Heats['hydrolysis'] {
  const all = [
    ...one.before.flatMap(({ facts, moles: own }) => (own ? [{ facts, moles: own }] : [])),
    { facts: one.facts, moles },
  ];
  // A metal chloride is an acid of its own once it is dissolved; dry, its heat comes now.
  const dry = !one.before.some(({ facts, grams }) => natureOf(facts, reference).water && grams !== 0);
  const comes = dry ? reactsWithWater : isHydrolysed;
  const hydrolysed = all.filter((each) => each.moles.value > 0 && comes(each.facts, reference));
  const heat = heatOfHydrolysis(hydrolysed, reference);
  return heat && { heat, names: [...new Set(hydrolysed.map(({ facts }) => facts.name))].join(', ') };
}

function sumOf(heats: readonly Maybe<'kJ'>[]): Maybe<'kJ'> {
  const figures: Figure<'kJ'>[] = [];
  for (const heat of heats) {
    if (!heat.ok) return heat;
    figures.push(heat.figure);
  }
  const value = figures.reduce((sum, figure) => sum + figure.value, 0);
  return known(computed('heat in all', value, 'kJ', 'neutralisation + hydrolysis + dilution', figures));
}

function part(heat: Figure<'kJ'>, used: number): Figure<'kJ'> {
  return computed(heat.label, heat.value * used, 'kJ', 'as far as what is planned neutralises', [heat]);
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
  const unknownHeat = warmed.some((line) => riseAtMost(line) >= STRONG_RISE);
  const half = foams || unknownHeat || rise >= STRONG_RISE || of.step.stages?.[one.charge.stage]?.lively === true;
  const fill = half ? lively : most;
  return benchLine('vessel', vesselFor(one, fill), { ...at, values: { ...at.values, fill } });
}

function vesselFor(one: Neutralisation, most: number): Maybe<'mL'> {
  const there = roomOf(one.before);
  if (there === null) return unknown('no volume in the vessel', { material: one.facts.name });
  if (!one.goesIn) return one.needed.ok ? unknown('no amount', { material: one.facts.name }) : one.needed;
  const added = addedRoom(one.goesIn, one.facts);
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

function addedRoom({ millilitres, grams }: Amount, { solidDensity }: Facts): Figure<'mL'> | null {
  if (millilitres.ok) return millilitres.figure;
  if (!grams.ok) return null;
  const { figure } = grams;
  const assumed = (): Figure<'g/mL'> =>
    sourced('density of a solid', ASSUMED_SOLID_DENSITY, 'g/mL', 'taken where none is known', 2, 'common practice, no source');
  const density = solidDensity ?? assumed();
  return computed(figure.label, figure.value / density.value, 'mL', 'mass ÷ density', [figure, density]);
}

function timeLines(one: Neutralisation, heat: Maybe<'kJ'>, of: BenchInput, at: At): readonly BenchLine[] {
  const lines = [benchLine('time by cooling', coolingTime(heat, of), at)];
  const { overMinutes } = one.charge;
  if (overMinutes === null || !one.goesIn?.millilitres.ok) return lines;
  const { figure } = one.goesIn.millilitres;
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
