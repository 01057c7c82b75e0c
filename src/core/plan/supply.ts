import { grouped } from '../grouped.ts';
import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Demand } from '../shelf/demand.ts';
import type { Fetched } from '../shelf/fetch.ts';
import type { Bottle } from '../shelf/shelf.ts';
import { formWords } from '../words/form-words.ts';
import type { Network } from './network.ts';
import type { BottleShare, FetchLine, Supply } from './result.ts';
import type { ChargeRun } from './run-step.ts';
import type { Handover } from './share-out.ts';

/** What a step asks of the shelf: every charge of a bought material; taps and intermediates need no bottle here. */
export function demandsOf(
  network: Network,
  index: number,
  runs: readonly ChargeRun[],
  facts: ReadonlyMap<string, Facts>,
): readonly Demand[] {
  const step = network.steps[index];
  return runs.flatMap((run): readonly Demand[] => {
    const { material, id, leastAssayPercent } = run.charge;
    const one = facts.get(material);
    if (!step || !one || one.utility || network.makerOf.has(material) || !run.governed) return [];
    const recovery = step.recovers?.find((back) => back.material === material && 'percentOfCharge' in back);
    const returns = recovery && 'percentOfCharge' in recovery ? recovery.percentOfCharge / 100 : 0;
    return [
      {
        step: step.id,
        operation: id,
        material,
        facts: one,
        form: run.form,
        governed: run.governed,
        returns,
        leastAssayPercent: leastAssayPercent ?? 0,
        liquid: run.liquid,
      },
    ];
  });
}

export interface SupplyInput {
  readonly network: Network;
  readonly fetched: Fetched;
  readonly handovers: readonly Handover[];
  readonly facts: ReadonlyMap<string, Facts>;
  readonly bottles: ReadonlyMap<string, Bottle>;
}

/** Where each charge comes from, and the form of what is taken: the bottle's own assay or strength where one is used. */
export function supplies(
  input: SupplyInput,
): (step: number, operation: string) => { readonly supply: Supply; readonly form: Form } {
  const shares = grouped(input.fetched.shares, (share) => `${share.step}/${share.operation}`);
  return (index, operation) => {
    const step = input.network.steps[index];
    const charge = step?.operations.find((one) => one.id === operation);
    if (!step || charge?.do !== 'charge') throw new Error(`supplies needs a charge of the step (got ${operation})`);
    const asked = charge.form ?? NEAT;
    const maker = input.network.makerOf.get(charge.material);
    if (input.facts.get(charge.material)?.utility) return { supply: { kind: 'utility' }, form: asked };
    if (maker !== undefined) return madeSupply(input, index, charge.material, maker, asked);
    const madeUp = input.fetched.madeUp.get(`${step.id}/${operation}`);
    if (madeUp !== undefined) return { supply: { kind: 'make up', makeUp: madeUp }, form: asked };
    const own = shares.get(`${step.id}/${operation}`) ?? [];
    const taken = own.map((share) => bottleShare(share.bottle, share.amount));
    const form = own[0]?.bottle.form ?? asked;
    const uncovered = input.fetched.uncovered.get(`${step.id}/${operation}`);
    return {
      supply: uncovered ? { kind: 'short', status: uncovered, bottles: taken } : { kind: 'bottles', bottles: taken },
      form,
    };
  };
}

/** An intermediate: from the step that makes it, from stock, or both. */
function madeSupply(
  input: SupplyInput,
  index: number,
  material: string,
  maker: number,
  asked: Form,
): { supply: Supply; form: Form } {
  const own = input.handovers.filter((one) => one.material === material && one.to.kind === 'step' && one.to.step === index);
  const bottles = own.flatMap((one) => stockShare(one, input.bottles));
  const fromStep = own.some((one) => one.from.kind === 'step');
  const only = bottles.length === 1 && !fromStep ? input.bottles.get(bottles[0]?.bottle ?? '') : undefined;
  if (!fromStep && bottles.length > 0) return { supply: { kind: 'bottles', bottles }, form: only?.form ?? asked };
  return {
    supply: { kind: 'step', step: input.network.steps[maker]?.id ?? '', bottles },
    form: productForm(input.network, maker, asked),
  };
}

/** The product as the step isolates it, where the charge names no form of its own. */
function productForm(network: Network, maker: number, asked: Form): Form {
  const assay = network.steps[maker]?.productAssayPercent;
  const plain = asked.kind === 'neat' && asked.assayPercent === undefined;
  return plain && assay !== undefined ? { kind: 'neat', assayPercent: assay } : asked;
}

function stockShare(handover: Handover, bottles: ReadonlyMap<string, Bottle>): readonly BottleShare[] {
  if (handover.from.kind !== 'stock') return [];
  const bottle = bottles.get(handover.from.stock.bottle);
  const whole = handover.from.stock.moles.value;
  return bottle && whole > 0 ? [bottleShare(bottle, (bottle.left * handover.moles) / whole)] : [];
}

function bottleShare(bottle: Bottle, amount: number): BottleShare {
  return { bottle: bottle.id, lot: bottle.lot ?? '', place: bottle.place ?? '', amount, unit: bottle.unit };
}

/** Fetch lines of intermediates and products that stand on the shelf and are used. */
export function stockLines(input: SupplyInput): readonly FetchLine[] {
  const used = grouped(
    input.handovers.filter((one) => one.from.kind === 'stock'),
    (one) => (one.from.kind === 'stock' ? one.from.stock.bottle : ''),
  );
  return [...used].flatMap(([id, handovers]): readonly FetchLine[] => {
    const bottle = input.bottles.get(id);
    const first = handovers[0];
    const facts = input.facts.get(first?.material ?? '');
    if (!bottle || !first || !facts) return [];
    const amount = handovers.reduce((sum, one) => sum + (stockShare(one, input.bottles)[0]?.amount ?? 0), 0);
    const of = handovers.flatMap((one) => (one.from.kind === 'stock' ? [one.from.stock.moles] : []));
    const need: Figure<'g' | 'mL'> = computed(`${facts.name} from the shelf`, amount, bottle.unit, 'share of the bottle', of);
    const onHand: Figure<'g' | 'mL'> = computed(`${facts.name} on hand`, bottle.left, bottle.unit, 'amount left', of);
    return [
      {
        id: `${first.material}: ${id}`,
        material: first.material,
        name: facts.name,
        form: bottle.form,
        formWords: formWords(bottle.form),
        unit: bottle.unit,
        need,
        peak: need,
        onHand,
        short: null,
        status: 'enough',
        place: bottle.place ?? '',
        bottles: [bottleShare(bottle, amount)],
        passedOver: [],
        makeUp: null,
        uses: handovers.flatMap((one) => (one.to.kind === 'step' ? usesOf(input.network, one.to.step, first.material) : [])),
      },
    ];
  });
}

function usesOf(network: Network, index: number, material: string): readonly { step: string; operation: string }[] {
  const step = network.steps[index];
  return (step?.operations ?? []).flatMap((operation) =>
    operation.do === 'charge' && operation.material === material ? [{ step: step?.id ?? '', operation: operation.id }] : [],
  );
}
