import type { Facts } from '../matter/facts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Route } from '../route/route.ts';
import { type Fetched, fetchLines } from '../shelf/fetch.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { Notice } from '../words/notice.ts';
import type { BatchCount } from './batches.ts';
import { flowOf } from './flow.ts';
import type { PlanInput } from './input.ts';
import type { Network } from './network.ts';
import {
  choiceNotices,
  dangerNotices,
  fetchNotices,
  loopNotices,
  purityNotices,
  recoveredNotices,
  secondNotices,
  wasteNotices,
} from './plan-notices.ts';
import type { Requirement } from './requirements.ts';
import type { MaterialPlan, PlanResult, StepPlan } from './result.ts';
import { runStep, type StepInput } from './run-step.ts';
import type { Handover } from './share-out.ts';
import { learnedRuns, type Starts, yieldEntered } from './starts.ts';
import { stepPlan } from './step-plan.ts';
import { demandsOf, stockLines, supplies, type SupplyInput } from './supply.ts';
import type { Reading } from './wants.ts';

/** Puts a solved network together with the shelf: steps, fetch list, make-ups, flow and notices. */
export function assemble(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  reading: Reading,
  solved: Starts,
  start: PlanResult['start'],
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
    remaining: leftAfterStock(input.shelf.bottles, solved.handovers),
    returned: returnedMoles(network, solved.steps, facts),
    asOf: input.asOf,
    heldBack: new Set(input.ask.holdBack ?? []),
    useFirst: new Set(input.ask.useFirst ?? []),
    settings: input.settings,
    reference: input.reference,
  });
  const charged = new Map([...runs].map(([i, run]) => [i, run.charges]));
  const from: SupplyInput = { network, fetched, handovers: solved.handovers, runs: charged, facts, bottles: byId };
  const supplyOf = supplies(from);
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
        whyIdle: whyIdle(input, network, solved.steps, i),
        yieldEntered: yieldEntered(network.steps[i] as StepInput['step'], input.ask),
        yieldRuns: learnedRuns(network.steps[i] as StepInput['step'], input.ask).length,
      }),
  );
  const fetch = [...fetched.lines, ...stockLines(from)];
  return {
    name: input.ask.name,
    route: input.route.name,
    asOf: input.asOf,
    solved: true,
    start,
    draws: reading.draws,
    materials: materialPlans(input.route, facts, network, solved.steps),
    steps,
    flow: flowOf({ network, ask: input.ask, facts, requirements: solved.steps, handovers: solved.handovers }),
    fetch,
    choices: solved.choices,
    makeUps: fetched.makeUps,
    notices: [
      ...early,
      ...steps.flatMap((step) => (step.active ? step.notices : [])),
      ...dangerNotices(steps),
      ...fetchNotices(fetch),
      ...wasteNotices(steps, stepInputs),
      ...recoveredNotices(network, solved.steps, facts),
      ...purityNotices(network, solved.steps, input.ask.draws, facts),
      ...loopNotices(network, solved.steps, facts),
      ...choiceNotices(network, solved.choices, facts),
      ...secondNotices(network, solved.steps, facts),
    ],
  };
}

/** Why a step does not run: stock covers it, it was left out by hand, or another step makes the same. */
function whyIdle(input: PlanInput, network: Network, steps: readonly Requirement[], i: number): StepPlan['whyIdle'] {
  if (steps[i]?.active) return null;
  const step = network.steps[i];
  if (!step || input.ask.leaveOut?.includes(step.id)) return 'left out';
  const others = network.makersOf.get(step.product) ?? [];
  return others.some((other) => other !== i && steps[other]?.active) ? 'another makes it' : 'nothing to make';
}

/** What stays in each bottle once the stock of intermediates that the plan uses is taken out. */
function leftAfterStock(bottles: readonly Bottle[], handovers: readonly Handover[]): Map<string, number> {
  const left = new Map(bottles.map((bottle) => [bottle.id, bottle.left]));
  for (const { from, moles } of handovers) {
    if (from.kind !== 'stock' || from.stock.moles.value === 0) continue;
    const before = left.get(from.stock.bottle) ?? 0;
    const whole = bottles.find((bottle) => bottle.id === from.stock.bottle)?.left ?? 0;
    left.set(from.stock.bottle, Math.max(0, before - (whole * moles) / from.stock.moles.value));
  }
  return left;
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
      if (!('molesPerMoleBasis' in recovery) || network.makersOf.has(recovery.material)) continue;
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

/** Every material of the route as the plan understood it. */
export function materialPlans(
  route: Route,
  facts: ReadonlyMap<string, Facts>,
  network: Network | null,
  requirements: readonly Requirement[] = [],
): Readonly<Record<string, MaterialPlan>> {
  return Object.fromEntries(
    Object.keys(route.materials).map((key) => {
      const one = facts.get(key) as Facts;
      const makers = network?.makersOf.get(key) ?? [];
      const maker = makers.find((i) => requirements[i]?.active) ?? makers[0];
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
