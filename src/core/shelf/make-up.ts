import { hazardsOf } from '../bench/hazards.ts';
import { makeUpCautions } from '../bench/cautions.ts';
import { solutionCautions } from '../bench/solution-order.ts';
import { makeSolution } from '../matter/make-solution.ts';
import { type Saturated, saturatedInWater } from '../matter/saturated.ts';
import { byWater, PUT_IN, withSurplus } from '../matter/saturated-solution.ts';
import { massFraction } from '../matter/solution.ts';
import type { MakeUp, MakeUpPart } from '../plan/make-up-result.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Settings } from '../plan/settings.ts';
import type { Reference } from '../reference.ts';
import { formWords, wantedWords } from '../words/form-words.ts';
import type { Notice } from '../words/notice.ts';
import type { Remaining } from './allocate.ts';
import { type Demand, fromBottle, inUnit, lineId } from './demand.ts';
import { tooLittleIn } from './make-up-weighed.ts';
import type { Bottle } from './shelf.ts';

/** Taken for everything before a solution is made; common practice, no source. */
const ROOM_CELSIUS = 20;
/** Made up over what is charged, since some stays in the glass it is made and measured in; common practice, no source. */
export const EXCESS_PERCENT = 5;
/** Bottles that hold a need to this part of it hold it. */
const ROUNDING = 1e-12;

/** What make-ups take from, and by what rules. */
export interface MakeUpInput {
  readonly remaining: Remaining;
  /** Bottles chosen by hand, to be used before any other. */
  readonly useFirst: ReadonlySet<string>;
  readonly reference: Reference;
  readonly settings: Settings;
}

/**
 * Makes up what is missing of a solution from stronger bottles, and takes it from `remaining`: a little more than is
 * charged, as far as the bottles go. One bottle where one holds enough; else one after the other, the first to expire
 * first, and water for the rest:
 *
 *     Σ taken · fraction in the bottle = whole · wanted fraction          Σ taken + water = whole
 *
 * Of a saturated solution more of the solid goes in than dissolves, and the surplus stays behind.
 *
 * @param mostExcess % over what is charged, at most. @returns null where all stronger bottles together do not hold enough.
 */
export function makeUp(
  demands: readonly Demand[],
  missing: readonly number[],
  bottles: readonly Bottle[],
  { remaining, useFirst, reference, settings }: MakeUpInput,
  mostExcess: number,
): MakeUp | null {
  const first = demands[0];
  if (!first) return null;
  const to = massFraction(first.facts, first.form, reference);
  if (!to.ok) return null;
  const volume = wantedFigure(demands, missing, 'mL', reference);
  const weighed = wantedFigure(demands, missing, 'g', reference);
  const saturated = demands.some((demand) => demand.saturated) ? saturatedInWater(first.facts, reference) : null;
  const charged = weighed ?? (saturated && volume && byWater(volume, to.figure, reference));
  if (!charged) return null;
  // Of a saturated solution more solid goes in than dissolves.
  const toPutIn = saturated ? withSurplus(to.figure) : to.figure;
  const need = charged.value * toPutIn.value;
  const sources = enoughOf(sourcesOf(first, bottles, to.figure.value, remaining, reference), need * (1 - ROUNDING), useFirst);
  if (!sources) return null;
  const held = sources.reduce((sum, one) => sum + heldBy(one), 0);
  const excessPercent = need > 0 ? Math.max(0, Math.min(mostExcess, (held / need - 1) * 100)) : mostExcess;
  const grams = withExcess(charged, excessPercent);
  const parts = partsOf(first, sources, grams, toPutIn, reference);
  for (const { from } of parts) remaining.set(from.bottle, Math.max(0, (remaining.get(from.bottle) ?? 0) - from.amount));
  const taken = parts.map((part) => part.takeGrams);
  const dissolved = taken.reduce((sum, one) => sum + one.value, 0) / (saturated ? PUT_IN : 1);
  const made = {
    id: lineId(first),
    material: first.material,
    form: first.form,
    formWords: wantedWords({ form: first.form, saturated }),
    grams,
    // Of a density that is not known only that the volume is reached is certain.
    millilitres: weighed && volume && withExcess(volume, excessPercent),
    excessPercent,
    ...(saturated ? { saturated } : {}),
    parts,
    waterGrams: computed(
      'solvent to add',
      grams.value - dissolved,
      'g',
      saturated ? 'wanted mass − what dissolves of the mass taken' : 'wanted mass − mass taken',
      [grams, ...taken],
    ),
  };
  const tooLittle = tooLittleIn(made, first.facts.name, 1, settings);
  return { ...made, before: [...cautions(first, sources, grams, saturated, reference), ...tooLittle] };
}

/** A stronger bottle with what is still in it. */
interface Source {
  readonly bottle: Bottle;
  readonly fraction: Figure<'g/g'>;
  /** g, as supplied. */
  readonly left: number;
  /** g/mL of what is in it; null where it is not known. */
  readonly density: number | null;
}

/** Stronger bottles whose mass can be told. */
function sourcesOf(
  demand: Demand,
  bottles: readonly Bottle[],
  wanted: number,
  remaining: Remaining,
  reference: Reference,
): readonly Source[] {
  return bottles.flatMap((bottle): readonly Source[] => {
    const fraction = massFraction(demand.facts, bottle.form, reference);
    if (!fraction.ok || fraction.figure.value <= wanted) return [];
    const density = bottleDensity(demand, bottle, reference);
    const perUnit = bottle.unit === 'g' ? 1 : (density ?? 0);
    const left = (remaining.get(bottle.id) ?? 0) * perUnit;
    return left > 0 ? [{ bottle, fraction: fraction.figure, left, density }] : [];
  });
}

