import { computed, EXACT, type Figure, entered } from '../../quantity/figure.ts';
import type { StepYield } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import type { Network, Use } from '../network/network.ts';
import {
  fixedUse,
  lostIn,
  makes,
  mustMake,
  needOf,
  netUse,
  type RequirementInput,
  scaleOf,
  stocked,
  usedOf,
  usesOf,
  wanted,
} from './needs.ts';
import { chooseStarts, type Solved } from './choose-starts.ts';
import { solveStarts } from './solve.ts';

/** What a step has to start with and what it then makes. */
export interface Requirement {
  readonly active: boolean;
  readonly basisMoles: Figure<'mol'>;
  readonly productMoles: Figure<'mol'>;
  readonly theoryMoles: Figure<'mol'>;
  /** Second products, with what is isolated of them. */
  readonly seconds: readonly { readonly material: string; readonly moles: Figure<'mol'> }[];
}

/**
 * Scales a network backward: for every made material, what is made must cover draws and uses less the stock that
 * may serve them. The numbers, mol of basis by step, come from solveStarts, or from chooseStarts where there is a choice.
 */
export function solved(input: RequirementInput): Solved {
  return hasChoice(input.network) ? chooseStarts(input) : divideStarts(input);
}

/** Whether some material has two makers or some step two wanted products. */
export function hasChoice(network: Network): boolean {
  return [...network.makersOf.values()].some((list) => list.length > 1) || network.products.some((list) => list.length > 1);
}

/** Every material has one maker: a division by yields, loops as small systems. */
function divideStarts(input: RequirementInput): Solved {
  const { network } = input;
  const productOf = (i: number): string => network.products[i]?.[0]?.material ?? '';
  const made = network.steps.map((_, i) => makes(input, i, productOf(i)));
  const perProduct = (i: number, moles: number): number => (moles === 0 ? 0 : moles / (made[i] || Number.POSITIVE_INFINITY));
  const groups = [...network.groups].reverse();
  const place = new Map(groups.flat().map((step, at) => [step, at]));
  const inOrder = ({ step: one }: Use, { step: other }: Use): number => (place.get(one) ?? 0) - (place.get(other) ?? 0);
  const solved = solveStarts({
    count: network.steps.length,
    use: (i, j) => perProduct(i, netUse(network, j, productOf(i))),
    users: (i) =>
      usesOf(network, productOf(i))
        .toSorted(inOrder)
        .map(({ step }) => step),
    need: network.steps.map((_, i) => perProduct(i, needOf(input, productOf(i)))),
    scale: network.steps.map((_, i) => perProduct(i, scaleOf(input, productOf(i)))),
    floor: network.steps.map((_, i) => perProduct(i, Math.max(0, ...mustMake(input, productOf(i)).map((one) => one.moles)))),
    groups,
  });
  if (!solved.ok) {
    const first = network.steps[solved.loop[0] ?? 0];
    const titles = solved.loop.map((i) => network.steps[i]?.title ?? '').join(' → ');
    return {
      ok: false,
      notice: { level: 'error', code: 'impossible loop', values: { steps: titles }, at: first ? { step: first.id } : {} },
    };
  }
  const barren = barrenStep(input, solved.starts, made);
  return barren ? { ok: false, notice: barren } : { ok: true, starts: solved.starts };
}

/** Likeliest value of a step's yield, %. */
export function likeliest(range: StepYield): number {
  return typeof range === 'number' ? range : range.likeliest;
}

/** A step whose yield is zero and whose product is still needed can make nothing of it: named, rather than divided by. */
function barrenStep(input: RequirementInput, starts: readonly number[], made: readonly number[]): Notice | null {
  const step = input.network.steps.find((one, i) => {
    if (made[i] !== 0 || (input.network.products[i] ?? []).length === 0) return false;
    const asked = wanted(input, one.product, 0) + fixedUse(input, one.product) + usedOf(input.network, one.product, starts);
    return asked - stocked(input, one.product, 0) > asked * 1e-12;
  });
  return step ? { level: 'error', code: 'zero yield', values: { step: step.title }, at: { step: step.id } } : null;
}

/** Solved starts as figures that know their factors. @param starts mol of basis by step. */
export function requirementsAt(input: RequirementInput, starts: readonly number[]): readonly Requirement[] {
  const { network } = input;
  const built = new Map<number, Requirement>();
  for (const i of [...network.groups].reverse().flat()) built.set(i, requirementFigures(input, i, starts, built));
  return network.steps.map((_, i) => built.get(i) as Requirement);
}

