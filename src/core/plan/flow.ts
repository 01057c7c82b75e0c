import type { Facts } from '../matter/facts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Ask } from './ask.ts';
import type { Network } from './network/network.ts';
import type { Requirement } from './solve/requirements.ts';
import type { Handover } from './solve/share-out.ts';

/** What the cascade draws: who hands how much of what to whom. */
export interface Flow {
  readonly bands: readonly Band[];
  /** Path stoichiometry of each made or basis material: mol ÷ this is comparable along the way to the target. */
  readonly pathStoichiometry: Readonly<Record<string, number>>;
}

export type FlowEnd =
  | { readonly kind: 'bought'; readonly material: string }
  | { readonly kind: 'stock'; readonly material: string }
  | { readonly kind: 'step'; readonly step: string }
  | { readonly kind: 'draw'; readonly draw: string }
  | { readonly kind: 'left over'; readonly material: string };

export interface Band {
  readonly from: FlowEnd;
  readonly to: FlowEnd;
  readonly material: string;
  readonly moles: Figure<'mol'>;
  readonly grams: Figure<'g'>;
  /** True where the band returns to a step that comes earlier in working order. */
  readonly recycle: boolean;
}

export interface FlowInput {
  readonly network: Network;
  readonly ask: Ask;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly requirements: readonly Requirement[];
  readonly handovers: readonly Handover[];
}

/** What the cascade draws: bands of material between shelf, steps and draws, comparable along each path. */
export function flowOf(input: FlowInput): Flow {
  const place = new Map(input.network.groups.flat().map((step, index) => [step, index]));
  const bands = [
    ...input.handovers.map((handover) => handoverBand(handover, input, place)),
    ...boughtBands(input),
    ...recoveredBands(input, place),
  ];
  return { bands, pathStoichiometry: pathStoichiometry(input.network) };
}

function handoverBand(handover: Handover, input: FlowInput, place: ReadonlyMap<number, number>): Band {
  const { material, from, to, moles } = handover;
  const stepId = (step: number): string => input.network.steps[step]?.id ?? '';
  const start: FlowEnd = from.kind === 'stock' ? { kind: 'stock', material } : { kind: 'step', step: stepId(from.step) };
  const end: FlowEnd =
    to.kind === 'step'
      ? { kind: 'step', step: stepId(to.step) }
      : to.kind === 'draw'
        ? { kind: 'draw', draw: input.ask.draws[to.draw]?.id ?? '' }
        : { kind: 'left over', material };
  const recycle = from.kind === 'step' && to.kind === 'step' && (place.get(to.step) ?? 0) <= (place.get(from.step) ?? 0);
  const because =
    from.kind === 'stock' ? [from.stock.moles] : [madeFigure(input, from.step, material)].filter((one) => one !== undefined);
  return band(start, end, material, moles, because, recycle, input);
}

/** What a step makes of a material: its product, or a second one. */
function madeFigure({ network, requirements }: FlowInput, step: number, material: string): Figure<'mol'> | undefined {
  if (network.steps[step]?.product === material) return requirements[step]?.productMoles;
  return requirements[step]?.seconds.find((one) => one.material === material)?.moles;
}

/** Bought bases: where the flow begins. */
function boughtBands(input: FlowInput): readonly Band[] {
  return input.network.steps.flatMap((step, i) => {
    const requirement = input.requirements[i];
    if (!requirement?.active || input.network.makersOf.has(step.basis)) return [];
    const { basisMoles } = requirement;
    return [
      band(
        { kind: 'bought', material: step.basis },
        { kind: 'step', step: step.id },
        step.basis,
        basisMoles.value,
        [basisMoles],
        false,
        input,
      ),
    ];
  });
}

/** Recovered material bends back to the first step that uses it, or to the shelf side where that is the same step. */
function recoveredBands(input: FlowInput, place: ReadonlyMap<number, number>): readonly Band[] {
  const { network, requirements } = input;
  return network.steps.flatMap((step, i) =>
    [...(network.recovered[i] ?? [])].flatMap(([material, perMole]) => {
      const requirement = requirements[i];
      const moles = perMole * (requirement?.basisMoles.value ?? 0);
      if (!requirement || moles <= 0) return [];
      const users = network.steps
        .flatMap((other, j) => (charges(other.operations, material) ? [j] : []))
        .sort((a, b) => (place.get(a) ?? 0) - (place.get(b) ?? 0));
      const user = network.steps[users[0] ?? i];
      return [
        band(
          { kind: 'step', step: step.id },
          { kind: 'step', step: user?.id ?? step.id },
          material,
          moles,
          [requirement.basisMoles],
          true,
          input,
        ),
      ];
    }),
  );
}

function charges(operations: Network['steps'][number]['operations'], material: string): boolean {
  return operations.some((operation) => operation.do === 'charge' && operation.material === material);
}

function band(
  from: FlowEnd,
  to: FlowEnd,
  material: string,
  value: number,
  of: readonly Figure[],
  recycle: boolean,
  input: FlowInput,
): Band {
  const facts = input.facts.get(material);
  const moles = computed(`${facts?.name ?? material} passed on`, value, 'mol', 'share of what is there', of);
  const mass = facts?.molarMass;
  const grams = computed(
    `${facts?.name ?? material} passed on`,
    mass ? value * mass.value : 0,
    'g',
    'moles × molar mass',
    mass ? [moles, mass] : [moles],
  );
  return { from, to, material, moles, grams, recycle };
}

/**
 * mol ÷ this is comparable along a path, so that a 2:1 step does not look like a loss. From the draws backward; where
 * paths of different ratio meet, the path of the last step in working order decides.
 */
function pathStoichiometry(network: Network): Readonly<Record<string, number>> {
  const weight = new Map<string, number>();
  for (const i of [...network.groups].reverse().flat()) {
    const step = network.steps[i];
    if (!step) continue;
    const product = weight.get(step.product) ?? 1;
    weight.set(step.product, product);
    const coefficient = step.equation.makes.find((term) => term.material === step.product)?.coefficient ?? 1;
    for (const term of step.equation.uses)
      if (!weight.has(term.material)) weight.set(term.material, (product * term.coefficient) / coefficient);
  }
  return Object.fromEntries(weight);
}
