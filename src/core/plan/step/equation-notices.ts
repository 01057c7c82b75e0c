import { solventFacts } from '../../matter/named.ts';
import type { Notice } from '../../words/notice.ts';
import type { balanceOf } from '../network/equation.ts';
import { factsFor, type StepInput, type StepRun } from './run-step.ts';

/** A reagent this much below the basis limits instead of it; less is rounding in the procedure. */
const LIMITING_MARGIN = 0.005;

/** Whether the equation of a step balances, or what keeps that from being known. */
export function equationNotices(input: StepInput, equation: ReturnType<typeof balanceOf>): readonly Notice[] {
  const at = { step: input.step.id };
  if (equation.unknown.length > 0)
    return [{ level: 'assumption', code: 'balance unknown', values: { materials: equation.unknown.join(', ') }, at }];
  if (!equation.balanced) return [{ level: 'caution', code: 'unbalanced', values: { difference: equation.difference }, at }];
  return [];
}

/** A gas of the equation that is not marked as leaving counts as staying: nothing would be said of it. */
export function gasNotices(input: StepInput): readonly Notice[] {
  const { step } = input;
  const unmarked = step.equation.makes.filter(
    ({ material, gas }) => gas === undefined && material !== step.product && factsFor(material, input).state === 'gas',
  );
  return unmarked.map(({ material }) => ({
    level: 'caution',
    code: 'gas not marked',
    values: { material: factsFor(material, input).name },
    at: { step: step.id },
  }));
}

/** Whether the basis is what limits, and whether everything the equation uses is charged. */
export function stoichiometryNotices(input: StepInput, run: StepRun): readonly Notice[] {
  const { step } = input;
  const basisMoles = input.basisMoles.value;
  if (basisMoles === 0) return [];
  const basis = step.equation.uses.find((term) => term.material === step.basis)?.coefficient ?? 1;
  return step.equation.uses.flatMap((term): readonly Notice[] => {
    const all = run.charges.filter((charge) => charge.charge.material === term.material);
    // What is added only to quench or purify does not help the reaction.
    const inReaction = all.filter((charge) => charge.charge.stage === 'reaction');
    const charges = inReaction.length > 0 ? inReaction : all;
    const at = { step: step.id, material: term.material };
    const material = factsFor(term.material, input).name;
    if (charges.length === 0)
      return comesAsSolvent(term.material, input, run)
        ? []
        : [{ level: 'caution', code: 'never charged', values: { material }, at }];
    const known = charges.every((charge) => charge.amount?.moles.ok);
    if (!known || term.material === step.basis) return [];
    const moles = charges.reduce((sum, charge) => sum + (charge.amount?.moles.ok ? charge.amount.moles.figure.value : 0), 0);
    const cover = moles / term.coefficient / (basisMoles / basis);
    return cover < 1 - LIMITING_MARGIN
      ? [{ level: 'caution', code: 'another limits', values: { material, percent: cover * 100 }, at }]
      : [];
  });
}

/** Whether a solution that is charged brings a material as its solvent: the water of an acid. */
function comesAsSolvent(material: string, input: StepInput, run: StepRun): boolean {
  const { cas } = factsFor(material, input);
  return cas !== null && run.charges.some(({ form }) => solventFacts(form, input.reference)?.cas === cas);
}
