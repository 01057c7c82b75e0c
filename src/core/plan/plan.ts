import { type CautionInput, wasteConflicts } from '../bench/cautions.ts';
import { factsOf, type Facts, sameMaterial } from '../matter/facts.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Route, Step } from '../route/route.ts';
import { fetchLines, type Fetched } from '../shelf/fetch.ts';
import type { Bottle, Shelf } from '../shelf/shelf.ts';
import { assayPercent, byExpiry, containedMoles, whyNotUsable } from '../shelf/usable.ts';
import type { Notice } from '../words/notice.ts';
import type { Ask } from './ask.ts';
import { type BatchCount, batchCount } from './batches.ts';
import { flowOf } from './flow.ts';
import { type Network, readNetwork } from './network.ts';
import { likeliest, type Requirement, requirements, type Stock, type Want } from './requirements.ts';
import type { DrawPlan, FetchLine, MaterialPlan, PlanResult, StepPlan } from './result.ts';
import { basisMass, runStep, type StepInput } from './run-step.ts';
import type { Settings } from './settings.ts';
import { type Handover, shareOut } from './share-out.ts';
import { stepPlan } from './step-plan.ts';
import { demandsOf, stockLines, supplies } from './supply.ts';

/** All that a plan depends on. The same input gives the same plan to the last digit. */
export interface PlanInput {
  readonly route: Route;
  readonly ask: Ask;
  readonly shelf: Shelf;
  readonly settings: Settings;
  readonly reference: Reference;
  /** The day the plan is for, ISO date. */
  readonly asOf: string;
}

/**
 * Scales a route backward from its draws to what is weighed, measured and fetched.
 *
 *     draws ─▶ moles wanted ─▶ starts of every step ─▶ batches ─▶ charges ─▶ shelf ─▶ what to take, make up, buy
 *
 * Pure: no clock, no chance, no memory. Trouble is part of the result; what can be shown is.
 */
export function plan(input: PlanInput): PlanResult {
  const facts = new Map(
    Object.entries(input.route.materials).map(([key, material]) => [key, factsOf(material, input.reference)]),
  );
  const bottles = bottlesByMaterial(input);
  const reading = wantsOf(input, facts);
  const wanted = new Set(input.ask.draws.map((draw) => draw.material));
  const network = readNetwork(input.route, wanted, facts, input.reference);
  const early = [...formulaNotices(input.route, facts), ...reading.notices];
  if (!network.ok) return unsolved(input, facts, reading.draws, [...early, ...network.notices], null);
  const unmade = input.ask.draws.filter(
    (draw) => input.route.materials[draw.material] && !network.network.makerOf.has(draw.material),
  );
  const refused = [
    ...early,
    ...unmade.map(
      (draw): Notice => ({
        level: 'error',
        code: 'not made',
        values: { material: facts.get(draw.material)?.name ?? draw.material },
        at: { draw: draw.id },
      }),
    ),
  ];
  if (unmade.length > 0 || reading.notices.length > 0) return unsolved(input, facts, reading.draws, refused, network.network);
  const solved = solve(input, network.network, facts, reading.wants, usableStock(input, network.network, facts, bottles));
  if (!solved.ok) return unsolved(input, facts, reading.draws, [...refused, solved.notice], network.network);
  return assemble(input, network.network, facts, bottles, reading, solved.value, early);
}

interface Solved {
  readonly steps: readonly Requirement[];
  readonly yields: readonly Figure<'%'>[];
  readonly counts: readonly BatchCount[];
  readonly stock: readonly Stock[];
  readonly handovers: readonly Handover[];
}

/**
 * Starts and batches together: what is charged once a batch adds to the need, a greater need may ask for another
 * batch. Batches only grow, so it ends.
 */
