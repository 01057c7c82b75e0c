import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import { solventOf } from './form.ts';
import { heatCapacity, riseOf } from './heat-capacity.ts';
import { type Dissolved, heatOfMixing } from './heat-of-dilution.ts';
import type { Portion, SolutionPlan } from './make-solution.ts';
import { anhydrousOf, type Presented, soluteShare } from './solution-parts.ts';

/** How warm a solution gets when it is made at once and keeps its heat. */
export interface SolutionHeat {
  /** Heat given off, kJ; negative where it is taken up. */
  readonly given: Maybe<'kJ'>;
  readonly rise: Maybe<'K'>;
  readonly reached: Maybe<'°C'>;
  /** Reaches the boiling point of water; null where the temperature is not known. */
  readonly boils: boolean | null;
}

const WATER_BOILS = 100;
/** g/mol; from the standard atomic weights of hydrogen and oxygen. */
const WATER_MASS = 18.015;

/** The same answer for every part of it. */
export function unknownHeat(why: Why): SolutionHeat {
  const none = { ok: false, why } as const;
  return { given: none, rise: none, reached: none, boils: null };
}

/**
 * Heat given off (kJ), rise (K) and temperature reached (°C) when a solution is made in one go in water and nothing is
 * lost: a largest value, by the heat capacity of the final mixture.
 * @returns why not, where a heat or a mass is not known. Unknown is never zero.
 */
export function solutionHeat(plan: Omit<SolutionPlan, 'heat'>, reference: Reference): SolutionHeat {
  const { ask, grams, moles } = plan;
  if (solventOf(ask.form) !== 'water')
    return unknownHeat({ code: 'heat in water only', values: { solvent: solventOf(ask.form) } });
  if (!grams.ok) return unknownHeat(grams.why);
  if (!moles.ok) return unknownHeat(moles.why);
  const base = anhydrousOf(ask.solute, reference);
  if (!base.molarMass) return unknownHeat({ code: 'no molar mass', values: { material: base.name } });
  const parts = [part(plan, ask.source, plan.source, reference), ask.weaker && part(plan, ask.weaker, plan.rest, reference)];
  const known = parts.filter((one) => one !== null);
  for (const one of known) if (!one.ok) return unknownHeat(one.why);
  const going = known.flatMap((one) => (one.ok ? [one.value] : []));
  const inert = going.reduce((sum, one) => sum + one.inert, 0);
  const mass = moles.figure.value * base.molarMass.value;
  const water = (grams.figure.value - mass - inert) / WATER_MASS;
  const given = heatOfMixing(base, going, Math.max(0, water), reference);
  if (!given.ok) return unknownHeat(given.why);
  const share = computed('mass fraction without water', mass / grams.figure.value, 'g/g', 'moles × molar mass ÷ mass', [
    moles.figure,
    base.molarMass,
    grams.figure,
  ]);
  const rise = riseOf(given.figure, grams.figure, heatCapacity(base, share, reference));
  return warmed(given.figure, rise, ask.celsius);
}

function warmed(given: Figure<'kJ'>, rise: Figure<'K'>, celsius: number): SolutionHeat {
  const start = entered('temperature before', celsius, '°C', 'temperature of everything before');
  const reached = computed('temperature reached', celsius + rise.value, '°C', 'temperature before + rise', [start, rise]);
  return { given: known(given), rise: known(rise), reached: known(reached), boils: reached.value >= WATER_BOILS };
}

type Part =
  | { readonly ok: true; readonly value: Dissolved & { readonly inert: number } }
  | { readonly ok: false; readonly why: Why };

/** What one part brings: moles of solute, water with them, and what neither reacts nor is water (the rest of an assay). */
function part(plan: Omit<SolutionPlan, 'heat'>, from: Presented, portion: Portion, reference: Reference): Part {
  const { solute } = plan.ask;
  const share = soluteShare(solute, from, reference);
  if (!portion.grams.ok) return portion.grams;
  if (!share.ok) return share;
  if (!solute.molarMass) return unknown('no molar mass', { material: solute.name });
  const { figure } = portion.grams;
  const moles = computed(
    `${solute.name} from ${from.facts.name}`,
    (figure.value * share.figure.value) / solute.molarMass.value,
    'mol',
    'mass taken × mass fraction ÷ molar mass',
    [figure, share.figure, solute.molarMass],
  );
  const dissolved = from.form.kind === 'solution';
  const own = dissolved ? anhydrousOf(from.facts, reference) : from.facts;
  const rest = figure.value - moles.value * (own.molarMass?.value ?? 0);
  // The rest of a liquid's assay is its water; the rest of a solid's is taken to do nothing.
  const isWater = dissolved || from.facts.state === 'liquid';
  return {
    ok: true,
    value: {
      moles,
      waterMoles: isWater ? Math.max(0, rest) / WATER_MASS : 0,
      inert: isWater ? 0 : Math.max(0, rest),
      facts: own,
    },
  };
}
