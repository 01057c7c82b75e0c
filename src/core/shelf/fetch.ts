import { grouped } from '../grouped.ts';
import { natureOf } from '../bench/nature.ts';
import { type Form, solventOf } from '../matter/form.ts';
import type { FetchLine, LineShare, MakeUp, Status } from '../plan/result.ts';
import type { Settings } from '../plan/settings.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { formWords } from '../words/form-words.ts';
import { allocate, coverage, type Remaining, type Share } from './allocate.ts';
import { type Demand, inUnit } from './demand.ts';
import { makeUp } from './make-up.ts';
import { serviceOf } from './serve.ts';
import type { Bottle } from './shelf.ts';
import { assayPercent, byExpiry, type PassedOver, whyNotUsable } from './usable.ts';

export interface FetchInput {
  readonly demands: readonly Demand[];
  /** Bottles of each material, by the route's key. */
  readonly bottles: ReadonlyMap<string, readonly Bottle[]>;
  readonly remaining: Remaining;
  /** Moles that come back from another step, by material: net need is that much less. */
  readonly returned: ReadonlyMap<string, Figure<'mol'>>;
  readonly asOf: string;
  readonly heldBack: ReadonlySet<string>;
  /** Bottles chosen by hand, to be used before any other. */
  readonly useFirst: ReadonlySet<string>;
  readonly settings: Settings;
  readonly reference: Reference;
}

export interface Fetched {
  readonly lines: readonly FetchLine[];
  readonly makeUps: readonly MakeUp[];
  readonly shares: readonly Share[];
  /** "step/operation" of charges that a make-up supplies, with its id. */
  readonly madeUp: ReadonlyMap<string, string>;
  /** "step/operation" of charges that are not covered, with the word for it, and the form it would be taken in. */
  readonly uncovered: ReadonlyMap<string, { readonly status: Status; readonly form: Form }>;
}

/** Everything a plan needs from the shelf: what covers it, what can be made up, what is short and why. */
export function fetchLines(input: FetchInput): Fetched {
  const groups = grouped(
    input.demands.filter((demand) => countable(demand, input)),
    lineId,
  );
  // What is used as it stands comes first everywhere; only then is a stronger bottle thinned with what is left of it.
  const direct = [...groups].map(([id, demands]) => directly(id, demands, input));
  const returned = new Map([...input.returned].map(([material, back]) => [material, back.value]));
  const lines: FetchLine[] = [];
  const makeUps: MakeUp[] = [];
  const madeUp = new Map<string, string>();
  const uncovered = new Map<string, { status: Status; form: Form }>();
  for (const line of direct) {
    const missing = line.allocation.missing.some((part) => part > 0);
    const made = missing
      ? makeUp(line.demands, line.allocation.missing, line.stronger, input.remaining, input.reference, input.settings)
      : null;
    const fetched = fetchLine(line, made, input, returned);
    lines.push(fetched);
    if (made) makeUps.push(made);
    line.demands.forEach((demand, index) => {
      if ((line.allocation.missing[index] ?? 0) === 0) return;
      const charge = `${demand.step}/${demand.operation}`;
      if (made) madeUp.set(charge, made.id);
      else uncovered.set(charge, { status: fetched.status, form: line.serving[0]?.form ?? demand.form });
    });
  }
  return { lines, makeUps, madeUp, uncovered, shares: direct.flatMap((line) => line.allocation.shares) };
}

/**
 * Whether a demand can be counted at all: in grams or millilitres of what is asked for, or of a bottle there is. What
 * cannot has its notice at the charge; a line of "0 g" would be wrong.
 */
function countable(demand: Demand, input: FetchInput): boolean {
  const forms = [demand.form, ...(input.bottles.get(demand.material) ?? []).map((bottle) => bottle.form)];
  return forms.some(
    (form) => inUnit(demand, form, 'g', input.reference) !== null || inUnit(demand, form, 'mL', input.reference) !== null,
  );
}

interface Direct {
  readonly id: string;
  readonly demands: readonly Demand[];
  readonly serving: readonly Bottle[];
  readonly stronger: readonly Bottle[];
  readonly passedOver: readonly { readonly bottle: Bottle; readonly why: PassedOver }[];
  readonly onHand: number;
  readonly allocation: ReturnType<typeof allocate>;
}

