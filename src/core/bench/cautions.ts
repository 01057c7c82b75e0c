import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import type { Reference } from '../reference.ts';
import type { Charge, Operation } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { isPyrophoricCatalyst } from './catalyst.ts';
import { energeticGroups } from './energetic.ts';
import { type Frees, type InVessel, inVessel, rememberMeetings, type VesselContext, WASHED_OUT } from './in-vessel.ts';
import { freesValues, meetings } from './meetings.ts';
import { isStrongAcid, isStrongBase, natureOf } from './nature.ts';
import { seriousStatements } from './serious.ts';
import { removalCautions } from './waste-cautions.ts';

/** A gas the step frees, one batch. */
export interface FreedGas {
  readonly material: string;
  readonly grams: number;
  readonly litres: number;
}

export interface CautionInput extends VesselContext {
  readonly gases: readonly FreedGas[];
}

/**
 * Cautions of a step, in the order of its operations: each stands immediately before its operation, on screen and on
 * paper. Of all of them only the gases of the equation have amounts.
 */
export function cautionsOf(input: CautionInput): readonly (readonly Notice[])[] {
  const { step, gases } = input;
  return cautionsWithoutGases(input).map(({ goesIn, meets, all, reacts }, index) => {
    const operation = step.operations[index];
    if (gases.length === 0 || !reacts || operation?.do !== 'charge') return all;
    const at = { step: step.id, operation: operation.id, material: operation.material };
    const freed = gases.map((gas): Notice => ({ level: 'caution', code: 'gas freed', values: gasValues(gas, input), at }));
    return [...goesIn, ...freed, ...meets];
  });
}

interface Cautions {
  /** Of what goes in, and of what forms. */
  readonly goesIn: readonly Notice[];
  /** Of what it meets. */
  readonly meets: readonly Notice[];
  /** Whether the gases of the equation come off here. */
  readonly reacts: boolean;
}

const NONE: Cautions = { goesIn: [], meets: [], reacts: false };

const cautionsWithoutGases = rememberMeetings((context): readonly (Cautions & { readonly all: readonly Notice[] })[] => {
  const vessel = inVessel(context);
  const told = new Set<string>();
  return context.step.operations.map((operation, index) => {
    const found = operationCautions(operation, vessel[index] ?? { before: [], frees: [], reacts: false }, context);
    const meets = found.meets.map((one) => onceOnly(one, told));
    return { ...found, meets, all: [...found.goesIn, ...meets] };
  });
});

/** What a material frees with water is told in full at the quench, and afterwards that it may do so still. */
function onceOnly(notice: Notice, told: Set<string>): Notice {
  const { code, values, level } = notice;
  if (code !== 'reacts with water' || values.from === undefined) return notice;
  const key = `${values.from}/${values.gases}/${values.makes}`;
  // An error is never shortened by what was said before.
  const again = told.has(key) && level !== 'error';
  if (values.quench !== undefined || level === 'error') told.add(key);
  return again ? { ...notice, code: 'reacts as before', values: { from: values.from, with: values.with ?? '' } } : notice;
}

function operationCautions(operation: Operation, vessel: InVessel, context: VesselContext): Cautions {
  if (operation.do === 'hold') return NONE;
  if (operation.do === 'removal') return { ...NONE, meets: removalCautions(operation, vessel.before, context) };
  return chargeCautions(operation, vessel, context);
}