function solve(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  wants: readonly Want[],
  stock: readonly Stock[],
): { ok: true; value: Solved } | { ok: false; notice: Notice } {
  const yields = network.steps.map((step) => yieldFigure(step, input.ask));
  let counts: readonly BatchCount[] = network.steps.map(() => ({ count: 1, why: 'one is enough', reason: '', tooFull: false }));
  for (let round = 0; ; round += 1) {
    const batches = counts.map((one, i) => (round === 0 && (network.fixed[i]?.size ?? 0) > 0 ? 0 : one.count));
    const required = requirements({ network, facts, yields, wants, stock, batches });
    if (!required.ok) return required;
    const next = network.steps.map((step, i) =>
      countBatches(step, required.steps[i] as Requirement, counts[i]?.count ?? 1, input, facts),
    );
    const settled = round > 0 && next.every((one, i) => one.count === counts[i]?.count);
    counts = next;
    const repeats = network.fixed.some((fixed) => fixed.size > 0);
    if (settled || !repeats || round > 100) {
      const running = required.steps.map((step, i) => (step.active ? (counts[i]?.count ?? 1) : 0));
      return {
        ok: true,
        value: {
          steps: required.steps,
          yields,
          counts,
          stock,
          handovers: shareOut(network, required.steps, wants, stock, running),
        },
      };
    }
  }
}

function countBatches(
  step: Step,
  requirement: Requirement,
  atLeast: number,
  input: PlanInput,
  facts: ReadonlyMap<string, Facts>,
): BatchCount {
  const run = { step, facts, reference: input.reference, basisMoles: requirement.basisMoles };
  return batchCount(run, basisMass(run)?.value ?? 0, input.settings, atLeast);
}

/** The yield a plan uses: frozen with the ask, else the route's; the likeliest value of a range. */
function yieldFigure(step: Step, ask: Ask): Figure<'%'> {
  const frozen = ask.yields?.[step.id];
  const where = frozen === undefined ? (step.yieldSource ?? 'the step') : 'this plan';
  return entered(`yield of ${step.title}`, likeliest(frozen ?? step.yieldPercent), '%', where);
}

interface Reading {
  readonly draws: readonly DrawPlan[];
  readonly wants: readonly Want[];
  readonly notices: readonly Notice[];
}

/** Draws as moles of contained product. */
function wantsOf(input: PlanInput, facts: ReadonlyMap<string, Facts>): Reading {
  const draws: DrawPlan[] = [];
  const wants: Want[] = [];
  const notices: Notice[] = [];
  for (const draw of input.ask.draws) {
    const one = facts.get(draw.material);
    const mass = one?.molarMass;
    if (!one) notices.push({ level: 'error', code: 'unknown draw', values: { material: draw.material }, at: { draw: draw.id } });
    else if (!mass)
      notices.push({ level: 'error', code: 'no molar mass', values: { material: one.name }, at: { draw: draw.id } });
    const asked = entered(`${one?.name ?? draw.material} wanted`, draw.amount, draw.unit, 'the target');
    const moles =
      draw.unit === 'mol'
        ? (asked as Figure<'mol'>)
        : mass
          ? computed(`${one?.name ?? ''} wanted`, draw.amount / mass.value, 'mol', 'grams ÷ molar mass', [asked, mass])
          : null;
    const grams =
      draw.unit === 'g'
        ? (asked as Figure<'g'>)
        : mass
          ? computed(`${one?.name ?? ''} wanted`, draw.amount * mass.value, 'g', 'moles × molar mass', [asked, mass])
          : null;
    draws.push({
      id: draw.id,
      material: draw.material,
      purpose: draw.purpose ?? '',
      kept: draw.kept ?? false,
      date: draw.date ?? null,
      grams,
      moles,
    });
    if (moles) wants.push({ material: draw.material, moles, leastAssayPercent: draw.leastAssayPercent ?? 0 });
  }
  return { draws, wants, notices };
}

function bottlesByMaterial(input: PlanInput): ReadonlyMap<string, readonly Bottle[]> {
  const keys = Object.entries(input.route.materials);
  const routeKeys = new Map(
    Object.entries(input.shelf.materials).map(([key, material]) => [
      key,
      keys.filter(([, one]) => sameMaterial(one, material)).map(([routeKey]) => routeKey),
    ]),
  );
  const found = new Map<string, Bottle[]>();
  for (const bottle of input.shelf.bottles) {
    if (bottle.left <= 0) continue;
    for (const key of routeKeys.get(bottle.material) ?? []) found.set(key, [...(found.get(key) ?? []), bottle]);
  }
  return found;
}

