import { grouped } from '../../grouped.ts';
import type { Facts } from '../../matter/facts.ts';
import { type Form, NEAT, neatFraction } from '../../matter/form.ts';
import { isOfSaturatedStrength } from '../../matter/saturated.ts';
import { computed, type Figure } from '../../quantity/figure.ts';
import type { Demand } from '../../shelf/demand.ts';
import type { Fetched } from '../../shelf/fetch.ts';
import type { Share } from '../../shelf/allocate.ts';
import { partFromShelf, returnsOf } from '../../shelf/recycled.ts';
import type { Bottle } from '../../shelf/shelf.ts';
import { formWords } from '../../words/form-words.ts';
import type { Reference } from '../../reference.ts';
import type { Charge, Step } from '../../route/route.ts';
import type { Network } from '../network/network.ts';
import type { BottleShare, FetchLine, LineUse, Supply } from '../result.ts';
import type { ChargeRun } from '../step/run-step.ts';
import type { Handover } from '../solve/share-out.ts';

/**
 * What a step asks of the shelf: every charge of a bought material; taps and intermediates need no bottle here.
 * @param batches equal batches of the step, one after the other: what comes back of one goes into the next.
 * @param taken as a demand has it; without it what goes in is all that is taken.
 */
export function demandsOf(
  network: Network,
  index: number,
  runs: readonly ChargeRun[],
  facts: ReadonlyMap<string, Facts>,
  batches: number,
  reference: Reference,
  taken: (run: ChargeRun, form: Form) => number = () => 1,
): readonly Demand[] {
  const step = network.steps[index];
  return runs.flatMap((run): readonly Demand[] => {
    const { material, id, leastAssayPercent } = run.charge;
    const one = facts.get(material);
    if (!step || !one || one.utility || network.makersOf.has(material) || !run.governed) return [];
    return [
      {
        step: step.id,
        operation: id,
        material,
        facts: one,
        form: run.form,
        governed: run.governed,
        returns: returnsOf(step, material),
        batches,
        atMost: run.charge.rule.kind === 'until' ? run.charge.rule.atMost : 1,
        leastAssayPercent: leastAssayPercent ?? 0,
        liquid: run.liquid,
        taken: (form) => taken(run, form),
        saturated: isOfSaturatedStrength(run.charge, one, reference),
      },
    ];
  });
}

export interface SupplyInput {
  readonly network: Network;
  readonly fetched: Fetched;
  readonly handovers: readonly Handover[];
  /** What each active step charges. */
  readonly runs: ReadonlyMap<number, readonly ChargeRun[]>;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly bottles: ReadonlyMap<string, Bottle>;
  /** Batches of each step. */
  readonly batches: readonly number[];
}

/** Where a charge comes from, and what is taken of it. */
export interface Supplied {
  readonly supply: Supply;
  /** The form of what is taken: the bottle's own assay or strength where one is used. */
  readonly form: Form;
  /** As supplied, where it comes from lots of different form, or from stock and a step: the sum of what is taken. */
  readonly taken: { readonly amount: number; readonly unit: 'g' | 'mL' } | null;
  /** Part of what a batch charges that comes back of it and goes into the next, 0 … 1; 0 for a single batch. */
  readonly returns: number;
}

/** Where each charge of a plan comes from, by step and by the charge's operation id. */
export function supplies(input: SupplyInput): readonly ReadonlyMap<string, Supplied>[] {
  const shares = grouped(input.fetched.shares, (share) => `${share.step}/${share.operation}`);
  const handovers = grouped(input.handovers, (one) => one.material);
  const supplied = (step: Step, index: number, charge: Charge): Supplied => {
    const asked = charge.form ?? NEAT;
    if (input.facts.get(charge.material)?.utility) {
      return { supply: { kind: 'utility' }, form: asked, taken: null, returns: 0 };
    }
    if (input.network.makersOf.has(charge.material)) {
      // Only what is handed over of this material matters.
      const own = { ...input, handovers: handovers.get(charge.material) ?? [] };
      return { ...madeSupply(own, index, charge, asked), returns: 0 };
    }
    return boughtSupply(input, index, charge, shares.get(`${step.id}/${charge.id}`) ?? []);
  };
  return input.network.steps.map(
    (step, i) => new Map(step.operations.flatMap((one) => (one.do === 'charge' ? [[one.id, supplied(step, i, one)]] : []))),
  );
}

/** What is bought: from the bottles it is allocated, a make-up, or short. */
function boughtSupply(input: SupplyInput, index: number, charge: Charge, own: readonly Share[]): Supplied {
  const step = input.network.steps[index];
  const key = `${step?.id ?? ''}/${charge.id}`;
  const asked = charge.form ?? NEAT;
  const batches = input.batches[index] ?? 1;
  const returns = batches > 1 ? returnsOf(step, charge.material) : 0;
  const bottles = own.map((share) => bottleShare(share.bottle, share.amount));
  const madeUp = input.fetched.madeUp.get(key);
  if (madeUp !== undefined) return { supply: { kind: 'make up', makeUp: madeUp, bottles }, form: asked, taken: null, returns };
  const uncovered = input.fetched.uncovered.get(key);
  const form = own[0]?.bottle.form ?? uncovered?.form ?? asked;
  if (uncovered) return { supply: { kind: 'short', status: uncovered.status, bottles }, form, taken: null, returns };
  const alike = own.every((share) => formWords(share.bottle.form) === formWords(form));
  const goesIn = own.map((share) => ({ amount: share.goesIn, unit: share.bottle.unit }));
  const taken = alike ? null : sumOf(goesIn, partFromShelf({ returns, batches }));
  return { supply: { kind: 'bottles', bottles }, form, taken, returns };
}

