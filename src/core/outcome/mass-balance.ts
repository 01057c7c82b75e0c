import type { Facts } from '../matter/facts.ts';
import { balanceOf } from '../plan/network/equation.ts';
import type { ChargePlan, PlanResult, StepPlan } from '../plan/result.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Recovery, Step } from '../route/route.ts';
import { formedBeside, type Input, massBalance } from './metrics.ts';

/** Where mass that went in is found again. */
export interface Found {
  readonly what: 'product' | 'left over' | 'isolated beside' | 'by the equation' | 'comes back';
  readonly name: string;
  readonly material: string;
  readonly grams: Figure<'g'>;
}

/** What a plan lets one expect of a step, or of all steps together, g: what goes in and where it is found again. */
export interface ExpectedBalance {
  /** Everything charged, as supplied; what comes back is not taken off. */
  readonly charged: Figure<'g'>;
  /** Of that water: the tap, ice, the water of aqueous solutions. */
  readonly water: Figure<'g'>;
  readonly found: readonly Found[];
  /** charged − found: solvents, excess, what did not react, losses. Below zero where something was never charged. */
  readonly rest: Figure<'g'>;
}

/** A step with what is needed to say where its mass goes. */
export interface BalanceOf {
  readonly plan: StepPlan;
  readonly step: Step;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly reference: Reference;
}

/**
 * The mass balance of one step at its planned yield: product, what the equation makes beside it from what reacted, what
 * comes back, and the rest. Solvent that comes along with a product that was not isolated dry is left out on both sides.
 * @param inputs every charge, g as supplied. Source: conservation of mass; what is found is what the plan counts on.
 */
export function stepBalance(inputs: readonly Input[], of: BalanceOf): ExpectedBalance {
  return closed(inputs, [...productsOf(of), ...besideOf(of), ...backOf(of)]);
}

/**
 * The mass balance of all steps together: what is bought or on the shelf, against draws, what is left over, what the
 * equations make and what comes back. What one step hands to the next is inside.
 * @param inputs every charge that no step makes, and stock of intermediates, g as supplied.
 */
export function wholeBalance(inputs: readonly Input[], steps: readonly BalanceOf[], result: PlanResult): ExpectedBalance {
  const inside = (material: string): boolean => result.materials[material]?.madeBy !== null;
  const name = (material: string): string => result.materials[material]?.name ?? material;
  const drawn = result.draws.flatMap(({ material, grams }): readonly Found[] =>
    grams ? [{ what: 'product', material, name: name(material), grams }] : [],
  );
  const over = result.flow.bands.flatMap(({ to, material, grams }): readonly Found[] =>
    to.kind === 'left over' ? [{ what: 'left over', material, name: name(material), grams }] : [],
  );
  const more = steps.flatMap((of) => [...besideOf(of), ...backOf(of)]).filter(({ material }) => !inside(material));
  return closed(inputs, together([...drawn, ...over, ...more]));
}

function closed(inputs: readonly Input[], found: readonly Found[]): ExpectedBalance {
  const sum = (label: string, how: string, of: readonly Figure<'g'>[]): Figure<'g'> =>
    computed(
      label,
      of.reduce((all, one) => all + one.value, 0),
      'g',
      how,
      of,
    );
  const charged = sum(
    'charged in all',
    'sum of the charges',
    inputs.map((one) => one.grams),
  );
  const water = computed(
    'of that water',
    inputs.reduce((all, one) => all + one.water, 0),
    'g',
    'water, ice, and the water of aqueous solutions',
    inputs.flatMap((one) => (one.water > 0 ? [one.grams] : [])),
  );
  const of = (...kinds: readonly Found['what'][]): Figure<'g'> =>
    sum(
      kinds[0] ?? '',
      'sum',
      found.flatMap((one) => (kinds.includes(one.what) ? [one.grams] : [])),
    );
  const balance = massBalance(charged, of('product', 'left over'), of('comes back'), of('by the equation', 'isolated beside'));
  return { charged, water, found, rest: balance.missing };
}

function productsOf({ plan, facts }: BalanceOf): readonly Found[] {
  const { material, grams } = plan.product;
  const isolated = plan.seconds.map(
    (one): Found => ({
      what: 'isolated beside',
      material: one.material,
      name: facts.get(one.material)?.name ?? one.material,
      grams: one.grams,
    }),
  );
  return [{ what: 'product', material, name: facts.get(material)?.name ?? material, grams }, ...isolated];
}

/** What the equation makes beside the product, from what the yield says has reacted; nothing where it does not balance. */
function besideOf({ plan, step, facts, reference }: BalanceOf): readonly Found[] {
  const molarMass = facts.get(step.product)?.molarMass;
  if (!molarMass || !balanceOf(step, facts, reference).balanced) return [];
  const of = step.equation.makes.find((term) => term.material === step.product)?.coefficient ?? 1;
  const isolated = new Set(plan.seconds.map((one) => one.material));
  const reacted = madeMoles(plan, molarMass);
  return step.equation.makes.flatMap(({ material, coefficient }): readonly Found[] => {
    const one = facts.get(material);
    if (!one?.molarMass || material === step.product || isolated.has(material)) return [];
    const grams = formedBeside(reacted, coefficient / of, one.molarMass, one.name);
    return [{ what: 'by the equation', material, name: one.name, grams }];
  });
}

/** Moles of product made, what stays behind in the flasks included. */
function madeMoles({ product, yield: percent }: StepPlan, molarMass: Figure<'g/mol'>): Figure<'mol'> {
  const value = ((product.theory.value / molarMass.value) * percent.value) / 100;
  return computed('product made', value, 'mol', 'theory × yield ÷ molar mass', [product.theory, percent, molarMass]);
}

/** What comes back: a part of a charge as it was supplied, or so much for each mol of basis. */
function backOf({ plan, step, facts }: BalanceOf): readonly Found[] {
  return (step.recovers ?? []).flatMap((recovery): readonly Found[] => {
    const name = facts.get(recovery.material)?.name ?? recovery.material;
    const grams = backGrams(recovery, plan, facts.get(recovery.material));
    return grams ? [{ what: 'comes back', material: recovery.material, name, grams }] : [];
  });
}

function backGrams(recovery: Recovery, plan: StepPlan, facts: Facts | undefined): Figure<'g'> | null {
  const label = `${facts?.name ?? recovery.material} that comes back`;
  if ('molesPerMoleBasis' in recovery) {
    if (!facts?.molarMass) return null;
    const value = recovery.molesPerMoleBasis * plan.basis.moles.value * facts.molarMass.value;
    return computed(label, value, 'g', 'mol per mol of basis × basis × molar mass', [plan.basis.moles, facts.molarMass]);
  }
  const charges = plan.operations.flatMap((one): readonly ChargePlan[] =>
    one.kind === 'charge' && one.material === recovery.material ? [one] : [],
  );
  const all = charges.flatMap((one) => one.grams ?? []);
  const value = all.reduce((sum, one) => sum + one.value, 0) * (recovery.percentOfCharge / 100);
  return computed(label, value, 'g', 'part of the charge', [entered('part', recovery.percentOfCharge, '%', 'the step'), ...all]);
}

/** The same material found in the same way in several steps is one line. */
function together(list: readonly Found[]): readonly Found[] {
  const lines = new Map<string, Found>();
  for (const one of list) {
    const key = `${one.what} ${one.material}`;
    const before = lines.get(key);
    const grams = before
      ? computed(one.grams.label, before.grams.value + one.grams.value, 'g', 'sum', [before.grams, one.grams])
      : one.grams;
    lines.set(key, { ...one, grams });
  }
  return [...lines.values()];
}
