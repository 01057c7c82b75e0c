import type { BenchInput } from '../bench/bench-section.ts';
import type { Contents } from '../bench/contents.ts';
import { momentsOf } from '../bench/moments.ts';
import { natureOf } from '../bench/nature.ts';
import { knownRises } from '../heat/extra-lines.ts';
import { acidityOf } from '../matter/acidity.ts';
import type { Facts } from '../matter/facts.ts';
import type { ChargePlan } from '../plan/result.ts';
import type { Reference } from '../reference.ts';
import type { Notice } from '../words/notice.ts';

/** K; less than this, all at once, is little. Common practice, no source. */
const LITTLE = 2;
/** kJ a mole of protons gives off at the most (as in quench/all-at-once.ts), and J/(g·K) of water. */
const [MOST_HEAT, WATER] = [80, 4.18];
/** mol of protons in a gram that cannot warm it by more than that, whatever it meets. */
const DILUTE = (LITTLE * WATER) / (MOST_HEAT * 1000);

/** Cautions that are about the heat of acid, base and water alone. */
const OF_HEAT: ReadonlySet<string> = new Set([
  'neutralisation heat',
  'acid slowly into water',
  'acid into water',
  'base slowly into acid',
  'base slowly into water',
]);
/** Acids with caustics or amines, in the groups of the compatibility chart: their heat is that of neutralisation. */
const ACID_AND_BASE = /^(?:[1-3]–(?:7|10)|(?:7|10)–[1-3])$/;

/**
 * Cautions of a charge's heat turned into one note with the rise in kelvin, where all heats there are known and come to
 * little, and both what goes in and what is in the vessel are so thin that neither can grow hot in one spot. Never silent.
 * @returns a function of an operation's cautions; `of` is read only where one of them is about heat.
 */
export function littleHeat(of: BenchInput): (operation: string, notices: readonly Notice[]) => readonly Notice[] {
  let read: Read | null = null;
  return (operation, notices) => {
    if (!notices.some(isOfHeat)) return notices;
    read ??= { rises: knownRises(of), before: new Map(momentsOf(of).map((one) => [one.operation, one.before])) };
    const kelvin = read.rises.get(operation);
    const charge = of.plan.operations.find((one): one is ChargePlan => one.kind === 'charge' && one.id === operation);
    const before = read.before.get(operation);
    if (kelvin === undefined || Math.abs(kelvin) >= LITTLE || !charge || !before) return notices;
    if (!isThin(charge, of)) return notices;
    return gentled(notices, kelvin, (name) => isThinIn(before, name, of.reference));
  };
}

interface Read {
  readonly rises: ReadonlyMap<string, number>;
  readonly before: ReadonlyMap<string, Contents>;
}

function isOfHeat({ code, values }: Notice): boolean {
  if (OF_HEAT.has(code)) return true;
  return (
    code === 'chart: warm' &&
    named(values.groups)
      .flatMap((one) => one.split(', '))
      .every((pair) => ACID_AND_BASE.test(pair))
  );
}

const named = (value: unknown): readonly string[] => String(value ?? '').split('|');

/** The first of them as a note for all; the others are gone, since it names what they named. */
function gentled(notices: readonly Notice[], kelvin: number, thin: (name: string) => boolean): readonly Notice[] {
  const gentle = notices.filter((one) => isOfHeat(one) && named(one.values.other).every(thin));
  const [first] = gentle;
  if (!first) return notices;
  const other = [...new Set(gentle.flatMap(({ values }) => named(values.other)))].join('|');
  const note: Notice = {
    ...first,
    level: 'note',
    code: 'little heat',
    values: { material: first.values.material ?? '', other, kelvin },
  };
  return notices.flatMap((one) => (one === first ? [note] : gentle.includes(one) ? [] : [one]));
}

/** Whether what goes in is water, or so thin that it cannot grow hot. */
function isThin({ material, moles, grams }: ChargePlan, { facts, reference }: BenchInput): boolean {
  const own = facts.get(material);
  if (!own || !grams || grams.value <= 0) return false;
  if (natureOf(own, reference).water) return true;
  return moles !== null && moles.value * protonsOf(own, reference) <= DILUTE * grams.value;
}

/** Whether what is named lies in the water of the vessel and so thin that it cannot grow hot. */
function isThinIn(contents: Contents, name: string, reference: Reference): boolean {
  const own = contents.filter(({ facts }) => facts.name === name);
  if (own.length === 0) return false;
  if (own.every(({ facts }) => natureOf(facts, reference).water)) return true;
  const wet = contents.filter(({ phase }) => phase === 'aqueous');
  const grams = wet.reduce((sum, one) => sum + (one.grams ?? Number.NaN), 0);
  const protons = own.reduce((sum, one) => sum + (one.moles?.value ?? Number.NaN) * protonsOf(one.facts, reference), 0);
  return own.every(({ phase }) => phase === 'aqueous') && protons <= DILUTE * grams;
}

/** Protons that a molecule can give or take; infinite where its acidity is not known. */
function protonsOf(facts: Facts, reference: Reference): number {
  const acidity = acidityOf(facts, reference);
  return acidity ? Math.max(1, acidity.pKa.length) : Number.POSITIVE_INFINITY;
}