/**
 * The sum of shares in one unit; null where the bottles are counted in different ones.
 * @param part which part of the charge they are: what comes back of one batch for the next is as strong as they are together.
 */
function sumOf(shares: readonly Pick<BottleShare, 'amount' | 'unit'>[], part = 1): Supplied['taken'] {
  const unit = shares[0]?.unit;
  if (unit === undefined || shares.some((share) => share.unit !== unit)) return null;
  return { amount: shares.reduce((sum, share) => sum + share.amount, 0) / part, unit };
}

/** An intermediate: from the step that makes it, from stock, or both; this charge's part of what the step is handed. */
function madeSupply(input: SupplyInput, index: number, { id, material }: Charge, asked: Form): Omit<Supplied, 'returns'> {
  const own = input.handovers.filter((one) => one.material === material && one.to.kind === 'step' && one.to.step === index);
  const part = partOf(input, index, material, id);
  const bottles = own.flatMap((one) => stockShare(one, input.bottles, part));
  const made = own.reduce((sum, one) => (one.from.kind === 'step' ? sum + one.moles * part : sum), 0);
  const forms = bottles.flatMap((share) => input.bottles.get(share.bottle)?.form ?? []);
  if (made === 0 && bottles.length > 0) {
    const form = forms[0] ?? asked;
    const alike = forms.every((one) => formWords(one) === formWords(form));
    return { supply: { kind: 'bottles', bottles }, form, taken: alike ? null : sumOf(bottles) };
  }
  const facts = input.facts.get(material);
  const supply: Supply = {
    kind: 'step',
    step: input.network.steps[makerOf(input, own, material)]?.id ?? '',
    madeMoles: made,
    wholeDish: takesWholeDish(input, own, index, material),
    bottles,
  };
  const stock = sumOf(bottles);
  if (!stock || stock.unit !== 'g' || !facts?.molarMass) return { supply, form: asked, taken: null };
  const assay = asked.kind === 'neat' ? (neatFraction(asked) ?? 1) : 1;
  return { supply, form: asked, taken: { amount: stock.amount + (made * facts.molarMass.value) / assay, unit: 'g' } };
}

/** Which part of a material that a step is handed goes to one of its charges, by moles; equal parts where those are unknown. */
function partOf(input: SupplyInput, index: number, material: string, id: string): number {
  const charges = (input.runs.get(index) ?? []).filter((run) => run.charge.material === material);
  const moles = charges.map((run) => (run.amount?.moles.ok ? run.amount.moles.figure.value : Number.NaN));
  const whole = moles.reduce((sum, one) => sum + one, 0);
  const at = charges.findIndex((run) => run.charge.id === id);
  return whole > 0 ? (moles[at] ?? 0) / whole : 1 / Math.max(1, charges.length);
}

/** The step most of it comes from; the first that could make it where none is run. */
function makerOf(input: SupplyInput, own: readonly Handover[], material: string): number {
  const made = own.flatMap((one) => (one.from.kind === 'step' ? [{ step: one.from.step, moles: one.moles }] : []));
  const most = made.sort((a, b) => b.moles - a.moles)[0];
  return most?.step ?? input.network.makersOf.get(material)?.[0] ?? -1;
}

/** Whether all that one step makes of a material goes into one charge of this step: nobody else takes of it. */
function takesWholeDish(input: SupplyInput, own: readonly Handover[], index: number, material: string): boolean {
  const charges = input.network.steps[index]?.operations.filter((one) => one.do === 'charge' && one.material === material) ?? [];
  const makers = new Set(own.flatMap((one) => (one.from.kind === 'step' ? [one.from.step] : [])));
  return (
    charges.length === 1 &&
    makers.size === 1 &&
    input.handovers.every(
      ({ material: other, from, to }) => other !== material || from.kind !== 'step' || (to.kind === 'step' && to.step === index),
    )
  );
}

function stockShare(handover: Handover, bottles: ReadonlyMap<string, Bottle>, part = 1): readonly BottleShare[] {
  if (handover.from.kind !== 'stock') return [];
  const bottle = bottles.get(handover.from.stock.bottle);
  const whole = handover.from.stock.moles.value;
  return bottle && whole > 0 ? [bottleShare(bottle, (bottle.left * handover.moles * part) / whole)] : [];
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
        bottles: [{ ...bottleShare(bottle, amount), worth: amount }],
        passedOver: [],
        others: [],
        makeUp: null,
        uses: handovers.flatMap((one) => (one.to.kind === 'step' ? usesOf(input, one, one.to.step) : [])),
      },
    ];
  });
}

/** The charges of a step that a bottle of an intermediate goes to. */
function usesOf(input: SupplyInput, handover: Handover, index: number): readonly LineUse[] {
  const { material } = handover;
  const step = input.network.steps[index];
  return (step?.operations ?? []).flatMap((operation): readonly LineUse[] => {
    if (!step || operation.do !== 'charge' || operation.material !== material) return [];
    const [share] = stockShare(handover, input.bottles, partOf(input, index, material, operation.id));
    return [{ step: step.id, operation: operation.id, amount: share?.amount ?? null }];
  });
}