/** Bottles of what the route makes, as contained moles that may be counted on. */
function usableStock(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): readonly Stock[] {
  if (input.ask.useStock === false) return [];
  const heldBack = new Set(input.ask.holdBack ?? []);
  return [...network.makerOf.keys()].flatMap((material) => {
    const usable = [...(bottles.get(material) ?? [])]
      .sort(byExpiry)
      .filter((bottle) => whyNotUsable(bottle, input.asOf, heldBack) === null);
    return usable.flatMap((bottle): readonly Stock[] => {
      const one = facts.get(material);
      const moles = one ? containedMoles(bottle, one, input.reference) : null;
      return moles ? [{ material, bottle: bottle.id, moles, assayPercent: assayPercent(bottle) }] : [];
    });
  });
}

function assemble(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  reading: Reading,
  solved: Solved,
  early: readonly Notice[],
): PlanResult {
  const byId = new Map(input.shelf.bottles.map((bottle) => [bottle.id, bottle]));
  const stepInputs = network.steps.map(
    (step, i): StepInput => ({
      step,
      facts,
      reference: input.reference,
      basisMoles: (solved.steps[i] as Requirement).basisMoles,
      batches: solved.counts[i]?.count ?? 1,
    }),
  );
  const order = network.groups.flat();
  const active = order.filter((i) => solved.steps[i]?.active);
  const runs = new Map(active.map((i) => [i, runStep(stepInputs[i] as StepInput)]));
  const fetched: Fetched = fetchLines({
    demands: active.flatMap((i) => demandsOf(network, i, runs.get(i)?.charges ?? [], facts)),
    bottles,
    remaining: new Map(input.shelf.bottles.map((bottle) => [bottle.id, bottle.left])),
    returned: returnedMoles(network, solved.steps, facts),
    asOf: input.asOf,
    heldBack: new Set(input.ask.holdBack ?? []),
    strengthMatchPercent: input.settings.strengthMatchPercent,
    reference: input.reference,
  });
  const supplyOf = supplies({ network, fetched, handovers: solved.handovers, facts, bottles: byId });
  const steps = order.map(
    (i, place): StepPlan =>
      stepPlan({
        input: stepInputs[i] as StepInput,
        number: place + 1,
        requirement: solved.steps[i] as Requirement,
        yieldFigure: solved.yields[i] as Figure<'%'>,
        count: solved.counts[i] as BatchCount,
        supplyOf: (operation) => supplyOf(i, operation),
        settings: input.settings,
      }),
  );
  const fetch = [...fetched.lines, ...stockLines({ network, fetched, handovers: solved.handovers, facts, bottles: byId })];
  return {
    name: input.ask.name,
    route: input.route.name,
    asOf: input.asOf,
    solved: true,
    draws: reading.draws,
    materials: materialPlans(input.route, facts, network),
    steps,
    flow: flowOf({ network, ask: input.ask, facts, requirements: solved.steps, handovers: solved.handovers }),
    fetch,
    makeUps: fetched.makeUps,
    notices: [
      ...early,
      ...steps.flatMap((step) => (step.active ? step.notices : [])),
      ...fetchNotices(fetch),
      ...wasteNotices(steps, stepInputs),
      ...loopNotices(network, solved.steps, facts),
    ],
  };
}

/** Material another step gives back, mol by key; what a step recovers of its own charge is counted with the charge. */
function returnedMoles(
  network: Network,
  steps: readonly Requirement[],
  facts: ReadonlyMap<string, Facts>,
): ReadonlyMap<string, Figure<'mol'>> {
  const back = new Map<string, Figure<'mol'>>();
  network.steps.forEach((step, i) => {
    for (const recovery of step.recovers ?? []) {
      if (!('molesPerMoleBasis' in recovery) || network.makerOf.has(recovery.material)) continue;
      const start = steps[i]?.basisMoles;
      const before = back.get(recovery.material);
      const value = (before?.value ?? 0) + recovery.molesPerMoleBasis * (start?.value ?? 0);
      back.set(
        recovery.material,
        computed(
          `${facts.get(recovery.material)?.name ?? ''} that comes back`,
          value,
          'mol',
          'mol per mol of basis × basis',
          [before, start].filter((one) => one !== undefined),
        ),
      );
    }
  });
  return back;
}

