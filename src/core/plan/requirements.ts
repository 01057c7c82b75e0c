import type { Facts } from '../matter/facts.ts';
import { computed, EXACT, type Figure, entered } from '../quantity/figure.ts';
import type { StepYield } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import type { Network } from './network.ts';
import { solveStarts } from './solve.ts';

/** One wanted amount of a made material, with the least assay that will do. */
export interface Want {
  readonly material: string;
  readonly moles: Figure<'mol'>;
  readonly leastAssayPercent: number;
}

/** Usable stock of a made material in one bottle. */
export interface Stock {
  readonly material: string;
  readonly bottle: string;
  readonly moles: Figure<'mol'>;
  readonly assayPercent: number;
}

export interface RequirementInput {
  readonly network: Network;
  readonly facts: ReadonlyMap<string, Facts>;
  /** Likeliest yield of each step, as a figure in %. */
  readonly yields: readonly Figure<'%'>[];
  readonly wants: readonly Want[];
  readonly stock: readonly Stock[];
  /** Batches of each step, for what is charged once a batch. */
  readonly batches: readonly number[];
}

/** What a step has to start with and what it then makes. */
export interface Requirement {
  readonly active: boolean;
  readonly basisMoles: Figure<'mol'>;
  readonly productMoles: Figure<'mol'>;
  readonly theoryMoles: Figure<'mol'>;
}

export type Requirements =
  | { readonly ok: true; readonly steps: readonly Requirement[] }
  | { readonly ok: false; readonly notice: Notice };

/**
 * Scales a network backward: for every made material, what is made must cover draws and uses less the stock that
 * may serve them. The numbers come from solveStarts; here they become figures that know their factors.
 */
