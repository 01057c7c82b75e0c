import type { Situation } from '../../confidence/start-choice.ts';
import { type Facts, foldName } from '../../matter/facts.ts';
import { computed, type Figure } from '../../quantity/figure.ts';
import { type Fetched, type FetchInput, fetchLines } from '../../shelf/fetch.ts';
import type { Bottle } from '../../shelf/shelf.ts';
import type { Network } from '../network/network.ts';
import type { FetchLine } from '../result.ts';
import { alikeBottles } from './route-stock.ts';
import type { Requirement } from '../solve/requirements.ts';
import type { Handover } from '../solve/share-out.ts';
import type { Starts } from '../solve/starts.ts';
import { takenTimes } from '../step/charge-plan.ts';
import type { StepInput } from '../step/run-step.ts';
import { loopLines } from './loop-lines.ts';
import { demandsOf, type Supplied, stockLines, supplies, type SupplyInput } from './supply.ts';

/** The charges of a plan and where each comes from. */
export interface Taken {
  /** By step, in the order of the file: what the step is gone through with. */
  readonly stepInputs: readonly StepInput[];
  /** By step: where each charge comes from, by operation id. */
  readonly supplies: readonly ReadonlyMap<string, Supplied>[];
  readonly fetch: readonly FetchLine[];
  readonly makeUps: Fetched['makeUps'];
}

/**
 * Every charge of the steps that run, taken from the shelf: charges add up to demands by material and strength, demands
 * are met bottle by bottle, made up from stronger ones, or short.
 */
export function takeFromShelf(
  { input, network, facts }: Pick<Situation, 'input' | 'network' | 'facts'>,
  starts: Starts,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): Taken {
  const stepInputs = network.steps.map((step, i): StepInput => {
    const { basisMoles } = starts.steps[i] as Requirement;
    return { step, facts, reference: input.reference, basisMoles, batches: starts.counts[i]?.count ?? 1 };
  });
  const active = network.groups.flat().filter((i) => starts.steps[i]?.active);
  const charges = new Map(active.map((i) => [i, starts.runs[i]?.(stepInputs[i]?.batches ?? 1).charges ?? []]));
  const fetched = fetchLines({
    demands: active.flatMap((i) => {
      const [step, batches] = [stepInputs[i] as StepInput, stepInputs[i]?.batches ?? 1];
      const of = { step, basisGrams: null, batches, settings: input.settings };
      return demandsOf(network, i, charges.get(i) ?? [], facts, batches, input.reference, (run, form) =>
        takenTimes(run, form, of),
      );
    }),
    bottles,
    alike: alikeOf(input),
    remaining: leftAfterStock(input.shelf.bottles, starts.handovers),
    returned: returnedMoles(network, starts.steps, facts),
    asOf: input.asOf,
    heldBack: new Set(input.ask.holdBack ?? []),
    useFirst: new Set(input.ask.useFirst ?? []),
    settings: input.settings,
    reference: input.reference,
  });
  const counted = stepInputs.map((one) => one.batches);
  const byId = new Map(input.shelf.bottles.map((bottle) => [bottle.id, bottle]));
  const from: SupplyInput = {
    network,
    fetched,
    handovers: starts.handovers,
    runs: charges,
    facts,
    bottles: byId,
    batches: counted,
  };
  const fetch = [...fetched.lines, ...stockLines(from), ...loopLines(network, facts, starts)];
  return { stepInputs, supplies: supplies(from), fetch, makeUps: fetched.makeUps };
}

/** Bottles of what is called nearly as a material of the route, each with the name it has on the shelf, and its number where that is the same. */
function alikeOf({ route, shelf }: Situation['input']): FetchInput['alike'] {
  const alike = alikeBottles(route, shelf);
  return (material) =>
    (alike.get(material) ?? []).map((bottle) => {
      const { name = '', cas, formula } = shelf.materials[bottle.material] ?? {};
      const apart = cas ?? formula;
      const sameName = foldName(name) === foldName(route.materials[material]?.name ?? '') && apart !== undefined;
      return { bottle, name: sameName ? `${name}, ${apart}` : name };
    });
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