function requirementFigures(
  input: RequirementInput,
  i: number,
  starts: readonly number[],
  built: ReadonlyMap<number, Requirement>,
): Requirement {
  const step = input.network.steps[i];
  const product = step?.product ?? '';
  const name = input.facts.get(product)?.name ?? product;
  const start = starts[i] ?? 0;
  const toMake = makeFigure(input, i, product, starts, built);
  const yieldFigure = input.yields[i] as Figure<'%'>;
  const ratio = entered(
    `product per mol of basis, ${step?.title ?? ''}`,
    input.network.stoichiometry[i] ?? 1,
    '',
    'the equation',
    EXACT,
  );
  const basisName = input.facts.get(step?.basis ?? '')?.name ?? '';
  const label = `${basisName} to start with`;
  // A step that makes nothing of its product and still runs does so for a second one.
  const basisMoles =
    start > 0 && toMake.value === 0
      ? computed(label, start, 'mol', 'as its other products ask for, at the least cost of all steps together', [
          ...(input.network.products[i] ?? []).slice(1).flatMap((one) => needFigures(input, one.material, starts, built)),
          yieldFigure,
        ])
      : computed(label, start, 'mol', 'product to make ÷ yield ÷ product per mol of basis', [toMake, yieldFigure, ratio]);
  const productMoles = outFigure(input, i, name, start > 0, toMake);
  const theoryMoles = computed(`${name}, theory`, start * ratio.value, 'mol', 'basis × product per mol of basis', [
    basisMoles,
    ratio,
  ]);
  const seconds = (input.network.products[i] ?? []).slice(1).map(({ material }) => ({
    material,
    moles: secondFigure(input, i, material, basisMoles),
  }));
  return { active: start > 0, basisMoles, productMoles, theoryMoles, seconds };
}

/** What comes out of a step: what it makes less what stays behind in each batch, which cannot be more than was made. */
function outFigure(input: RequirementInput, i: number, name: string, active: boolean, made: Figure<'mol'>): Figure<'mol'> {
  const lost = lostFigures(input, i);
  if (lost.length === 0 || !active) return made;
  const value = made.value - lostIn(input, i);
  const how = 'made − what stays behind in each batch';
  return computed(`${name} that comes out`, Math.max(0, value), 'mol', value < 0 ? `${how}: all of it` : how, [made, ...lost]);
}

/** What a step makes of its product: what is asked for, where it alone makes it. */
function makeFigure(
  input: RequirementInput,
  i: number,
  material: string,
  starts: readonly number[],
  built: ReadonlyMap<number, Requirement>,
): Figure<'mol'> {
  const value = (starts[i] ?? 0) * makes(input, i, material);
  const label = `${input.facts.get(material)?.name ?? material} to make`;
  if ((input.network.products[i] ?? []).length === 0) return computed(label, 0, 'mol', 'the step is left out', []);
  const alone = (input.network.makersOf.get(material) ?? []).length < 2 && (input.network.products[i] ?? []).length < 2;
  const lost = lostFigures(input, i);
  const sum = lost.length === 0 ? 'draws + uses − stock' : 'draws + uses + what stays behind in each batch − stock';
  const how = alone ? sum : `its share of ${sum}, at the least cost of all steps together`;
  const must = alone ? mostOf(mustMake(input, material)) : null;
  if (must && value > 0 && must.moles > needOf(input, material) + usedOf(input.network, material, starts)) {
    const pure = 'draws that ask for a purity − stock that has it';
    return computed(label, value, 'mol', lost.length === 0 ? pure : `${pure} + what stays behind in each batch`, [
      ...input.wants.flatMap((one) => (one.material === material && one.leastAssayPercent >= must.leastAssay ? one.moles : [])),
      ...input.stock.flatMap((one) => (one.material === material && one.assayPercent >= must.leastAssay ? one.moles : [])),
      ...lost,
    ]);
  }
  return computed(label, value, 'mol', how, [
    ...needFigures(input, material, starts, built),
    ...input.stock.filter((one) => one.material === material).map((one) => one.moles),
    ...lost,
  ]);
}

function mostOf<T extends { readonly moles: number }>(list: readonly T[]): T | null {
  return list.reduce<T | null>((most, one) => (most === null || one.moles > most.moles ? one : most), null);
}

/** What stays behind in a step's batches, as a figure; none where nothing is entered. */
function lostFigures(input: RequirementInput, i: number): readonly Figure[] {
  const loss = input.network.lost[i] ?? 0;
  if (loss === 0) return [];
  const title = input.network.steps[i]?.title ?? '';
  return [
    computed(`stays behind in ${title}`, lostIn(input, i), 'mol', 'loss per batch × batches', [
      entered('loss per batch', loss, 'mol', 'the step'),
      entered('batches', input.batches[i] ?? 0, '', 'the plan'),
    ]),
  ];
}

function secondFigure(input: RequirementInput, i: number, material: string, basis: Figure<'mol'>): Figure<'mol'> {
  const name = input.facts.get(material)?.name ?? material;
  const made = makes(input, i, material);
  const per = entered(`${name} isolated per mol of basis`, made, '', 'the equation and its yield');
  return computed(`${name} made beside`, basis.value * made, 'mol', 'basis × isolated per mol of basis', [basis, per]);
}

/** Figures of everything that asks for a material: draws, and what the steps use of it. */
function needFigures(
  input: RequirementInput,
  material: string,
  starts: readonly number[],
  built: ReadonlyMap<number, Requirement>,
): readonly Figure[] {
  const draws = input.wants.filter((want) => want.material === material).map((want) => want.moles);
  const uses = usesOf(input.network, material).flatMap(({ step, perMole, perBatch }) => {
    const value = perMole * (starts[step] ?? 0) + perBatch * (input.batches[step] ?? 0);
    if (value === 0) return [];
    const title = input.network.steps[step]?.title ?? '';
    const basis = built.get(step)?.basisMoles;
    const of = [entered(`used per mol of basis, ${title}`, perMole, '', 'the step'), ...(basis ? [basis] : [])];
    return [computed(`used in ${title}`, value, 'mol', basis ? 'per mol × moles of basis' : 'solved together with the loop', of)];
  });
  return [...draws, ...uses];
}
