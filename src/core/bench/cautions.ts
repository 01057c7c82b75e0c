import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { solventFacts } from '../matter/named.ts';
import type { Reference } from '../reference.ts';
import type { Charge, Operation, Removal, Step } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { energeticGroups } from './energetic.ts';
import { hazardsOf } from './hazards.ts';
import { incompatibilities } from './incompatible.ts';
import { isOxidiser, isStrongAcid, isStrongBase, type Nature, natureOf } from './nature.ts';
import { phaseOf } from './phase.ts';
import { type Residue, residueBefore, takeable, type Told } from './residue.ts';
import { worstFirst } from './severity.ts';
import { isTaken } from './taken.ts';

/** A gas the step frees, one batch. */
export interface FreedGas {
  readonly material: string;
  readonly grams: number;
  readonly litres: number;
}

export interface CautionInput {
  readonly step: Step;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly gases: readonly FreedGas[];
  /** The form each charge is taken in: the bottle's own where one was found. */
  readonly formOf: (charge: Charge) => Form;
  readonly reference: Reference;
}

/** Below this part of what was charged a material counts as washed out, though traces are still warned of. */
const WASHED_OUT = 0.1;
/** Statements serious enough to be said in words before the charge; the others stand as codes beside it. */
const SAID_IN_WORDS =
  /^(H2(?!90)|H30[014]|H31[0148]|H33[014]|H34[01]|H35[01]|H36[01]|H37[0-3]|EUH0(06|14|18|19|29|31|32|44|7[01]))/;

/** Cautions of a step, by operation id: each stands immediately before its operation, on screen and on paper. */
export function cautionsOf(input: CautionInput): ReadonlyMap<string, readonly Notice[]> {
  const { step } = input;
  const before = residueBefore(step, toldBy(input));
  const gasAt = gasCharge(step);
  const found = new Map<string, readonly Notice[]>();
  step.operations.forEach((operation, index) => {
    const residue = before[index] ?? new Map();
    const notices =
      operation.do === 'charge'
        ? chargeCautions(operation, residue, operation.id === gasAt, input)
        : operation.do === 'removal'
          ? removalCautions(operation, residue, input)
          : [];
    found.set(operation.id, notices);
  });
  return found;
}

/** The charge that brings the last reactant in for the first time: gas is freed from there on. */
function gasCharge(step: Step): string | null {
  const waiting = new Set(step.equation.uses.map((term) => term.material));
  let last: string | null = null;
  for (const operation of step.operations) {
    if (operation.do === 'charge' && waiting.delete(operation.material)) last = operation.id;
  }
  return last;
}

function chargeCautions(charge: Charge, residue: Residue, reacts: boolean, input: CautionInput): readonly Notice[] {
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
  if (reacts) for (const notice of energeticFormed(charge, input)) notices.push(notice);
  if (reacts) for (const gas of input.gases) say('gas freed', gasValues(gas, input));
  for (const meeting of meetings(charge, facts, residue, input)) say(meeting.code, meeting.values, meeting.level);
  return notices;
}