function fetchNotices(fetch: readonly FetchLine[]): readonly Notice[] {
  return fetch.flatMap((line): readonly Notice[] => {
    const at = { material: line.material };
    const values = {
      material: line.name,
      form: line.formWords,
      amount: line.short?.value ?? 0,
      unit: line.unit,
      uses: new Set(line.uses.map((use) => use.step)).size,
    };
    if (line.status === 'short' || line.status === 'unknown strength') return [{ level: 'short', code: line.status, values, at }];
    if (line.status === 'make up') return [{ level: 'short', code: 'make up', values, at }];
    const lot = line.passedOver.find((one) => one.why === 'out of date')?.lot ?? '';
    return line.status === 'out of date' ? [{ level: 'short', code: 'out of date', values: { ...values, lot }, at }] : [];
  });
}

function wasteNotices(steps: readonly StepPlan[], inputs: readonly StepInput[]): readonly Notice[] {
  const active = new Set(steps.filter((step) => step.active).map((step) => step.id));
  const streams = inputs
    .filter((one) => active.has(one.step.id))
    .map((one): CautionInput => ({ step: one.step, facts: one.facts, gases: [], reference: one.reference }));
  return wasteConflicts(streams);
}

/** A loop needs some of its own product in hand before the first batch can start. */
function loopNotices(network: Network, steps: readonly Requirement[], facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return network.groups.flatMap((group): readonly Notice[] => {
    const running = group.filter((i) => steps[i]?.active);
    const first = network.steps[running[0] ?? -1];
    const feedsItself =
      running.length > 1 || (first !== undefined && (network.charged[running[0] ?? -1]?.get(first.product) ?? 0) > 0);
    if (!first || !feedsItself) return [];
    const names = running.map((i) => facts.get(network.steps[i]?.product ?? '')?.name ?? '').join(', ');
    return [{ level: 'assumption', code: 'steady loop', values: { materials: names }, at: { step: first.id } }];
  });
}

function formulaNotices(route: Route, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return Object.entries(route.materials).flatMap(([key, material]): readonly Notice[] => {
    const problem = facts.get(key)?.formulaProblem;
    return problem
      ? [
          {
            level: 'error',
            code: 'formula',
            values: { material: material.name, formula: material.formula ?? '', at: problem.at + 1, words: problem.words },
            at: { material: key },
          },
        ]
      : [];
  });
}

function materialPlans(
  route: Route,
  facts: ReadonlyMap<string, Facts>,
  network: Network | null,
): Readonly<Record<string, MaterialPlan>> {
  return Object.fromEntries(
    Object.keys(route.materials).map((key) => {
      const one = facts.get(key) as Facts;
      const maker = network?.makerOf.get(key);
      const { name, formula, cas, smiles, state, utility, molarMass } = one;
      return [
        key,
        {
          key,
          name,
          formula,
          cas,
          smiles,
          state,
          utility,
          molarMass,
          madeBy: maker === undefined ? null : (network?.steps[maker]?.id ?? null),
        },
      ];
    }),
  );
}

function unsolved(
  input: PlanInput,
  facts: ReadonlyMap<string, Facts>,
  draws: readonly DrawPlan[],
  notices: readonly Notice[],
  network: Network | null,
): PlanResult {
  return {
    name: input.ask.name,
    route: input.route.name,
    asOf: input.asOf,
    solved: false,
    draws,
    materials: materialPlans(input.route, facts, network),
    steps: [],
    flow: { bands: [], pathStoichiometry: {} },
    fetch: [],
    makeUps: [],
    notices,
  };
}
