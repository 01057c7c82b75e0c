import { type Facts, factsOf } from '../matter/facts.ts';
import { solventOf } from '../matter/form.ts';
import { stoichiometryOf } from '../plan/network/network.ts';
import type { ChargePlan, PlanResult, StepPlan } from '../plan/result.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Route, Step } from '../route/route.ts';
import { returnsOf } from '../shelf/recycled.ts';
import type { Shelf } from '../shelf/shelf.ts';
import { chargeCost, type Cost, costSum } from './cost.ts';
import { atomEconomy, eFactor, type Input, massIntensity, reactionMassEfficiency } from './metrics.ts';
import { type BalanceOf, type ExpectedBalance, stepBalance, wholeBalance } from './mass-balance.ts';
import { type Overall, overallYield, type PathStep, type PathYield } from './overall.ts';

/** How well material is used: of one step, or of the whole plan. */
export interface Use {
  /** Everything charged, what comes back taken off; null where a mass is not known. */
  readonly intensity: Figure<'g/g'> | null;
  readonly intensityWithoutWater: Figure<'g/g'> | null;
  readonly waste: Figure<'g/g'> | null;
  readonly wasteWithoutWater: Figure<'g/g'> | null;
  readonly cost: Cost;
  /** Names of what has no known mass: then there is no mass intensity. */
  readonly unweighed: readonly string[];
  /** Where the mass goes; null where a mass is not known. */
  readonly balance: ExpectedBalance | null;
}

export interface StepMerit extends Use {
  readonly step: string;
  readonly atomEconomy: Figure<'%'> | null;
  readonly massEfficiency: Figure<'%'> | null;
  /** Yield over this step and those before it, along the longest path. */
  readonly cumulative: PathYield | null;
  /** Of what this step buys, per g of its own product; null where a price is missing. */
  readonly costPerGram: Figure<''> | null;
}

export interface Merit {
  readonly steps: readonly StepMerit[];
  /** Bought and taken from stock for all draws together; null where nothing has to be made. */
  readonly whole: (Use & { readonly costPerGram: Figure<''> | null }) | null;
  /** By drawn material. */
  readonly overall: Readonly<Record<string, Overall>>;
}

export interface MeritInput {
  readonly result: PlanResult;
  readonly route: Route;
  readonly shelf: Pick<Shelf, 'materials' | 'packs'>;
  readonly reference: Reference;
}

/**
 * How well a plan uses its material, by step and in all: computed beside the plan, never within it. Water is told both
 * counted and left out (water, ice, and the water of aqueous solutions).
 */
export function meritOf(input: MeritInput): Merit {
  const { result, route, reference } = input;
  const facts = new Map(Object.entries(route.materials).map(([key, one]) => [key, factsOf(one, reference)]));
  const active = result.steps.filter((step) => step.active);
  const used = active.map((plan) => ({ plan, uses: usesOf(plan, input, facts) }));
  const path = pathSteps(result);
  const places = active.flatMap((plan): readonly BalanceOf[] => {
    const step = route.steps.find((one) => one.id === plan.id);
    return step ? [{ plan, step, facts, reference }] : [];
  });
  return {
    steps: used.map(({ plan, uses }) => stepMerit(uses, path, { plan, facts, place: places.find((one) => one.plan === plan) })),
    whole: wholeMerit(
      used.flatMap((one) => one.uses),
      input,
      facts,
      places,
    ),
    overall: overallOf(result, path),
  };
}

/** One charge as an input: its mass and water, its cost; whether a step of the route made it. */
interface Used {
  readonly name: string;
  readonly material: string;
  /** What comes back taken off. */
  readonly input: Input | null;
  /** What comes back counted too. */
  readonly gross: Input | null;
  readonly cost: Figure<''> | null;
  readonly free: boolean;
  readonly made: boolean;
}

function usesOf(plan: StepPlan, { result, route, shelf }: MeritInput, facts: ReadonlyMap<string, Facts>): readonly Used[] {
  const step = route.steps.find((one) => one.id === plan.id);
  return chargesOf(plan).map((charge) => {
    const one = facts.get(charge.material) as Facts;
    const kept = 1 - returnsOf(step, charge.material);
    const grams = charge.grams && kept < 1 ? afterRecovery(charge.grams, kept) : charge.grams;
    const water = grams ? waterIn(charge, one, grams.value, kept) : 0;
    const cost = chargeCost(charge, one, shelf);
    return {
      name: one.name,
      material: charge.material,
      input: grams ? { name: one.name, grams, water } : null,
      gross: charge.grams ? { name: one.name, grams: charge.grams, water: waterIn(charge, one, charge.grams.value, 1) } : null,
      cost: cost && kept < 1 ? computed(cost.label, cost.value * kept, '', 'cost, less what comes back', [cost]) : cost,
      free: one.utility,
      made: result.materials[charge.material]?.madeBy !== null,
    };
  });
}

function afterRecovery(grams: Figure<'g'>, kept: number): Figure<'g'> {
  return computed(`${grams.label}, less what comes back`, grams.value * kept, 'g', 'charged − recovered', [grams]);
}

function waterIn(charge: ChargePlan, facts: Facts, grams: number, kept: number): number {
  if (facts.formula === 'H2O' || facts.cas === '7732-18-5') return grams;
  if (charge.form.kind !== 'solution' || solventOf(charge.form) !== 'water') return 0;
  const active = charge.moles && facts.molarMass ? charge.moles.value * facts.molarMass.value * kept : 0;
  return Math.max(0, grams - active);
}

