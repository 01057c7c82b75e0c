import { computed, entered, type Figure } from '../quantity/figure.ts';

/** A mass that goes in, with the part of it that is water. */
export interface Input {
  readonly name: string;
  readonly grams: Figure<'g'>;
  /** g of water in it: all of water and ice, the water of an aqueous solution. */
  readonly water: number;
}

/**
 * Atom economy, %: mass of the wanted product over the mass of all the equation uses, both times their coefficients.
 * Source: Trost, Science 254 (1991) 1471. @param product, uses g per mol of equation, > 0.
 */
export function atomEconomy(product: Figure, uses: readonly Figure[]): Figure<'%'> {
  const sum = uses.reduce((total, one) => total + one.value, 0);
  return computed('atom economy', (100 * product.value) / sum, '%', 'product ÷ sum of what the equation uses', [
    product,
    ...uses,
  ]);
}

export interface Intensity {
  /** g of everything charged per g of product, water counted. */
  readonly withWater: Figure<'g/g'>;
  /** The same without water: water and ice charged, and the water of aqueous solutions, are left out. */
  readonly withoutWater: Figure<'g/g'>;
}

/**
 * Process mass intensity: mass of all inputs per mass of product, with and without water.
 * @param product g, > 0. Source: Jiménez-González et al., Org. Process Res. Dev. 15 (2011) 912 (water counted).
 */
export function massIntensity(inputs: readonly Input[], product: Figure<'g'>): Intensity {
  const all = inputs.reduce((sum, one) => sum + one.grams.value, 0);
  const water = inputs.reduce((sum, one) => sum + one.water, 0);
  const of = [...inputs.map((one) => one.grams), product];
  const per = (label: string, grams: number, how: string): Figure<'g/g'> =>
    computed(label, grams / product.value, 'g/g', how, of);
  return {
    withWater: per('process mass intensity', all, 'all inputs ÷ product, water counted'),
    withoutWater: per('process mass intensity without water', all - water, 'all inputs but water ÷ product'),
  };
}

/**
 * E-factor from a process mass intensity: every input that is not in the product counts as waste, so E = PMI − 1.
 * Source: Sheldon, Green Chem. 9 (2007) 1273.
 */
export function eFactor(intensity: Figure<'g/g'>): Figure<'g/g'> {
  return computed('E-factor', intensity.value - 1, 'g/g', 'mass intensity − 1: every input not in the product is waste', [
    intensity,
  ]);
}

/** E-factor from waste that was weighed: g of waste per g of product (> 0); leave water out of the waste to leave it out of E. */
export function eFactorOfWaste(waste: readonly Figure<'g'>[], product: Figure<'g'>): Figure<'g/g'> {
  const sum = waste.reduce((total, one) => total + one.value, 0);
  return computed('E-factor', sum / product.value, 'g/g', 'waste ÷ product', [...waste, product]);
}

/**
 * Reaction mass efficiency, %: product over the reactants as charged, excess included; solvents and what only helps are
 * left out. Yield × experimental atom economy is the same. Source: Curzons et al., Green Chem. 3 (2001) 1.
 */
export function reactionMassEfficiency(product: Figure<'g'>, reactants: readonly Figure<'g'>[]): Figure<'%'> {
  const sum = reactants.reduce((total, one) => total + one.value, 0);
  return computed('reaction mass efficiency', (100 * product.value) / sum, '%', 'product ÷ reactants as charged', [
    product,
    ...reactants,
  ]);
}

/** What comes out beside the wanted product by the equation, g: moles of product made × coefficient ratio × molar mass. */
export function formedBeside(made: Figure<'mol'>, perMole: number, molarMass: Figure<'g/mol'>, name: string): Figure<'g'> {
  const ratio = entered(`${name} per mole of product`, perMole, '', 'the equation');
  return computed(`${name} formed`, made.value * perMole * molarMass.value, 'g', 'moles of product × ratio × molar mass', [
    made,
    ratio,
    molarMass,
  ]);
}

export interface MassBalance {
  readonly charged: Figure<'g'>;
  readonly product: Figure<'g'>;
  readonly recovered: Figure<'g'>;
  /** Weighed or known to be waste. */
  readonly waste: Figure<'g'>;
  /** What is not accounted for; below zero where more came out than went in. */
  readonly missing: Figure<'g'>;
  readonly closedPercent: Figure<'%'>;
}

/** Mass balance of a step or a route: what went in against everything that was found again. All g; charged > 0. */
export function massBalance(charged: Figure<'g'>, product: Figure<'g'>, recovered: Figure<'g'>, waste: Figure<'g'>): MassBalance {
  const found = product.value + recovered.value + waste.value;
  const of = [charged, product, recovered, waste];
  return {
    charged,
    product,
    recovered,
    waste,
    missing: computed('not accounted for', charged.value - found, 'g', 'charged − product − recovered − waste', of),
    closedPercent: computed('balance closed', (100 * found) / charged.value, '%', 'everything found ÷ charged', of),
  };
}
