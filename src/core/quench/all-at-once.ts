import { benchLine, benchRange, benchWords, type BenchInput, type BenchLine } from '../bench/bench-section.ts';
import { type Content, massIn } from '../bench/contents.ts';
import { natureOf } from '../bench/nature.ts';
import { temperatureBefore } from '../bench/temperature-before.ts';
import { boilsFirst } from '../matter/boiling.ts';
import { factsOf } from '../matter/facts.ts';
import { riseOf } from '../matter/heat-capacity.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { known, type Maybe, unknown, type Why } from '../words/why.ts';
import { roughCapacity } from './neutral-heat.ts';
import { fallsShort, type Neutralisation, neutralising } from './neutralisation.ts';

/** Where a line stands, and what it names. */
export interface At {
  readonly values: BenchLine['values'];
  readonly operation: string;
}

const WATER_BOILS = 100;

/** kJ a mole of protons gives off at the most: the largest of resources/tables/ionisation-heats.csv is 78 (estimate). */
const MOST_HEAT = 80;

/** Heats of one neutralisation: the sum where both are known, else the neutralisation alone. */
export interface Heats {
  readonly neutral: Maybe<'kJ'>;
  /** Of what water may not have hydrolysed yet; null where there is nothing of the kind. */
  readonly hydrolysis: { readonly heat: Maybe<'kJ'>; readonly names: string } | null;
  readonly dilution: Maybe<'kJ'>;
  readonly all: Maybe<'kJ'>;
}

/** Moles that neutralise, without excess: what is needed, or all there is where that is less. */
export function molesUsed(one: Neutralisation): Maybe<'mol'> {
  return one.planned && fallsShort(one) ? known(one.planned) : one.needed;
}

/** Water that these moles bring along, mol. */
export function waterWith(one: Neutralisation): number {
  const { facts } = one;
  const [amount, used] = [neutralising(one), molesUsed(one)];
  if (one.charge.form.kind !== 'solution' || !amount?.grams.ok || !amount.moles.ok || !used.ok || !facts.molarMass) return 0;
  const share = used.figure.value / Math.max(amount.moles.figure.value, 1e-300);
  return Math.max(0, (amount.grams.figure.value * share - used.figure.value * facts.molarMass.value) / 18.015);
}

/** Whether what is not known of a temperature can still be too little to matter: what it warms by at the most, K. */
export const riseAtMost = ({ shown, values }: BenchLine): number =>
  shown.kind === 'unknown' ? Number(values.atMost ?? Number.POSITIVE_INFINITY) : 0;

type Warmed = (heat: Figure<'kJ'>) => Figure<'K'>;

/** How warm all of it gets by a heat; null where its mass is not known. */
function warmedBy(one: Neutralisation, of: BenchInput): Warmed | null {
  const there = massIn(one.before);
  const amount = neutralising(one);
  if (there === null || !amount?.grams.ok) return null;
  const added = amount.grams.figure;
  const grams = computed('mass in all', there + added.value, 'g', 'what is there + what is added', [added]);
  const waterThere = one.before.reduce((sum, content) => sum + (isWater(content, of) ? (content.grams ?? 0) : 0), 0);
  const capacity = roughCapacity(Math.min(grams.value, waterThere + waterWith(one) * 18.015), grams.value);
  return (heat) => riseOf(heat, grams, capacity);
}

/** What it warms by at the most where the heat of the neutralisation alone is not known; null where more is not. */
function mostRise(one: Neutralisation, { hydrolysis, dilution }: Heats, warmed: Warmed | null): number | null {
  if (!warmed || hydrolysis || !dilution.ok || !one.there.ok) return null;
  const value = MOST_HEAT * Math.abs(one.there.figure.value) + Math.max(0, dilution.figure.value);
  return warmed(computed('heat at most', value, 'kJ', 'protons × the largest heat', [one.there.figure])).value;
}

/**
 * Temperature of what is in the vessel if all of a base or acid went in at once, °C, from the hottest before it, and that
 * it boils where it would; why not, where a heat or a mass is not known.
 */
export function temperatureLines(one: Neutralisation, of: BenchInput, heats: Heats, at: At): readonly BenchLine[] {
  const { all, dilution } = heats;
  const warmed = warmedBy(one, of);
  const fail = (why: Why): readonly BenchLine[] => {
    const atMost = mostRise(one, heats, warmed);
    const values = atMost === null ? at.values : { ...at.values, atMost };
    return [benchLine('temperature', { ok: false, why }, { ...at, values })];
  };
  if (!all.ok) return fail(all.why);
  if (!warmed) return fail(unknown('no mass in the vessel', { material: one.facts.name }).why);
  const rise = warmed(all.figure);
  const { from: before, carried } = temperatureBefore(of, one.charge.id);
  if (!before.ok) return fail(before.why);
  const from = before.figure;
  const to = computed('temperature if all goes in at once', from.value + rise.value, '°C', 'before + rise', [from, rise]);
  const code = dilution.ok ? 'temperature' : 'temperature alone';
  const boils = lowestBoiling(one, of);
  const values = { ...at.values, ...(carried ? { carried: 'yes' } : {}), ...(isMore(one) ? { part: 'yes' } : {}) };
  const lines = [benchRange(code, from, to, { ...at, values })];
  if (Math.max(from.value, to.value) < boils.celsius) return lines;
  const boiling = { ...at.values, boiling: boils.celsius, liquid: boils.name };
  return [...lines, benchWords('boils', { operation: at.operation, values: boiling, level: 'caution' })];
}

/** More than rounding makes: the plan adds more than is asked for, and the first part of it already gives this heat. */
const MORE = 1.01;

function isMore({ asked, goesIn }: Neutralisation): boolean {
  return asked?.moles.ok === true && goesIn?.moles.ok === true && goesIn.moles.figure.value > MORE * asked.moles.figure.value;
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