function useOf(label: string, uses: readonly Used[], product: Figure<'g'>): Omit<Use, 'balance'> {
  const unweighed = [...new Set(uses.filter((one) => !one.input).map((one) => one.name))];
  const weighed = unweighed.length === 0 && product.value > 0;
  const intensity = weighed
    ? massIntensity(
        uses.flatMap((one) => one.input ?? []),
        product,
      )
    : null;
  const bought = uses.filter((one) => !one.free && !one.made);
  return {
    intensity: intensity?.withWater ?? null,
    intensityWithoutWater: intensity?.withoutWater ?? null,
    waste: intensity && eFactor(intensity.withWater),
    wasteWithoutWater: intensity && eFactor(intensity.withoutWater),
    cost: costSum(
      label,
      bought.flatMap((one) => one.cost ?? []),
      bought.filter((one) => !one.cost).map((one) => one.name),
    ),
    unweighed,
  };
}

interface StepOf {
  readonly plan: StepPlan;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly place: BalanceOf | undefined;
}

function stepMerit(uses: readonly Used[], path: readonly PathStep[], { plan, facts, place }: StepOf): StepMerit {
  const product = plan.product.grams;
  const terms = new Set(place?.step.equation.uses.map((term) => term.material));
  const reactants = uses.filter((one) => terms.has(one.material));
  const known = reactants.every((one) => one.input) && reactants.length > 0;
  const use = useOf(`cost of ${plan.title}`, uses, product);
  const inputs = grossOf(uses);
  return {
    ...use,
    step: plan.id,
    atomEconomy: place ? economyOf(place.step, facts) : null,
    massEfficiency: known
      ? reactionMassEfficiency(
          product,
          reactants.flatMap((one) => one.input?.grams ?? []),
        )
      : null,
    balance: place && inputs && product.value > 0 ? stepBalance(inputs, place) : null,
    cumulative: overallYield(path, plan.product.material)?.longest ?? null,
    costPerGram: perGram(use.cost, product, 'cost ÷ product'),
  };
}

/** Every input with what comes back; null where the mass of one is not known. */
function grossOf(uses: readonly Used[]): readonly Input[] | null {
  const known = uses.flatMap((one) => one.gross ?? []);
  return known.length === uses.length ? known : null;
}

function perGram({ known, unpriced }: Cost, product: Figure<'g'>, how: string): Figure<''> | null {
  if (unpriced.length > 0 || !(product.value > 0)) return null;
  return computed('material cost per gram', known.value / product.value, '', how, [known, product]);
}

function economyOf(step: Step, facts: ReadonlyMap<string, Facts>): Figure<'%'> | null {
  const mass = (material: string, coefficient: number): Figure | null => {
    const one = facts.get(material)?.molarMass;
    return one ? computed(one.label, coefficient * one.value, 'g/mol', 'coefficient × molar mass', [one]) : null;
  };
  const uses = step.equation.uses.map((term) => mass(term.material, term.coefficient));
  const basis = step.equation.uses.find((term) => term.material === step.basis)?.coefficient ?? 1;
  const product = mass(step.product, stoichiometryOf(step) * basis);
  const known = uses.filter((one) => one !== null);
  return product && known.length === uses.length ? atomEconomy(product, known) : null;
}

/** What is bought or taken from the shelf, over everything that is drawn. What a step hands to the next is counted once. */
function wholeMerit(
  uses: readonly Used[],
  input: MeritInput,
  facts: ReadonlyMap<string, Facts>,
  places: readonly BalanceOf[],
): Merit['whole'] {
  const { draws, flow } = input.result;
  const drawn = draws.flatMap((draw) => draw.grams ?? []);
  if (uses.length === 0 || drawn.length < draws.length || drawn.length === 0) return null;
  const product = computed(
    'drawn in all',
    drawn.reduce((sum, one) => sum + one.value, 0),
    'g',
    'sum of the draws',
    drawn,
  );
  const stock = flow.bands.flatMap((band): readonly Used[] => {
    if (band.from.kind !== 'stock' || band.to.kind === 'left over') return [];
    const name = facts.get(band.material)?.name ?? band.material;
    const grams = { name, grams: band.grams, water: 0 };
    return [{ name, material: band.material, input: grams, gross: grams, cost: null, free: false, made: false }];
  });
  const taken = [...uses.filter((one) => !one.made), ...stock];
  const all = useOf('material cost', taken, product);
  const inputs = grossOf(taken);
  return {
    ...all,
    balance: inputs && product.value > 0 ? wholeBalance(inputs, places, input.result) : null,
    costPerGram: perGram(all.cost, product, 'cost ÷ drawn'),
  };
}

/** The steps that yields multiply along. */
function pathSteps(result: PlanResult): readonly PathStep[] {
  // Of two makers of one material those that are worked count; a step that stock covers still shows its yield.
  const worked = new Set(result.steps.filter((step) => step.active).map((step) => step.product.material));
  const counted = result.steps.filter((step) => step.active || !worked.has(step.product.material));
  return counted.map((step) => ({
    id: step.id,
    product: step.product.material,
    basis: step.basis.material,
    uses: chargesOf(step).map((charge) => charge.material),
    yield: step.yield,
  }));
}

function overallOf(result: PlanResult, path: readonly PathStep[]): Readonly<Record<string, Overall>> {
  const drawn = [...new Set(result.draws.map((draw) => draw.material))];
  return Object.fromEntries(
    drawn.flatMap((material): [string, Overall][] => {
      const found = overallYield(path, material);
      return found ? [[material, found]] : [];
    }),
  );
}

function chargesOf(step: StepPlan): readonly ChargePlan[] {
  return step.operations.flatMap((operation) => (operation.kind === 'charge' ? [operation] : []));
}
