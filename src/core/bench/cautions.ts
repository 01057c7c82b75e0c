import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import type { Reference } from '../reference.ts';
import type { Charge } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { energeticGroups } from './energetic.ts';
import { type Frees, type InVessel, inVessel, type VesselContext } from './in-vessel.ts';
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

/** Cautions of a step, by operation id: each stands immediately before its operation, on screen and on paper. */
export function cautionsOf(
  input: CautionInput,
  vessel: readonly InVessel[] = inVessel(input),
): ReadonlyMap<string, readonly Notice[]> {
  const { step } = input;
  const told = new Set<string>();
  return new Map(
    step.operations.map((operation, index) => {
      const at = vessel[index] ?? { before: [], frees: [], reacts: false };
      if (operation.do === 'charge')
        return [operation.id, chargeCautions(operation, at, input).map((one) => onceOnly(one, told))];
      return [operation.id, operation.do === 'removal' ? removalCautions(operation, at.before, input) : []];
    }),
  );
}

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

function chargeCautions(charge: Charge, vessel: InVessel, input: CautionInput): readonly Notice[] {
  const at = { step: input.step.id, operation: charge.id, material: charge.material };
  const notices: Notice[] = [];
  const say = (code: string, values: Notice['values'], level: Notice['level'] = 'caution'): number =>
    notices.push({ level, code, values, at });
  const facts = input.facts.get(charge.material);
  if (!facts) return [];
  const serious = seriousStatements(facts, input.formOf(charge), input.reference);
  if (serious !== '') say('hazards', { material: facts.name, statements: serious });
  const energetic = energeticValues(facts, input.reference);
  if (energetic) say('energetic charged', energetic);
  if (vessel.reacts) for (const notice of formedCautions(charge, input)) notices.push(notice);
  if (vessel.reacts) for (const gas of input.gases) say('gas freed', gasValues(gas, input));
  const met = meetings(charge, vessel, input);
  for (const notice of met) notices.push(notice);
  for (const frees of vessel.frees) {
    if (!isSaid(frees, met, input)) say('frees', freesValues(frees, input));
  }
  return notices;
}

/** Whether what is freed is told of already: with the meeting that frees it, or as a gas of the equation. */
function isSaid({ from, with: met, rows }: Frees, said: readonly Notice[], { step, facts }: CautionInput): boolean {
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
function formedCautions(charge: Charge, input: CautionInput): readonly Notice[] {
  return input.step.equation.makes.flatMap(({ material, gas }): readonly Notice[] => {
    const facts = input.facts.get(material);
    if (!facts) return [];
    const at = { step: input.step.id, operation: charge.id, material };
    const energetic = energeticValues(facts, input.reference);
    const statements = gas ? '' : seriousStatements(facts, NEAT, input.reference);
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

function gasValues(gas: FreedGas, input: CautionInput): Notice['values'] {
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