function chargeCautions(charge: Charge, vessel: InVessel, context: VesselContext): Cautions {
  const facts = context.facts.get(charge.material);
  if (!facts) return NONE;
  const at = { step: context.step.id, operation: charge.id, material: charge.material };
  const say = (code: string, values: Notice['values']): Notice => ({ level: 'caution', code, values, at });
  const serious = seriousStatements(facts, context.formOf(charge), context.reference);
  const energetic = energeticValues(facts, context.reference);
  const met = meetings(charge, vessel, context);
  const frees = vessel.frees.filter((one) => !isSaid(one, met, context));
  return {
    goesIn: [
      ...(serious === '' ? [] : [say('hazards', { material: facts.name, statements: serious })]),
      ...(energetic ? [say('energetic charged', energetic)] : []),
      ...(isPyrophoricCatalyst(facts, context.formOf(charge)) ? [say('catalyst ignites', { material: facts.name })] : []),
      ...(vessel.reacts ? formedCautions(charge, vessel, context) : []),
    ],
    meets: [...met, ...frees.map((one) => say('frees', freesValues(one, context)))],
    reacts: vessel.reacts,
  };
}

/** Whether what is freed is told of already: with the meeting that frees it, or as a gas of the equation. */
function isSaid({ from, with: met, rows }: Frees, said: readonly Notice[], { step, facts }: VesselContext): boolean {
  const names = (value: string | number | undefined): readonly string[] => String(value ?? '').split('|');
  const meeting = said.some(({ values }) => {
    if (values.gases === undefined) return false;
    const sides = [names(values.material), names(values.other)];
    return sides.some((one) => one.includes(from.name)) && sides.some((one) => one.includes(met.name));
  });
  if (meeting) return true;
  const made = new Set(step.equation.makes.map((term) => facts.get(term.material)?.cas));
  return rows.every((row) => !row.gas || made.has(row.makesCas));
}

/** What the step forms and stays in the vessel, said where its last reactant goes in: its hazards, and stored energy. */
function formedCautions(charge: Charge, { before }: InVessel, input: VesselContext): readonly Notice[] {
  return input.step.equation.makes.flatMap(({ material, gas }): readonly Notice[] => {
    const facts = input.facts.get(material);
    if (!facts) return [];
    const at = { step: input.step.id, operation: charge.id, material };
    const energetic = energeticValues(facts, input.reference);
    const serious = gas ? '' : seriousStatements(facts, NEAT, input.reference);
    // Said already where it was charged: methanol that forms in methanol.
    const charged = before.some(
      (one) =>
        one.how === 'charged' &&
        one.material === material &&
        one.fraction >= WASHED_OUT &&
        seriousStatements(facts, one.form, input.reference) === serious,
    );
    const statements = charged ? '' : serious;
    return [
      ...(statements === ''
        ? []
        : [{ level: 'caution' as const, code: 'formed', values: { material: facts.name, statements }, at }]),
      ...(energetic ? [{ level: 'caution' as const, code: 'energetic formed', values: energetic, at }] : []),
    ];
  });
}

function energeticValues(facts: Facts, reference: Reference): Notice['values'] | null {
  const groups = energeticGroups(facts, reference);
  if (groups.length === 0) return null;
  const sources = [...new Set(groups.map((group) => group.source))].join('; ');
  return { material: facts.name, groups: groups.map((group) => group.name).join(', '), source: sources };
}

function gasValues(gas: FreedGas, input: VesselContext): Notice['values'] {
  const facts = input.facts.get(gas.material);
  const statements = facts ? seriousStatements(facts, NEAT, input.reference) : '';
  return { material: facts?.name ?? gas.material, grams: gas.grams, litres: gas.litres, statements };
}

/** What must be known before a stronger form is thinned with water: its hazards, and what goes into what. */
export function makeUpCautions(facts: Facts, form: Form, reference: Reference): readonly Notice[] {
  const nature = natureOf(facts, reference);
  const serious = seriousStatements(facts, form, reference);
  const say = (code: string, values: Notice['values'] = {}): Notice => ({
    level: 'caution',
    code,
    values: { material: facts.name, ...values },
    at: {},
  });
  return [
    ...(serious === '' ? [] : [say('hazards', { statements: serious })]),
    ...(isStrongAcid(nature) ? [say('acid slowly into water')] : []),
    ...(isStrongBase(nature) ? [say(form.kind === 'neat' ? 'dissolves hot' : 'base slowly into water')] : []),
  ];
}