/** Those chosen by hand first; for the rest the first that holds enough by itself, else the fewest from the front that do. */
function enoughOf(sources: readonly Source[], need: number, useFirst: ReadonlySet<string>): readonly Source[] | null {
  const [chosen, others] = [true, false].map((by) => sources.filter(({ bottle }) => useFirst.has(bottle.id) === by));
  const taken = untilEnough(chosen ?? [], need);
  const open = need - taken.reduce((sum, one) => sum + heldBy(one), 0);
  if (open <= 0) return taken;
  const alone = (others ?? []).find((one) => heldBy(one) >= open);
  const rest = alone ? [alone] : untilEnough(others ?? [], open);
  return rest.reduce((sum, one) => sum + heldBy(one), 0) >= open ? [...taken, ...rest] : null;
}

/** The fewest from the front that hold enough together; all of them where none do. */
function untilEnough(sources: readonly Source[], need: number): readonly Source[] {
  let held = 0;
  return sources.filter((one) => {
    const wanted = held < need;
    if (wanted) held += heldBy(one);
    return wanted;
  });
}

/** g of the material itself in a bottle. */
function heldBy({ left, fraction }: Source): number {
  return left * fraction.value;
}

/** Every bottle but the last is used up; the last gives what is still wanted. */
function partsOf(
  demand: Demand,
  sources: readonly Source[],
  grams: Figure<'g'>,
  to: Figure<'g/g'>,
  reference: Reference,
): readonly MakeUpPart[] {
  const { facts } = demand;
  const parts: MakeUpPart[] = [];
  let open = grams.value * to.value;
  for (const { bottle, fraction, left, density } of sources) {
    const strong = Math.min(left, open / fraction.value);
    open -= strong * fraction.value;
    const emptied = strong === left && sources.length > 1;
    const takeGrams = computed(
      `${facts.name} ${formWords(bottle.form)} to take`,
      strong,
      'g',
      emptied ? 'all that is left in the bottle' : 'wanted mass × wanted fraction ÷ fraction in the bottle',
      emptied ? [fraction] : [grams, to, ...parts.map((part) => part.takeGrams), fraction],
    );
    const amount = bottle.unit === 'g' ? strong : strong / (density ?? 1);
    parts.push({
      from: { bottle: bottle.id, lot: bottle.lot ?? '', place: bottle.place ?? '', amount, unit: bottle.unit },
      fromWords: formWords(bottle.form),
      takeGrams,
      takeMillilitres:
        density === null ? null : computed('volume to take', strong / density, 'mL', 'mass ÷ density', [takeGrams]),
      hazards: hazardsOf(facts, bottle.form, reference)?.statements ?? null,
    });
  }
  return parts;
}

function withExcess<U extends 'g' | 'mL'>(charged: Figure<U>, percent: number): Figure<U> {
  const value = charged.value * (1 + percent / 100);
  return computed(
    charged.label,
    value,
    charged.unit,
    `what is charged, and ${shownPercent(percent)} % more for what stays in glass`,
    [charged],
  );
}

function shownPercent(percent: number): number {
  return Number(percent.toPrecision(2));
}

/**
 * The hazards of what is thinned, the order of addition and how warm it gets, at the temperature of the room. Of several
 * strengths each counts as if all were made of it, so that the warmest is said.
 */
function cautions(
  demand: Demand,
  sources: readonly Source[],
  grams: Figure<'g'>,
  saturated: Saturated | null,
  reference: Reference,
): readonly Notice[] {
  const { facts, form } = demand;
  if (form.kind !== 'solution') return [];
  const all = sources.flatMap(({ bottle }): readonly Notice[] => {
    const ask = {
      solute: facts,
      form,
      amount: { by: 'g', figure: grams },
      saturated,
      weaker: null,
      celsius: ROOM_CELSIUS,
    } as const;
    const plan = makeSolution({ ...ask, source: { facts, form: bottle.form } }, reference);
    return [...makeUpCautions(facts, bottle.form, reference), ...(plan.problem ? [] : solutionCautions(plan, reference))];
  });
  const at = { material: demand.material };
  return worstOfEach(all).map((notice) => ({ ...notice, at }));
}

/** Each caution once: of several temperatures the highest, of several lists of hazards every one that differs. */
function worstOfEach(all: readonly Notice[]): readonly Notice[] {
  const found = new Map<string, Notice>();
  for (const notice of all) {
    const key = `${notice.code} ${notice.values.statements ?? ''}`;
    const before = found.get(key);
    if (!before || Number(notice.values.celsius ?? 0) > Number(before.values.celsius ?? 0)) found.set(key, notice);
  }
  return [...found.values()];
}

function wantedFigure<U extends 'g' | 'mL'>(
  demands: readonly Demand[],
  missing: readonly number[],
  unit: U,
  reference: Reference,
): Figure<U> | null {
  let sum = 0;
  for (const [index, demand] of demands.entries()) {
    const one = fromBottle(demand, demand.form, unit, reference);
    if (one === null) return null;
    sum += one * (missing[index] ?? 0);
  }
  return computed(
    `${demands[0]?.facts.name ?? ''} to make up`,
    sum,
    unit,
    'sum of what is not on the shelf',
    demands.map((demand) => demand.governed.figure),
  );
}

/** g/mL of what is in the bottle, through a demand that can be expressed both ways. */
function bottleDensity(demand: Demand, bottle: Bottle, reference: Reference): number | null {
  const grams = inUnit(demand, bottle.form, 'g', reference);
  const millilitres = inUnit(demand, bottle.form, 'mL', reference);
  return grams === null || millilitres === null || millilitres === 0 ? null : grams / millilitres;
}