function directly(id: string, demands: readonly Demand[], input: FetchInput): Direct {
  const first = demands[0] as Demand;
  const all = [...(input.bottles.get(first.material) ?? [])].sort(byExpiry);
  const leastAssay = demands.reduce((most, demand) => Math.max(most, demand.leastAssayPercent), 0);
  const passedOver: { bottle: Bottle; why: PassedOver }[] = [];
  const fit: { bottle: Bottle; service: 'serves' | 'stronger' }[] = [];
  for (const bottle of all) {
    const why = whyNotUsable(bottle, input.asOf, input.heldBack);
    const service =
      why === 'unknown strength'
        ? 'no'
        : serviceOf(bottle, first.form, first.facts, input.settings.strengthMatchPercent, input.reference);
    if (why === 'unknown strength' && first.form.kind !== 'neat') passedOver.push({ bottle, why });
    if (service === 'no') continue;
    if (why) passedOver.push({ bottle, why });
    else if (bottle.form.kind === 'neat' && assayPercent(bottle) < leastAssay) passedOver.push({ bottle, why: 'assay too low' });
    else fit.push({ bottle, service });
  }
  const serving = fit.filter((one) => one.service === 'serves').map((one) => one.bottle);
  const stronger = thinnable(first, input.reference)
    ? fit.filter((one) => one.service === 'stronger').map((one) => one.bottle)
    : [];
  const onHand = serving.reduce((sum, bottle) => sum + coverage(demands, bottle, input.remaining, input.reference), 0);
  return {
    id,
    demands,
    serving,
    stronger,
    passedOver,
    onHand,
    allocation: allocate(demands, serving, input.remaining, input.reference, input.useFirst),
  };
}

/** Whether a make-up may be proposed: in water only, and never of what water reacts with. */
function thinnable(demand: Demand, reference: Reference): boolean {
  if (demand.form.kind !== 'solution' || solventOf(demand.form) !== 'water') return false;
  return !natureOf(demand.facts, reference).groups.includes('water-reactive');
}

function fetchLine(line: Direct, made: MakeUp | null, input: FetchInput, returned: Map<string, number>): FetchLine {
  const first = line.demands[0] as Demand;
  // Said in terms of the bottle that serves, so that the need is what is weighed; else of what is asked for.
  const bottle = line.serving.find((one) =>
    line.demands.every((demand) => inUnit(demand, one.form, one.unit, input.reference) !== null),
  );
  const covered = line.allocation.missing.every((part) => part === 0);
  const form = (covered ? bottle?.form : undefined) ?? first.form;
  const unit = (covered ? bottle?.unit : undefined) ?? unitOf(line.demands, input.reference);
  const peak = total(`${first.facts.name} in hand`, line.demands, form, unit, input.reference, (demand) => demand.atMost);
  const net = netNeed(line.demands, form, unit, input, returned);
  const gross = total(`${first.facts.name} charged`, line.demands, form, unit, input.reference, () => 1);
  const onHand = computed(
    `${first.facts.name} on hand`,
    line.onHand * gross.value,
    unit,
    'usable bottles, corrected for assay and strength',
    [gross],
  );
  const missing = peak.value - onHand.value;
  const bottles = sharesByBottle(line, form, unit, input.reference);
  const status = statusOf(line, made, input);
  const isShort = status !== 'enough' && status !== 'make up';
  return {
    id: line.id,
    material: first.material,
    name: first.facts.name,
    form,
    formWords: formWords(form),
    unit,
    need: net,
    leastAssayPercent: line.demands.reduce((most, demand) => Math.max(most, demand.leastAssayPercent), 0),
    peak,
    onHand,
    short: isShort ? computed(`${first.facts.name} short`, Math.max(0, missing), unit, 'needed − on hand', [peak, onHand]) : null,
    status,
    place: bottles[0]?.place || (made?.parts[0]?.from.place ?? '') || (line.passedOver[0]?.bottle.place ?? ''),
    bottles,
    passedOver: line.passedOver.map(({ bottle, why }) => ({ bottle: bottle.id, lot: bottle.lot ?? '', why })),
    makeUp: made?.id ?? null,
    uses: line.demands.map((demand) => ({
      step: demand.step,
      operation: demand.operation,
      amount: inUnit(demand, form, unit, input.reference),
    })),
  };
}

