import { alikeTogether, worstFirst } from './by-harm.ts';
import type { BenchInput } from '../bench/bench-section.ts';
import { inVessel, type Present, WASHED_OUT } from '../bench/in-vessel.ts';
import { natureOf } from '../bench/nature.ts';
import type { Facts } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { PlanInput } from '../plan/input.ts';
import type { OperationPlan, PlanResult, StepPlan } from '../plan/result.ts';
import { setUp } from '../plan/set-up.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { Notice } from '../words/notice.ts';
import { littleHeat } from './little-heat.ts';
import { peroxideCautions, peroxideFormerOf } from './peroxides.ts';
import { type ScaleRun, scaleCaution } from './scale-jump.ts';

/** Cautions of a step by operation id, each immediately before it. */
export type StepCautions = ReadonlyMap<string, readonly Notice[]>;

interface Of extends Pick<BenchInput, 'plan' | 'step' | 'facts' | 'reference'> {
  readonly runs: readonly ScaleRun[] | null;
  readonly bottles: ReadonlyMap<string, Bottle>;
  readonly asOf: string;
}

/**
 * Everything to be said before each operation of a step: what the plan found, with what needs the shelf's dates and the
 * record of runs. Apart from plan(), because a keystroke must not wait for it.
 * @param result the plan made from `input`. @param runs of the route; null where none were read.
 * @throws RangeError where the step is not in the plan.
 */
export function stepCautions(
  input: PlanInput,
  result: PlanResult,
  stepId: string,
  runs: readonly ScaleRun[] | null,
): StepCautions {
  const plan = result.steps.find((one) => one.id === stepId);
  const { input: read, facts, bottles: byMaterial } = setUp(input);
  const step = read.route.steps.find((one) => one.id === stepId);
  if (!plan || !step) throw new RangeError(`stepCautions needs a step of the plan (got ${stepId})`);
  if (!plan.active) return new Map();
  const bottles = new Map(read.shelf.bottles.map((bottle) => [bottle.id, bottle]));
  const of: Of = { plan, step, facts, reference: read.reference, runs, bottles, asOf: read.asOf };
  const bench = { plan, step, result, facts, bottles: byMaterial, settings: read.settings, reference: read.reference };
  return gathered(of, littleHeat(bench), [...ofWholeStep(of), ...ofBottles(of), ...ofDistilling(of), ...ofPlan(result, plan)]);
}

/** Id of an operation of the plan. */
export function operationIdOf(operation: OperationPlan): string {
  if (operation.kind === 'charge') return operation.id;
  return operation.kind === 'hold' ? operation.hold.id : operation.removal.id;
}

/** The plan's own and the further ones by operation, the loudest first, among those the worst; what was said already is only pointed back to. */
function gathered({ plan, step }: Of, gentle: ReturnType<typeof littleHeat>, further: readonly Notice[]): StepCautions {
  const said = new Map<string, string>();
  const met = new Set<string>();
  return new Map(
    plan.operations.map((operation) => {
      const id = operationIdOf(operation);
      const own = new Set(operation.before.map(contentOf));
      const all = [...operation.before, ...further.filter((one) => one.at.operation === id && !own.has(contentOf(one)))];
      const once = gentle(id, all).map((notice) => metOnce(onceOnly(notice, said), met));
      for (const notice of once) if (notice.code === 'hazards') said.set(hazardKey(notice), step.id);
      return [id, worstFirst(alikeTogether(once))];
    }),
  );
}

/** Cautions about two that meet, which a further portion of one of them would bring again word by word. */
const OF_PAIRS = /^(chart: (warm|watched|water-reactive)|neutralisation heat|reaction itself)$/;

/** Pairs that have met for the same reason are pointed back to; an error is never shortened. */
function metOnce(notice: Notice, met: Set<string>): Notice {
  if (!OF_PAIRS.test(notice.code) || notice.level === 'error') return notice;
  const { material = '', other = '' } = notice.values;
  const keys = String(other)
    .split('|')
    .map((one) => `${notice.code}/${[String(material), one].sort().join('/')}`);
  const again = keys.every((key) => met.has(key));
  for (const key of keys) met.add(key);
  return again ? { ...notice, code: 'meets as before' } : notice;
}

