import type { Facts } from '../matter/facts.ts';
import type { Form } from '../matter/form.ts';
import { NEAT } from '../matter/form.ts';
import type { Reference } from '../reference.ts';
import type { Charge, Operation, Removal, Step } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { hazardsOf } from './hazards.ts';
import { incompatibilities } from './incompatible.ts';
import { isOxidiser, isStrongAcid, isStrongBase, natureOf } from './nature.ts';
import { type Residue, residueBefore, takes } from './residue.ts';

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
  readonly reference: Reference;
}

/** Below this part of what was charged a material counts as washed out, though traces are still warned of. */
const WASHED_OUT = 0.1;
/** Statements serious enough to be said in words before the charge; the others stand as codes beside it. */
const SAID_IN_WORDS = /^H(2[0-5]\d|260|261|27[12]|30[01]|31[01]|314|33[01]|334|340|350|360|370|372)/;

/** Cautions of a step, by operation id: each stands immediately before its operation, on screen and on paper. */
export function cautionsOf(input: CautionInput): ReadonlyMap<string, readonly Notice[]> {
  const { step } = input;
  const before = residueBefore(step, (material) => isLiquid(material, input));
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

/** The charge after which all reactants are together: gas is freed from there on. */
function gasCharge(step: Step): string | null {
  const reactants = new Set(step.equation.uses.map((term) => term.material));
  const charges = step.operations.filter(
    (operation): operation is Charge => operation.do === 'charge' && reactants.has(operation.material),
  );
  return charges.at(-1)?.id ?? null;
}

function chargeCautions(charge: Charge, residue: Residue, freesGas: boolean, input: CautionInput): readonly Notice[] {
  const at = { step: input.step.id, operation: charge.id, material: charge.material };
  const notices: Notice[] = [];
  const say = (code: string, values: Notice['values'], level: Notice['level'] = 'caution'): number =>
    notices.push({ level, code, values, at });
  const facts = input.facts.get(charge.material);
  if (!facts) return [];
  const serious = seriousStatements(facts, charge.form ?? NEAT, input.reference);
  if (serious !== '') say('hazards', { material: facts.name, statements: serious });
  if (freesGas) for (const gas of input.gases) say('gas freed', gasValues(gas, input));
  for (const meeting of meetings(charge, facts, residue, input)) say(meeting.code, meeting.values, meeting.level);
  return notices;
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

/** What the new charge meets in the vessel. A pair the equation itself brings together is the reaction, not an accident. */
function meetings(charge: Charge, facts: Facts, residue: Residue, input: CautionInput): readonly Meeting[] {
  const own = natureOf(facts, input.reference);
  const reactants = new Set(input.step.equation.uses.map((term) => term.material));
  const newVessel = (input.step.stages?.[charge.stage]?.newVessel ?? false) && firstCharge(input.step, charge);
  const found: Meeting[] = [];
  for (const [material, fraction] of residue) {
    const other = input.facts.get(material);
    if (!other || material === charge.material || fraction <= 0) continue;
    const nature = natureOf(other, input.reference);
    const names = { material: facts.name, other: other.name };
    if (fraction > WASHED_OUT && own.water && isStrongAcid(nature))
      found.push({ code: 'acid into water', values: names, level: 'caution' });
    if (fraction > WASHED_OUT && nature.water && isStrongAcid(own))
      found.push({ code: 'acid slowly into water', values: names, level: 'caution' });
    if (reactants.has(material) && reactants.has(charge.material)) continue;
    if (material === input.step.basis) continue;
    for (const code of incompatibilities(own, nature)) {
      const washed = fraction <= WASHED_OUT;
      if (code === 'oxidiser meets organic' && washed)
        found.push({ code: newVessel ? 'acid-free, new vessel' : 'acid-free first', values: names, level: 'caution' });
      else if (!washed) found.push({ code, values: names, level: code === 'neutralisation heat' ? 'caution' : 'error' });
    }
  }
  if (isStrongBase(own) && facts.state === 'solid' && (charge.form?.kind ?? 'neat') === 'neat')
    found.push({ code: 'dissolves hot', values: { material: facts.name }, level: 'caution' });
  return found;
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
  const liquid = (material: string): boolean => isLiquid(material, input);
  return new Set(
    [...residue]
      .filter(
        ([material, fraction]) =>
          fraction > 0.001 && removal.takes.some((taken) => taken.percent > 0 && takes(taken.what, material, input.step, liquid)),
      )
      .map(([material]) => material),
  );
}

/** Waste streams of a whole route that would meet in one container and must not. */
export function wasteConflicts(inputs: readonly CautionInput[]): readonly Notice[] {
  const containers = new Map<string, { material: string; facts: Facts; step: string; operation: string }[]>();
  for (const input of inputs) {
    const before = residueBefore(input.step, (material) => isLiquid(material, input));
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

function isLiquid(material: string, input: CautionInput): boolean {
  const charge = input.step.operations.find(
    (operation): operation is Charge => operation.do === 'charge' && operation.material === material,
  );
  return charge?.form?.kind === 'solution' || input.facts.get(material)?.state === 'liquid';
}

/** Texts of the serious statements of a material at a strength, joined; empty where there are none or no entry. */
function seriousStatements(facts: Facts, form: Form, reference: Reference): string {
  const hazards = hazardsOf(facts, form, reference);
  const serious = hazards?.statements.filter((code) => SAID_IN_WORDS.test(code)) ?? [];
  return serious.map((code) => reference.statement.get(code) ?? code).join(' ');
}
