import { grouped } from '../grouped.ts';
import type { Form } from '../matter/form.ts';
import { SATURATED_CELSIUS } from '../matter/saturated.ts';
import type { FetchLine, LineShare, Status } from '../plan/result.ts';
import type { MakeUp } from '../plan/make-up-result.ts';
import type { Settings } from '../plan/settings.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { askedWords, formWords, saturatedWords } from '../words/form-words.ts';
import { allocate, coverage, type Remaining, type Share } from './allocate.ts';
import { type AsWeighed, asWeighed } from './as-weighed.ts';
import { type Demand, fromBottle, inUnit, lineId } from './demand.ts';
import { makeUpsOf } from './make-ups.ts';
import { inOtherForm, inSolvent, namedAlike, passedOverBottle, statusWithout } from './passed-over.ts';
import { partFromShelf } from './recycled.ts';
import type { Bottle } from './shelf.ts';
import { standing } from './standing.ts';
import { type Stand, standOf } from './stand.ts';

export interface FetchInput {
  readonly demands: readonly Demand[];
  /** Bottles of each material, by the route's key. */
  readonly bottles: ReadonlyMap<string, readonly Bottle[]>;
  /** Bottles of what is called nearly as a material and is another, with its name, by the route's key: never taken, only told. */
  readonly alike: (material: string) => readonly { readonly bottle: Bottle; readonly name: string }[];
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
  const covered = directly(groups, input);
  const direct = [...groups.keys()].flatMap((id) => covered.get(id) ?? []);
  const lacking = direct.flatMap(({ id, demands, stronger, allocation: { missing } }) =>
    missing.some((part) => part > 0)
      ? [{ id, demands, stronger, missing: missing.map((part, at) => part + beyondEstimate(demands[at])) }]
      : [],
  );
  const made = makeUpsOf(lacking, input);
  const returned = new Map([...input.returned].map(([material, back]) => [material, back.value]));
  const lines = direct.map((line) => fetchLine(line, made.get(line.id) ?? null, beyond(line, input), input, returned));
  const madeUp = new Map<string, string>();
  const uncovered = new Map<string, { status: Status; form: Form }>();
  for (const [at, line] of direct.entries()) {
    const makeUp = made.get(line.id);
    for (const [index, demand] of line.demands.entries()) {
      if ((line.allocation.missing[index] ?? 0) === 0) continue;
      const charge = `${demand.step}/${demand.operation}`;
      if (makeUp) madeUp.set(charge, makeUp.id);
      else uncovered.set(charge, { status: lines[at]?.status ?? 'short', form: line.serving[0]?.form ?? demand.form });
    }
  }
  const makeUps = direct.flatMap(({ id }) => made.get(id) ?? []);
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

interface Direct extends Stand {
  readonly id: string;
  /** What is in each serving bottle before this line takes of it, by bottle. */
  readonly before: ReadonlyMap<string, number>;
  readonly demands: readonly Demand[];
  readonly onHand: number;
  readonly allocation: ReturnType<typeof allocate>;
}

/**
 * What each line takes of the bottles as they stand, by line. What asks for the highest purity chooses first: the least
 * can serve it, and what is left is pure enough for the others.
 */
function directly(groups: ReadonlyMap<string, readonly Demand[]>, input: FetchInput): ReadonlyMap<string, Direct> {
  const least = (demands: readonly Demand[]): number => demands[0]?.leastAssayPercent ?? 0;
  const inOrder = [...groups].sort(([, one], [, other]) => least(other) - least(one));
  return new Map(
    inOrder.map(([id, demands]): readonly [string, Direct] => {
      const stand = standOf(demands, input.bottles.get(demands[0]?.material ?? '') ?? [], input);
      const worth = stand.serving.reduce((sum, bottle) => sum + coverage(demands, bottle, input.remaining, input.reference), 0);
      const before = new Map(stand.serving.map(({ id: bottle }) => [bottle, input.remaining.get(bottle) ?? 0]));
      const allocation = allocate(demands, stand.serving, input.remaining, input.reference, input.useFirst);
      return [id, { ...stand, id, demands, before, onHand: worth, allocation }];
    }),
  );
}

/** How much more than its estimate a charge may take of the shelf, as a part of it. */
function beyondEstimate(demand: Demand | undefined): number {
  return demand ? (demand.atMost - 1) * partFromShelf(demand) : 0;
}

/**
 * Of what the bottles cover as it is estimated, the demands that they do not cover at their largest (a charge that goes on
 * until an end point), as the part of it that is missing. What is kept ready for one is not counted for another.
 */
function beyond(line: Direct, input: FetchInput): readonly { readonly demand: Demand; readonly part: number }[] {
  if (line.allocation.missing.some((part) => part > 0) || line.demands.every(({ atMost }) => atMost === 1)) return [];
  const more = line.demands.flatMap((demand): readonly Demand[] => {
    const { by, figure } = demand.governed;
    const governed = { by, figure: { ...figure, value: figure.value * (demand.atMost - 1) } } as Demand['governed'];
    return demand.atMost > 1 ? [{ ...demand, governed }] : [];
  });
  const { missing } = allocate(more, line.serving, input.remaining, input.reference, input.useFirst);
  return more.flatMap((demand, at) => ((missing[at] ?? 0) > 0 ? [{ demand, part: missing[at] ?? 0 }] : []));
}

function fetchLine(
  line: Direct,
  made: MakeUp | null,
  more: ReturnType<typeof beyond>,
  input: FetchInput,
  returned: Map<string, number>,
): FetchLine {
  const first = line.demands[0] as Demand;
  const covered = line.allocation.missing.every((part) => part === 0);
  const bottle = covered ? bottleItIsSaidIn(line, input.reference) : null;
  const form = bottle?.form ?? first.form;
  const unit = bottle?.unit ?? unitOf(line.demands, input.reference);
  const most = (demand: Demand): number => demand.atMost * partFromShelf(demand);
  const peak = total(`${first.facts.name} in hand`, line.demands, form, unit, input.reference, most);
  const net = netNeed(line.demands, form, unit, input, returned);
  const taken = total(`${first.facts.name} from the shelf`, line.demands, form, unit, input.reference, partFromShelf);
  const bottles = sharesByBottle(line, form, unit, input.reference);
  // Where it does not suffice, all of it is taken: what it is worth is what was on hand.
  const worth = covered ? line.onHand * taken.value : bottles.reduce((sum, one) => sum + one.worth, 0);
  const onHand = computed(`${first.facts.name} on hand`, worth, unit, 'usable bottles, corrected for assay and strength', [
    taken,
  ]);
  const missing = covered
    ? more.reduce((sum, { demand, part }) => sum + (fromBottle(demand, form, unit, input.reference) ?? 0) * part, 0)
    : Math.max(0, peak.value - onHand.value);
  const open = made || taken.value === 0 ? 0 : missing / taken.value;
  const { leastAssayPercent } = first;
  const status =
    covered && more.length === 0
      ? 'enough'
      : made
        ? 'make up'
        : statusWithout(open, line.passedOver, line.demands, input.reference);
  const isShort = status !== 'enough' && status !== 'make up';
  // Several assays: what is weighed of them in all, as every other line is said as its bottle is.
  const mixed = covered && !bottle && !isShort && !made ? mixOf(line, form, unit, input.reference) : null;
  const said = (figure: Figure<'g' | 'mL'>): Figure<'g' | 'mL'> => mixed?.figure(figure) ?? figure;
  return {
    id: line.id,
    material: first.material,
    name: first.facts.name,
    form,
    formWords: mixed?.words ?? (bottle ? formWords(form) : wordsOf(line.demands, form, leastAssayPercent)),
    unit,
    need: said(net),
    leastAssayPercent,
    peak: said(peak),
    ...(line.demands.some((demand) => demand.taken(form) > 1) ? { dissolved: true } : {}),
    onHand: said(onHand),
    ...standing(line.serving, line.before, form, unit),
    short: isShort ? computed(`${first.facts.name} short`, missing, unit, 'needed − on hand', [peak, onHand]) : null,
    status,
    place: bottles[0]?.place || (made?.parts[0]?.from.place ?? '') || (line.passedOver[0]?.bottle.place ?? ''),
    bottles: mixed ? bottles.map((one) => ({ ...one, worth: one.amount })) : bottles,
    passedOver: [
      ...line.passedOver.map((one) => passedOverBottle(one, open, line.demands, input.reference)),
      ...(!isShort ? [] : line.otherSolvent.slice(0, MOST_ALIKE).map(inSolvent)),
      ...(!isShort ? [] : line.otherForm.slice(0, MOST_ALIKE).map((one) => inOtherForm(one, form))),
      ...(!isShort ? [] : input.alike(first.material).slice(0, MOST_ALIKE).map(namedAlike)),
    ],
    others: othersOf(line, made, input.remaining),
    makeUp: made?.id ?? null,
    uses: line.demands.map((demand) => ({
      step: demand.step,
      operation: demand.operation,
      amount: times(inUnit(demand, form, unit, input.reference), mixed?.factor(demand.step, demand.operation) ?? 1),
    })),
  };
}

function wordsOf(demands: readonly Demand[], form: Form, leastAssayPercent: number): string {
  const words = askedWords(form, leastAssayPercent);
  return demands.some((demand) => demand.saturated) ? saturatedWords(words, SATURATED_CELSIUS) : words;
}

function times(amount: number | null, factor: number): number | null {
  return amount === null ? null : amount * factor;
}

function mixOf(line: Direct, form: Form, unit: 'g' | 'mL', reference: Reference): AsWeighed | null {
  const asking = new Map(line.demands.map((demand) => [`${demand.step}/${demand.operation}`, demand]));
  return asWeighed(line.allocation.shares, unit, ({ bottle, amount, step, operation }) => {
    const demand = asking.get(`${step}/${operation}`);
    const whole = demand ? fromBottle(demand, bottle.form, bottle.unit, reference) : null;
    const asked = demand ? fromBottle(demand, form, unit, reference) : null;
    return whole === null || whole === 0 || asked === null ? null : (amount / whole) * asked;
  });
}

/**
 * The bottle in terms of which a covered line is said, so that the need is what is weighed: one that is taken, where all that
 * are taken are alike. Null where several assays or strengths are taken: then the line is said as it is asked for.
 */
function bottleItIsSaidIn({ demands, serving, allocation }: Direct, reference: Reference): Bottle | null {
  const converts = (form: Form, unit: 'g' | 'mL'): boolean =>
    demands.every((demand) => inUnit(demand, form, unit, reference) !== null);
  const taken = [...new Set(allocation.shares.map(({ bottle }) => bottle))];
  const fitting = (taken.length > 0 ? taken : serving).find(({ form, unit }) => converts(form, unit));
  const asked = demands[0]?.form;
  const several = new Set(taken.map(({ form }) => formWords(form))).size > 1;
  return several && asked && converts(asked, unitOf(demands, reference)) ? null : (fitting ?? null);
}

/** So many bottles of something called alike, or in another solvent, are told. */
const MOST_ALIKE = 3;

function othersOf({ serving, stronger, allocation }: Direct, made: MakeUp | null, remaining: Remaining): readonly string[] {
  const taken = new Set([...allocation.shares.map((one) => one.bottle.id), ...(made?.parts ?? []).map((one) => one.from.bottle)]);
  return [...serving, ...stronger].flatMap(({ id }) => (taken.has(id) || (remaining.get(id) ?? 0) <= 0 ? [] : [id]));
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
  amount: typeof inUnit = fromBottle,
): Figure<'g' | 'mL'> {
  const sum = demands.reduce((total, demand) => total + (amount(demand, form, unit, reference) ?? 0) * part(demand), 0);
  return computed(
    label,
    sum,
    unit,
    'sum over charges',
    demands.map((demand) => demand.governed.figure),
  );
}

/**
 * What is used up in the end: what goes in, less what comes back from this or another step. What comes back counts once,
 * and what stays in a stock solution not at all.
 */
function netNeed(
  demands: readonly Demand[],
  form: Form,
  unit: 'g' | 'mL',
  input: FetchInput,
  returned: Map<string, number>,
): Figure<'g' | 'mL'> {
  const first = demands[0] as Demand;
  const used = (demand: Demand): number => 1 - demand.returns;
  const net = total(`${first.facts.name} needed`, demands, form, unit, input.reference, used, inUnit);
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
    const whole = demand ? fromBottle(demand, bottle.form, bottle.unit, reference) : null;
    const wanted = demand ? fromBottle(demand, form, unit, reference) : null;
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