/** What the step forms and stores energy, said where its last reactant goes in. */
function energeticFormed(charge: Charge, input: CautionInput): readonly Notice[] {
  return input.step.equation.makes.flatMap(({ material }): readonly Notice[] => {
    const facts = input.facts.get(material);
    const values = facts ? energeticValues(facts, input.reference) : null;
    const at = { step: input.step.id, operation: charge.id, material };
    return values ? [{ level: 'caution', code: 'energetic formed', values, at }] : [];
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

interface Meeting {
  readonly code: string;
  readonly values: Notice['values'];
  readonly level: Notice['level'];
}

/** One substance of a charge: the active material, or the solvent it comes in. */
interface Part {
  readonly name: string;
  readonly nature: Nature;
}

function partsOf(facts: Facts, form: Form, reference: Reference): readonly [Part, ...Part[]] {
  const active: Part = { name: facts.name, nature: natureOf(facts, reference) };
  const solvent = solventFacts(form, reference);
  return solvent ? [active, { name: solvent.name, nature: natureOf(solvent, reference) }] : [active];
}

/** What the new charge meets in the vessel. */
function meetings(charge: Charge, facts: Facts, residue: Residue, input: CautionInput): readonly Meeting[] {
  const own = partsOf(facts, input.formOf(charge), input.reference);
  const reactants = new Set(input.step.equation.uses.map((term) => term.material));
  const newVessel = (input.step.stages?.[charge.stage]?.newVessel ?? false) && firstCharge(input.step, charge);
  const found: Meeting[] = [];
  for (const [material, fraction] of residue) {
    const other = input.facts.get(material);
    if (!other || material === charge.material || fraction <= 0) continue;
    const there = partsOf(other, formIn(input, material), input.reference);
    if (fraction > WASHED_OUT) found.push(...acidAndWater(own[0], there[0]));
    const meant = reactants.has(material) && reactants.has(charge.material);
    found.push(...clashes(own, there, { meant, washed: fraction <= WASHED_OUT, newVessel }));
  }
  if (isStrongBase(own[0].nature) && facts.state === 'solid' && input.formOf(charge).kind === 'neat')
    found.push({ code: 'dissolves hot', values: { material: facts.name }, level: 'caution' });
  return found;
}

/** The form in which a material went into the vessel first. */
function formIn(input: CautionInput, material: string): Form {
  const charge = input.step.operations.find((one): one is Charge => one.do === 'charge' && one.material === material);
  return charge ? input.formOf(charge) : NEAT;
}

function acidAndWater(own: Part, there: Part): readonly Meeting[] {
  const values = { material: own.name, other: there.name };
  if (own.nature.water && isStrongAcid(there.nature)) return [{ code: 'acid into water', values, level: 'caution' }];
  return there.nature.water && isStrongAcid(own.nature) ? [{ code: 'acid slowly into water', values, level: 'caution' }] : [];
}

/** Pairs that an equation brings together on purpose: the reaction itself, not an accident. */
const MEANT = new Set(['oxidiser meets organic', 'oxidiser meets reducing agent']);
/** Heat and carbon dioxide are told of; the rest should not happen at all unless it is the reaction. */
const MILD = new Set(['neutralisation heat', 'acid frees carbon dioxide']);

function clashes(
  own: readonly Part[],
  there: readonly Part[],
  how: { readonly meant: boolean; readonly washed: boolean; readonly newVessel: boolean },
): readonly Meeting[] {
  const found = new Map<string, Meeting>();
  for (const one of own) {
    for (const other of there) {
      if (one.name === other.name) continue;
      const values = { material: one.name, other: other.name };
      for (const code of incompatibilities(one.nature, other.nature)) {
        if (how.meant && MEANT.has(code)) continue;
        if (!how.washed) found.set(code, { code, values, level: how.meant || MILD.has(code) ? 'caution' : 'error' });
        else if (code === 'oxidiser meets organic')
          found.set(code, { code: how.newVessel ? 'acid-free, new vessel' : 'acid-free first', values, level: 'caution' });
      }
    }
  }
  return [...found.values()];
}

function firstCharge(step: Step, charge: Charge): boolean {
  return step.operations.find((operation) => operation.do === 'charge' && operation.stage === charge.stage)?.id === charge.id;
}

function removalCautions(removal: Removal, residue: Residue, input: CautionInput): readonly Notice[] {
  if (removal.wasteTo === undefined) return [];
  const oxidiser = [...wasteOf(removal, residue, input)].find((material) => {
    const facts = input.facts.get(material);
    return facts !== undefined && isOxidiser(natureOf(facts, input.reference));
  });
  if (oxidiser === undefined) return [];
  const values = { material: input.facts.get(oxidiser)?.name ?? oxidiser, container: removal.wasteTo };
  return [{ level: 'caution', code: 'oxidising waste', values, at: { step: input.step.id, operation: removal.id } }];
}

/** Materials a removal takes away in more than traces. */
function wasteOf(removal: Removal, residue: Residue, input: CautionInput): ReadonlySet<string> {
  const told = toldBy(input);
  const goes = (material: string): boolean =>
    removal.takes.some((taken) => taken.percent > 0 && isTaken(taken.what, takeable(material, input.step, told)));
  return new Set([...residue].filter(([material, fraction]) => fraction > 0.001 && goes(material)).map(([material]) => material));
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

/** Waste streams of a whole route that would meet in one container and must not. */
export function wasteConflicts(inputs: readonly CautionInput[]): readonly Notice[] {
  const containers = new Map<string, { material: string; facts: Facts; step: string; operation: string }[]>();
  for (const input of inputs) {
    const before = residueBefore(input.step, toldBy(input));
    input.step.operations.forEach((operation: Operation, index) => {
      if (operation.do !== 'removal' || operation.wasteTo === undefined) return;
      const held = containers.get(operation.wasteTo) ?? [];
      for (const material of wasteOf(operation, before[index] ?? new Map(), input)) {
        const facts = input.facts.get(material);
        if (facts) held.push({ material, facts, step: input.step.id, operation: operation.id });
      }
      containers.set(operation.wasteTo, held);
    });
  }
  const reference = inputs[0]?.reference;
  if (!reference) return [];
  return [...containers].flatMap(([container, held]) => conflictsIn(container, held, reference));
}

function conflictsIn(
  container: string,
  held: readonly { material: string; facts: Facts; step: string; operation: string }[],
  reference: Reference,
): readonly Notice[] {
  const notices = new Map<string, Notice>();
  for (const [index, one] of held.entries()) {
    for (const other of held.slice(index + 1)) {
      if (one.material === other.material) continue;
      const [code] = incompatibilities(natureOf(one.facts, reference), natureOf(other.facts, reference));
      if (code === undefined) continue;
      const key = `${one.material}/${other.material}`;
      const values = { container, one: one.facts.name, other: other.facts.name };
      notices.set(key, {
        level: 'error',
        code: 'waste must not meet',
        values,
        at: { step: other.step, operation: other.operation },
      });
    }
  }
  return [...notices.values()];
}

function toldBy(input: CautionInput): Told {
  return (material) => {
    const charge = input.step.operations.find(
      (operation): operation is Charge => operation.do === 'charge' && operation.material === material,
    );
    const facts = input.facts.get(material);
    const liquid = charge?.form?.kind === 'solution' || facts?.state === 'liquid';
    return { liquid, layer: facts ? phaseOf(facts, charge?.form ?? NEAT, input.reference) : 'solid' };
  };
}

/** Texts of the serious statements of a material at a strength, the worst first, joined; empty where there are none or no entry. */
function seriousStatements(facts: Facts, form: Form, reference: Reference): string {
  const hazards = hazardsOf(facts, form, reference);
  const serious = hazards?.statements.filter((code) => SAID_IN_WORDS.test(code)) ?? [];
  return worstFirst(serious)
    .map((code) => reference.statement.get(code) ?? code)
    .join(' ');
}