const hazardKey = ({ values }: Notice): string => `${values.material}/${values.statements}`;

function onceOnly(notice: Notice, said: ReadonlyMap<string, string>): Notice {
  if (notice.code !== 'hazards' || !said.has(hazardKey(notice))) return notice;
  return { ...notice, level: 'note', code: 'hazards as before', values: { material: notice.values.material ?? '' } };
}

const contentOf = ({ code, values }: Notice): string => JSON.stringify([code, values]);

/** What the plan itself says of an operation: a waste container that must not hold it, an amount that is not known. */
function ofPlan(result: PlanResult, plan: StepPlan): readonly Notice[] {
  const all = [...plan.notices, ...result.notices].filter((one) => one.at.step === plan.id && one.at.operation !== undefined);
  return [...new Map(all.map((one) => [`${one.at.operation}/${contentOf(one)}`, one])).values()];
}

/** What the plan says of a step as a whole, but of its equation: to be known before its first operation. */
export function ofStepItself(plan: StepPlan): readonly Notice[] {
  return plan.notices.filter(({ code, at }) => at.operation === undefined && code !== 'unbalanced' && code !== 'balance unknown');
}

/** What concerns the step as a whole stands before its first operation. */
function ofWholeStep(of: Of): readonly Notice[] {
  const { plan } = of;
  const [first] = plan.operations;
  if (!first) return [];
  const at = { step: plan.id, operation: operationIdOf(first) };
  const scale = scaleCaution(plan, of.runs);
  const unknown = withoutStructure(of);
  return [
    ...(scale ? [{ ...scale, at }] : []),
    ...(unknown.length === 0
      ? []
      : [{ level: 'note' as const, code: 'no structure', values: { materials: unknown.join(', ') }, at }]),
  ];
}

/** Names of what is charged or formed and has no structure to look for stored energy in. */
function withoutStructure({ step, facts, reference }: Of): readonly string[] {
  const met = new Set([...charged(step), ...step.equation.makes.map((term) => term.material)]);
  const bare = (one: Facts | undefined): one is Facts =>
    one !== undefined && one.smiles === null && !one.utility && !natureOf(one, reference).water;
  return [...met]
    .map((material) => facts.get(material))
    .filter(bare)
    .map((one) => one.name);
}

function charged(step: Of['step']): readonly string[] {
  return step.operations.flatMap((one) => (one.do === 'charge' ? [one.material] : []));
}

function ofBottles({ plan, facts, bottles, asOf, reference }: Of): readonly Notice[] {
  return plan.operations.flatMap((charge): readonly Notice[] => {
    const one = charge.kind === 'charge' ? facts.get(charge.material) : undefined;
    if (charge.kind !== 'charge' || !one || charge.supply.kind === 'utility') return [];
    const at = { step: plan.id, operation: charge.id, material: charge.material };
    return peroxideCautions({ charge, facts: one, bottles, asOf, reference }).map((notice) => ({ ...notice, at }));
  });
}

/** What leaves peroxides behind when it is distilled off. */
function ofDistilling({ plan, step, facts, reference }: Of): readonly Notice[] {
  const vessel = inVessel({ step, facts, formOf: (charge) => formIn(plan, charge.id), reference });
  return step.operations.flatMap((operation, index): readonly Notice[] => {
    if (operation.do !== 'removal' || operation.how !== 'distil') return [];
    const held = (vessel[index]?.before ?? []).filter((one) => one.fraction > WASHED_OUT);
    const names = held.flatMap((one: Present) => one.parts).filter((part) => peroxideFormerOf(part.facts, reference));
    if (names.length === 0) return [];
    const values = { material: [...new Set(names.map((part) => part.facts.name))].join(', ') };
    return [{ level: 'caution', code: 'peroxides: concentrated', values, at: { step: plan.id, operation: operation.id } }];
  });
}

function formIn(plan: StepPlan, id: string) {
  const found = plan.operations.find((one) => one.kind === 'charge' && one.id === id);
  return found?.kind === 'charge' ? found.form : NEAT;
}
