import type { Facts } from '../../matter/facts.ts';
import { entered } from '../../quantity/figure.ts';
import { grouped } from '../../grouped.ts';
import type { Reference } from '../../reference.ts';
import { rememberLast } from '../../remember.ts';
import type { Route, Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import { workingOrder } from './order.ts';
import { runStep } from '../step/run-step.ts';

/** What a step makes that the plan counts on. */
export interface Product {
  readonly material: string;
  /** By the equation, mol per mol of basis. */
  readonly perMole: number;
  /** % of that; null: the yield of the step. */
  readonly yieldPercent: number | null;
}

/** What a step takes of a made material. */
export interface Use {
  readonly step: number;
  /** For good, mol per mol of its basis: charged less what comes back. */
  readonly perMole: number;
  /** Mol once in every batch. */
  readonly perBatch: number;
}

/** A route as a network: which steps make what, and what each uses per mole of its basis. */
export interface Network {
  readonly steps: readonly Step[];
  /** Material → indexes of the steps that make it, in the order of the file; bought materials are not in it. */
  readonly makersOf: ReadonlyMap<string, readonly number[]>;
  /** By step: its product first, then second products that are wanted; none where the step is left out. */
  readonly products: readonly (readonly Product[])[];
  /** Stoichiometric product per mol of basis (ν product ÷ ν basis), by step. */
  readonly stoichiometry: readonly number[];
  /** Made material → the steps that charge it, in the order of the file. */
  readonly usesOf: ReadonlyMap<string, readonly Use[]>;
  /** By step: mol charged per mol of basis, for every material made in the route; recoveries not yet taken off. */
  readonly charged: readonly ReadonlyMap<string, number>[];
  /** By step: mol of a material that comes back per mol of basis. */
  readonly recovered: readonly ReadonlyMap<string, number>[];
  /** By step: mol of a made material charged once in every batch. */
  readonly fixed: readonly ReadonlyMap<string, number>[];
  /** By step: mol of product that stays behind in every batch. */
  readonly lost: readonly number[];
  /** Indexes of steps in working order, loops together. */
  readonly groups: readonly (readonly number[])[];
}

export type NetworkReading =
  | { readonly ok: true; readonly network: Network }
  | { readonly ok: false; readonly notices: readonly Notice[] };

/**
 * Builds the network of a route. A material may have several makers and a step several wanted products: which of
 * them run is chosen later. Refused in words: an amount of an intermediate that cannot be turned into moles.
 * @param wanted materials that are drawn.
 * @param leftOut steps the person does not want to run; what only they make is bought.
 */
export function readNetwork(
  route: Route,
  wanted: ReadonlySet<string>,
  leftOut: ReadonlySet<string>,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
): NetworkReading {
  const { steps } = route;
  const runs = steps.map((step) => !leftOut.has(step.id));
  const charged = steps.map((step) => chargedBy(step, facts, reference).perMole);
  const fixed = steps.map((step) => chargedBy(step, facts, reference).perBatch.all);
  const recovered = steps.map((step, i) => recoveredPerMole(step, charged[i]?.all ?? NOTHING));
  const firsts = new Set(steps.flatMap((step, i) => (runs[i] ? [step.product] : [])));
  const used = new Set(steps.flatMap((_, i) => [...(charged[i]?.all.keys() ?? []), ...(fixed[i]?.keys() ?? [])]));
  const products = steps.map((step, i) =>
    runs[i]
      ? productsOf({ step, wanted, used, firsts, charged: charged[i]?.all ?? NOTHING, recovered: recovered[i] ?? NOTHING })
      : [],
  );
  const makersOf = makers(products);
  const unclear = steps.flatMap((step, i) =>
    (charged[i]?.unknown ?? [])
      .filter((key) => runs[i] && makersOf.has(key))
      .map(
        (key): Notice => ({
          level: 'error',
          code: 'use not in moles',
          values: { material: facts.get(key)?.name ?? key },
          at: { step: step.id },
        }),
      ),
  );
  if (unclear.length > 0) return { ok: false, notices: unclear };
  const ofMade = (all: ReadonlyMap<string, number>, i: number): ReadonlyMap<string, number> =>
    new Map([...all].filter(([key]) => runs[i] && makersOf.has(key)));
  const taken = { charged: charged.map((one, i) => ofMade(one.all, i)), fixed: fixed.map(ofMade), recovered };
  return {
    ok: true,
    network: {
      ...taken,
      steps,
      makersOf,
      products,
      stoichiometry: steps.map(stoichiometryOf),
      lost: steps.map(
        (step) => (step.lossPerBatch?.grams ?? 0) / (facts.get(step.product)?.molarMass?.value ?? Number.POSITIVE_INFINITY),
      ),
      usesOf: usesIn(taken),
      groups: workingOrder(steps.length, (i) => usersOf({ ...taken, steps, products }, i)),
    },
  };
}

function usesIn({ charged, fixed, recovered }: Pick<Network, 'charged' | 'fixed' | 'recovered'>): Network['usesOf'] {
  const uses = charged.flatMap((perMole, step) => {
    const materials = new Set([...perMole.keys(), ...(fixed[step]?.keys() ?? [])]);
    return [...materials].map((material) => {
      const net = Math.max(0, (perMole.get(material) ?? 0) - (recovered[step]?.get(material) ?? 0));
      return { material, step, perMole: net, perBatch: fixed[step]?.get(material) ?? 0 };
    });
  });
  return grouped(uses, (use) => use.material);
}

const NOTHING: ReadonlyMap<string, number> = new Map();
const NONE_NAMED: ReadonlySet<string> = new Set();

function makers(products: readonly (readonly Product[])[]): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  products.forEach((list, i) => {
    for (const { material } of list) found.set(material, [...(found.get(material) ?? []), i]);
  });
  return found;
}