function statusOf(line: Direct, made: MakeUp | null, input: FetchInput): Status {
  if (line.allocation.missing.every((part) => part === 0)) return 'enough';
  if (made) return 'make up';
  const full = new Map(line.passedOver.map(({ bottle }) => [bottle.id, bottle.left]));
  const expired = line.passedOver.filter(({ why }) => why === 'out of date');
  const would = expired.reduce((sum, { bottle }) => sum + coverage(line.demands, bottle, full, input.reference), line.onHand);
  if (expired.length > 0 && would >= 1 - 1e-9) return 'out of date';
  return line.passedOver.some(({ why }) => why === 'unknown strength') ? 'unknown strength' : 'short';
}

/** A fetch line stands for one material in one form. */
export function lineId(demand: Pick<Demand, 'material' | 'form' | 'leastAssayPercent'>): string {
  const least = demand.leastAssayPercent > 0 ? `, at least ${demand.leastAssayPercent} %` : '';
  return `${demand.material}: ${formWords(demand.form)}${least}`;
}

function unitOf(demands: readonly Demand[], reference: Reference): 'g' | 'mL' {
  const inAll = (unit: 'g' | 'mL'): boolean => demands.every((demand) => inUnit(demand, demand.form, unit, reference) !== null);
  const byVolume = demands.every((demand) => demand.liquid) && inAll('mL');
  return byVolume || !inAll('g') ? 'mL' : 'g';
}

function total(
  label: string,
  demands: readonly Demand[],
  form: Form,
  unit: 'g' | 'mL',
  reference: Reference,
  part: (demand: Demand) => number,
): Figure<'g' | 'mL'> {
  const sum = demands.reduce((total, demand) => total + (inUnit(demand, form, unit, reference) ?? 0) * part(demand), 0);
  return computed(
    label,
    sum,
    unit,
    'sum over charges',
    demands.map((demand) => demand.governed.figure),
  );
}

/** What is used up in the end: charges less what comes back from this or another step. What comes back counts once. */
function netNeed(
  demands: readonly Demand[],
  form: Form,
  unit: 'g' | 'mL',
  input: FetchInput,
  returned: Map<string, number>,
): Figure<'g' | 'mL'> {
  const first = demands[0] as Demand;
  const net = total(`${first.facts.name} needed`, demands, form, unit, input.reference, (demand) => 1 - demand.returns);
  const back = input.returned.get(first.material);
  const left = returned.get(first.material) ?? 0;
  if (!back || left <= 0) return net;
  const perMole = inUnit({ ...first, governed: { by: 'mol', figure: { ...back, value: 1 } } }, form, unit, input.reference) ?? 0;
  if (perMole === 0) return net;
  const taken = Math.min(net.value, left * perMole);
  returned.set(first.material, left - taken / perMole);
  return computed(net.label, net.value - taken, unit, 'charges − what comes back', [net, back]);
}

/** What all charges of a line take of each bottle, and what that is worth in the line's form and unit. */
function sharesByBottle(line: Direct, form: Form, unit: 'g' | 'mL', reference: Reference): readonly LineShare[] {
  const asking = new Map(line.demands.map((demand) => [`${demand.step}/${demand.operation}`, demand]));
  const sums = new Map<string, LineShare>();
  for (const { bottle, amount, step, operation } of line.allocation.shares) {
    const before = sums.get(bottle.id);
    const demand = asking.get(`${step}/${operation}`);
    const whole = demand ? inUnit(demand, bottle.form, bottle.unit, reference) : null;
    const wanted = demand ? inUnit(demand, form, unit, reference) : null;
    sums.set(bottle.id, {
      bottle: bottle.id,
      lot: bottle.lot ?? '',
      place: bottle.place ?? '',
      amount: (before?.amount ?? 0) + amount,
      unit: bottle.unit,
      worth: (before?.worth ?? 0) + (whole === null || whole === 0 || wanted === null ? 0 : (amount / whole) * wanted),
    });
  }
  return [...sums.values()];
}
