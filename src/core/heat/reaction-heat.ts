import type { Facts } from '../matter/facts.ts';
import { computed, entered, type Figure, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { TypicalHeatRow } from '../reference-rows.ts';
import type { Step, StepHeat } from '../route/route.ts';
import { type Maybe, known, unknown, type Why } from '../words/why.ts';
import { heatOfRise, heatPerMole } from './calorimetry.ts';
import { enthalpyOf } from './hess.ts';

/** What the heat of a reaction is known from. */
export interface HeatInput {
  readonly step: Step;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly reference: Reference;
}

/** Heat of a reaction, with where it is from. */
export interface ReactionHeat {
  /** Given off per mol of `material`, kJ/mol; negative where heat is taken up. */
  readonly perMole: Figure<'kJ/mol'>;
  /** The species it is per mole of. */
  readonly material: string;
  readonly by: 'entered' | 'trial' | 'formation' | 'typical';
  /** Of a typical value: its row. */
  readonly row: TypicalHeatRow | null;
}

type Found = { readonly ok: true; readonly heat: ReactionHeat } | { readonly ok: false; readonly why: Why };

/** Significant digits of a typical heat: a class of reactions is no finer. */
const DIGITS = 2;

/**
 * Heat of a step's reaction: what is entered, else from a trial, from heats of formation, or the worst end of a typical
 * value's spread.
 * @returns why not, where none of them is given. Unknown is never zero.
 */
export function reactionHeat(of: HeatInput): Found {
  const { heat } = of.step;
  if (!heat) return unknown('no heat entered', {});
  const material = heat.per ?? of.step.basis;
  const found = (perMole: Figure<'kJ/mol'>, by: ReactionHeat['by'], row: TypicalHeatRow | null = null): Found => ({
    ok: true,
    heat: { perMole, material, by, row },
  });
  if (heat.kilojoulesPerMole !== undefined)
    return found(entered('heat given off', heat.kilojoulesPerMole, 'kJ/mol', heat.source ?? 'the step'), 'entered');
  if (heat.trial) return found(fromTrial(heat.trial, heat.source), 'trial');
  if (heat.formation) {
    const made = fromFormation(of, heat.formation, material);
    return made.ok ? found(made.figure, 'formation') : made;
  }
  if (heat.typical === undefined) return unknown('no heat entered', {});
  const row = of.reference.typicalHeat.get(heat.typical);
  return row ? found(worstOf(row), 'typical', row) : unknown('no such typical heat', { name: heat.typical });
}

/**
 * Heat given off per mol of basis, kJ/mol, the basis taken to react away wholly.
 * @returns why not, where the heat of the reaction is not known.
 */
export function heatPerBasis(of: HeatInput): Maybe<'kJ/mol'> {
  const found = reactionHeat(of);
  if (!found.ok) return found;
  const { perMole, material } = found.heat;
  const { step } = of;
  if (material === step.basis) return known(perMole);
  const species = coefficientOf(step, material);
  const basis = coefficientOf(step, step.basis);
  if (species === null || basis === null)
    return unknown('heat of another species', { material: of.facts.get(material)?.name ?? material });
  const ratio = entered('mol of it per mol of basis', species / basis, '', 'the equation');
  const how = 'heat per mole × moles per mol of basis';
  return known(computed('heat given off per mol of basis', perMole.value * ratio.value, 'kJ/mol', how, [perMole, ratio]));
}

/** How often a material stands in a step's equation, on either side; null where it does not. */
export function coefficientOf({ equation }: Pick<Step, 'equation'>, material: string): number | null {
  return [...equation.uses, ...equation.makes].find((term) => term.material === material)?.coefficient ?? null;
}

function fromTrial(trial: NonNullable<StepHeat['trial']>, source: string | undefined): Figure<'kJ/mol'> {
  const where = source ?? 'a trial, as entered';
  const heat = heatOfRise(
    entered('rise of temperature', trial.riseKelvin, 'K', where),
    entered('mixture', trial.grams, 'g', where),
    entered('heat capacity of the mixture', trial.joulesPerGramKelvin, 'J/(g·K)', where),
  );
  return heatPerMole(heat, entered('moles in the trial', trial.moles, 'mol', where));
}

function fromFormation(of: HeatInput, formation: Readonly<Record<string, number>>, material: string): Maybe<'kJ/mol'> {
  const whole = enthalpyOf(of.step.equation, formation, of.facts);
  if (!whole.ok) return whole;
  const coefficient = coefficientOf(of.step, material);
  if (coefficient === null) return unknown('heat of another species', { material: of.facts.get(material)?.name ?? material });
  const times = entered('coefficient', coefficient, '', 'the equation');
  const value = -whole.figure.value / coefficient;
  return known(computed('heat given off', value, 'kJ/mol', '− enthalpy of the equation ÷ coefficient', [whole.figure, times]));
}

function worstOf(row: TypicalHeatRow): Figure<'kJ/mol'> {
  const label = `typical heat of ${row.name}, the most of ${row.least} to ${row.most} kJ/mol`;
  return sourced(label, row.most, 'kJ/mol', row.source, DIGITS, row.mark ?? 'estimate');
}
