import type { Facts } from '../../matter/facts.ts';
import { sameMaterial } from '../../matter/facts.ts';
import { entered } from '../../quantity/figure.ts';
import { type Demand, inUnit } from '../../shelf/demand.ts';
import { serviceOf } from '../../shelf/serve.ts';
import type { Pack } from '../../shelf/pack.ts';
import { type Form, NEAT } from '../../matter/form.ts';
import type { PlanInput } from '../input.ts';
import type { Network } from '../network/network.ts';
import { runStep } from '../step/run-step.ts';
import { demandsOf } from '../stock/supply.ts';

/** What the bought materials for one mole of a step's basis come to. */
export interface StepCost {
  /** In the person's own currency; null where a pack with a price is missing for one of them. */
  readonly money: number | null;
  /** g as supplied; what cannot be given in grams is left out. */
  readonly grams: number;
}

/** What choices are judged by: money where every step in the route has its prices, else grams of what is bought. */
export type Yardstick = 'price' | 'mass';

export interface Costs {
  readonly by: Yardstick;
  /** By step, most important first: what bought materials for a mole of its basis cost, and what is charged once a batch. */
  readonly perMole: readonly (readonly number[])[];
  readonly perBatch: readonly (readonly number[])[];
}

const ONE_MOLE = entered('one mole of basis', 1, 'mol', 'the step');
const NONE = entered('no basis', 0, 'mol', 'the step');

/**
 * Material cost of every step per mol of its basis, less what comes back: the cheapest pack that serves each charge,
 * per gram or millilitre, whole packs and left-overs not counted; and of what it charges once in every batch.
 */
export function costsOf(input: PlanInput, network: Network, facts: ReadonlyMap<string, Facts>): Costs {
  const packs = packsByMaterial(input);
  const each = network.steps.map((_, i) => costOf(input, network, i, facts, packs, 0));
  const once = network.steps.map((_, i) => costOf(input, network, i, facts, packs, 1));
  const by: Yardstick = [...each, ...once].every((one) => one.money !== null) ? 'price' : 'mass';
  const levels = ({ money, grams }: StepCost, moles: number): readonly number[] =>
    by === 'price' ? [money ?? 0, grams, moles] : [grams, moles];
  // Last the moles started: a step that costs nothing is not run for nothing either.
  return { by, perMole: each.map((one) => levels(one, 1)), perBatch: once.map((one) => levels(one, 0)) };
}

function costOf(
  input: PlanInput,
  network: Network,
  index: number,
  facts: ReadonlyMap<string, Facts>,
  packs: ReadonlyMap<string, readonly Pack[]>,
  batches: 0 | 1,
): StepCost {
  const step = network.steps[index];
  if (!step) return { money: 0, grams: 0 };
  const basisMoles = batches === 0 ? ONE_MOLE : NONE;
  const { charges } = runStep({ step, facts, reference: input.reference, basisMoles, batches });
  return demandsOf(network, index, charges, facts, 1, input.reference).reduce<StepCost>(
    (sum, demand) => {
      const used = 1 - demand.returns;
      const money = cheapest(demand, packs.get(demand.material) ?? [], input);
      const grams = inUnit(demand, demand.form, 'g', input.reference) ?? 0;
      return {
        money: sum.money === null || money === null ? null : sum.money + money * used,
        grams: sum.grams + grams * used,
      };
    },
    { money: 0, grams: 0 },
  );
}

/** The least a demand costs from any pack that serves it; null where none with a price does. */
function cheapest(demand: Demand, packs: readonly Pack[], input: PlanInput): number | null {
  const prices = packs.flatMap((pack) => {
    const form: Form = pack.form ?? NEAT;
    const bottle = { id: '', material: demand.material, form, left: pack.amount, unit: pack.unit };
    const service = serviceOf(bottle, demand.form, demand.facts, input.settings.strengthMatchPercent, input.reference);
    const amount = inUnit(demand, form, pack.unit, input.reference);
    return service === 'no' || amount === null || pack.price === undefined ? [] : [(amount * pack.price) / pack.amount];
  });
  return prices.length === 0 ? null : Math.min(...prices);
}

/** Packs on the price list by the route's key of what is in them. */
export function packsByMaterial({ route, shelf }: Pick<PlanInput, 'route' | 'shelf'>): ReadonlyMap<string, readonly Pack[]> {
  const packs = (shelf.packs ?? []).flatMap((pack) => {
    const material = shelf.materials[pack.material];
    return material ? [{ pack, material }] : [];
  });
  return new Map(
    Object.entries(route.materials).map(([key, own]) => [
      key,
      packs.filter(({ material }) => sameMaterial(own, material)).map(({ pack }) => pack),
    ]),
  );
}