export function requirements(input: RequirementInput): Requirements {
  const { network, yields } = input;
  const count = network.steps.length;
  const made = yields.map((figure, i) => (figure.value / 100) * (network.stoichiometry[i] ?? 1));
  const productOf = (i: number): string => network.steps[i]?.product ?? '';
  const perProduct = (i: number, moles: number): number => (moles === 0 ? 0 : moles / (made[i] || Number.POSITIVE_INFINITY));
  const solved = solveStarts({
    count,
    use: (i, j) => perProduct(i, netUse(network, j, productOf(i))),
    need: network.steps.map((step, i) =>
      perProduct(
        i,
        wanted(input, step.product, 0) + fixedUse(input, step.product) + lostIn(input, i) - stocked(input, step.product, 0),
      ),
    ),
    scale: network.steps.map((step, i) =>
      perProduct(
        i,
        wanted(input, step.product, 0) + fixedUse(input, step.product) + lostIn(input, i) + stocked(input, step.product, 0),
      ),
    ),
    floor: network.steps.map((step, i) => perProduct(i, assayFloor(input, step.product) + lostIn(input, i))),
    groups: [...network.groups].reverse(),
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
  return barren ? { ok: false, notice: barren } : { ok: true, steps: figures(input, solved.starts, made) };
}

/** Likeliest value of a step's yield, %. */
export function likeliest(range: StepYield): number {
  return typeof range === 'number' ? range : range.likeliest;
}

/** Mol of a made material step j takes for good, per mol of its basis: charged less what comes back. */
export function netUse(network: Network, j: number, material: string): number {
  return Math.max(0, (network.charged[j]?.get(material) ?? 0) - (network.recovered[j]?.get(material) ?? 0));
}

function wanted(input: RequirementInput, material: string, leastAssay: number): number {
  return input.wants.reduce(
    (sum, want) => (want.material === material && want.leastAssayPercent >= leastAssay ? sum + want.moles.value : sum),
    0,
  );
}

function stocked(input: RequirementInput, material: string, leastAssay: number): number {
  return input.stock.reduce(
    (sum, one) => (one.material === material && one.assayPercent >= leastAssay ? sum + one.moles.value : sum),
    0,
  );
}

function fixedUse(input: RequirementInput, material: string): number {
  return input.network.fixed.reduce((sum, fixed, j) => sum + (fixed.get(material) ?? 0) * (input.batches[j] ?? 0), 0);
}

/** Product of step i that stays behind over all its batches, mol. */
export function lostIn({ network, batches }: Pick<RequirementInput, 'network' | 'batches'>, i: number): number {
  return (network.lost[i] ?? 0) * (batches[i] ?? 0);
}

/** Draws that ask for a purity can only be met from stock that has it: what is short at any purity must be made. */
function assayFloor(input: RequirementInput, material: string): number {
  const purities = input.wants
    .filter((want) => want.material === material && want.leastAssayPercent > 0)
    .map((want) => want.leastAssayPercent);
  return purities.reduce((most, purity) => Math.max(most, wanted(input, material, purity) - stocked(input, material, purity)), 0);
}

/** A step whose yield is zero and whose product is still needed can make nothing of it: named, rather than divided by. */
function barrenStep(input: RequirementInput, starts: readonly number[], made: readonly number[]): Notice | null {
  const step = input.network.steps.find((one, i) => {
    if (made[i] !== 0) return false;
    const used = starts.reduce((sum, start, j) => sum + netUse(input.network, j, one.product) * start, 0);
    const asked = wanted(input, one.product, 0) + fixedUse(input, one.product) + used;
    return asked - stocked(input, one.product, 0) > asked * 1e-12;
  });
  return step ? { level: 'error', code: 'zero yield', values: { step: step.title }, at: { step: step.id } } : null;
}

function figures(input: RequirementInput, starts: readonly number[], made: readonly number[]): readonly Requirement[] {
  const { network } = input;
  const built = new Map<number, Requirement>();
  for (const i of [...network.groups].reverse().flat()) built.set(i, requirementFigures(input, i, starts, made, built));
  return network.steps.map((_, i) => built.get(i) as Requirement);
}

function requirementFigures(
  input: RequirementInput,
  i: number,
  starts: readonly number[],
  made: readonly number[],
  built: ReadonlyMap<number, Requirement>,
): Requirement {
  const step = input.network.steps[i];
  const product = step?.product ?? '';
  const name = input.facts.get(product)?.name ?? product;
  const start = starts[i] ?? 0;
  const factors = [
    ...needFigures(input, product, starts, built),
    ...input.stock.filter((one) => one.material === product).map((one) => one.moles),
  ];
  const lost = lostFigures(input, i);
  const gross = start * (made[i] ?? 0);
  const how = lost.length === 0 ? 'draws + uses − stock' : 'draws + uses + what stays behind in each batch − stock';
  const toMake = computed(`${name} to make`, gross, 'mol', how, [...factors, ...lost]);
  const yieldFigure = input.yields[i] as Figure<'%'>;
  const ratio = entered(
    `product per mol of basis, ${step?.title ?? ''}`,
    input.network.stoichiometry[i] ?? 1,
    '',
    'the equation',
    EXACT,
  );
  const basisName = input.facts.get(step?.basis ?? '')?.name ?? '';
  const basisMoles = computed(`${basisName} to start with`, start, 'mol', 'product to make ÷ yield ÷ product per mol of basis', [
    toMake,
    yieldFigure,
    ratio,
  ]);
  const theoryMoles = computed(`${name}, theory`, start * ratio.value, 'mol', 'basis × product per mol of basis', [
    basisMoles,
    ratio,
  ]);
  const productMoles =
    lost.length === 0 || start === 0
      ? toMake
      : computed(`${name} that comes out`, gross - lostIn(input, i), 'mol', 'made − what stays behind in each batch', [
          toMake,
          ...lost,
        ]);
  return { active: start > 0, basisMoles, productMoles, theoryMoles };
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

/** Figures of everything that asks for a material: draws, and what the steps use of it. */
function needFigures(
  input: RequirementInput,
  material: string,
  starts: readonly number[],
  built: ReadonlyMap<number, Requirement>,
): readonly Figure[] {
  const draws = input.wants.filter((want) => want.material === material).map((want) => want.moles);
  const uses = input.network.steps.flatMap((step, j) => {
    const perMole = netUse(input.network, j, material);
    const fixed = (input.network.fixed[j]?.get(material) ?? 0) * (input.batches[j] ?? 0);
    const value = perMole * (starts[j] ?? 0) + fixed;
    if (value === 0) return [];
    const basis = built.get(j)?.basisMoles;
    const of = [entered(`used per mol of basis, ${step.title}`, perMole, '', 'the step'), ...(basis ? [basis] : [])];
    return [
      computed(`used in ${step.title}`, value, 'mol', basis ? 'per mol × moles of basis' : 'solved together with the loop', of),
    ];
  });
  return [...draws, ...uses];
}