/** Steps that charge something step i makes. */
function usersOf(network: Pick<Network, 'steps' | 'products' | 'charged' | 'fixed'>, i: number): readonly number[] {
  const made = network.products[i] ?? [];
  return network.steps.flatMap((_, j) =>
    made.some(({ material }) => (network.charged[j]?.get(material) ?? 0) + (network.fixed[j]?.get(material) ?? 0) > 0) ? [j] : [],
  );
}

interface ProductsInput {
  readonly step: Step;
  /** Drawn; charged somewhere; the product of some step. */
  readonly wanted: ReadonlySet<string>;
  readonly used: ReadonlySet<string>;
  readonly firsts: ReadonlySet<string>;
  /** Per mol of this step's basis. */
  readonly charged: ReadonlyMap<string, number>;
  readonly recovered: ReadonlyMap<string, number>;
}

/**
 * What a step makes: its product; a by-product that is drawn, or that the equation gives a yield of its own; and what
 * comes back in larger amount than the step took of it.
 */
function productsOf({ step, wanted, used, firsts, charged, recovered }: ProductsInput): readonly Product[] {
  const basis = step.equation.uses.find((term) => term.material === step.basis)?.coefficient ?? 1;
  const second = step.equation.makes
    .filter((term) => term.material !== step.product && (wanted.has(term.material) || used.has(term.material)))
    .filter((term) => term.yieldPercent !== undefined || wanted.has(term.material))
    .map(
      (term): Product => ({
        material: term.material,
        perMole: term.coefficient / basis,
        yieldPercent: term.yieldPercent ?? null,
      }),
    );
  const named = new Set([step.product, ...second.map((one) => one.material)]);
  const back = [...recovered].flatMap(([material, moles]): readonly Product[] => {
    const beyond = moles - (charged.get(material) ?? 0);
    const asked = wanted.has(material) || firsts.has(material);
    const counts = !named.has(material) && asked && beyond > moles * 1e-12;
    return counts ? [{ material, perMole: beyond, yieldPercent: 100 }] : [];
  });
  return [{ material: step.product, perMole: stoichiometryOf(step), yieldPercent: null }, ...second, ...back];
}

/**
 * The steps of a route in working order, as a plan of it numbers them: 1 is what is made first.
 * @returns the file's own order where no plan of the route can be worked out.
 */
export function stepsInOrder(route: Route, facts: ReadonlyMap<string, Facts>, reference: Reference): readonly Step[] {
  const read = readNetwork(route, NONE_NAMED, NONE_NAMED, facts, reference);
  if (!read.ok) return route.steps;
  return read.network.groups.flat().flatMap((index) => route.steps[index] ?? []);
}

/** ν(product) ÷ ν(basis) of a step's equation. */
export function stoichiometryOf(step: Step): number {
  const of = (terms: Step['equation']['uses'], key: string): number =>
    terms.find((term) => term.material === key)?.coefficient ?? 1;
  return of(step.equation.makes, step.product) / of(step.equation.uses, step.basis);
}

interface Charged {
  /** Moles per mol of basis, or per batch, of every material whose moles are known. */
  readonly all: ReadonlyMap<string, number>;
  readonly unknown: readonly string[];
}

const ONE_MOLE = entered('one mole of basis', 1, 'mol', 'the step');
const NONE = entered('no basis', 0, 'mol', 'the step');

/** What a step charges: for one mole of basis, and once in a batch. */
const chargedBy = rememberLast((step: Step, facts: ReadonlyMap<string, Facts>, reference: Reference) => ({
  perMole: chargedOnce(step, 0, facts, reference),
  perBatch: chargedOnce(step, 1, facts, reference),
}));

function chargedOnce(step: Step, batches: 0 | 1, facts: ReadonlyMap<string, Facts>, reference: Reference): Charged {
  const all = new Map<string, number>();
  const unknown = new Set<string>();
  for (const run of runStep({ step, facts, reference, basisMoles: batches > 0 ? NONE : ONE_MOLE, batches }).charges) {
    if ((run.rule.kind === 'per batch') !== batches > 0) continue;
    const key = run.charge.material;
    if (run.amount?.moles.ok) all.set(key, (all.get(key) ?? 0) + run.amount.moles.figure.value);
    else unknown.add(key);
  }
  return { all, unknown: [...unknown] };
}

function recoveredPerMole(step: Step, charged: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const back = new Map<string, number>();
  for (const recovery of step.recovers ?? []) {
    const moles =
      'percentOfCharge' in recovery
        ? ((charged.get(recovery.material) ?? 0) * recovery.percentOfCharge) / 100
        : recovery.molesPerMoleBasis;
    back.set(recovery.material, (back.get(recovery.material) ?? 0) + moles);
  }
  return back;
}
