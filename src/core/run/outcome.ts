import { percentYield } from '../outcome/yield.ts';
import { computed, EXACT, type Figure, entered } from '../quantity/figure.ts';
import { known, type Maybe, unknown } from '../words/why.ts';
import type { Charged, Product, Recovered } from './entry.ts';
import type { RunSheet } from './run-sheet.ts';
import { type ChargeState, inUnitOf, type RunState } from './state.ts';

/** What a run came to, against what was really charged. */
export interface RunOutcome {
  /** Contained basis really charged. */
  readonly basisMoles: Maybe<'mol'>;
  /** Real basis ÷ planned basis. */
  readonly basisFactor: Maybe<''>;
  /** Product at 100 % of the real basis. */
  readonly theory: Maybe<'g'>;
  /** Contained product of all crops that are dry or have an assay. */
  readonly product: Maybe<'g'>;
  readonly crops: readonly { readonly crop: number; readonly contained: Figure<'g'> }[];
  /** Crops as they were weighed wet, the last time; not counted. */
  readonly wet: readonly { readonly crop: number; readonly weighed: Figure<'g'> }[];
  readonly yield: Maybe<'%'>;
  /** What the plan's yield would have given from the real basis. */
  readonly expected: Maybe<'g'>;
  /** Basis got back, apart from the yield; null where none was weighed dry or with its assay. */
  readonly recovery: { readonly contained: Figure<'g'>; readonly percent: Maybe<'%'> } | null;
  /** Yield and basis got back are more than the basis charged: what was weighed is wet, or wrong. */
  readonly overWhole: boolean;
  readonly balance: MassBalance;
}

/** Grams in, grams of product out; what is not product is liquors, washings, waste and loss together. */
export interface MassBalance {
  readonly in: Maybe<'g'>;
  readonly product: Maybe<'g'>;
  /** Basis got back, as weighed; null where none was. */
  readonly back: Figure<'g'> | null;
  readonly rest: Maybe<'g'>;
}

const DIGITS_OF_READING = 6;

/**
 * Percent yield against the basis as it was weighed, from the contained moles of the bottles it came from; domain.md
 * section 9. A wet product without an assay has no yield: it is weighed again when it is dry.
 */
export function runOutcome(sheet: RunSheet, state: RunState): RunOutcome {
  const basisMoles = basisOf(sheet, state);
  const planned = entered(`${sheet.basis.name}, planned`, sheet.basis.moles, 'mol', 'the sheet', DIGITS_OF_READING);
  const basisFactor = map(basisMoles, (moles) =>
    computed('basis, of what was planned', moles.value / planned.value, '', 'moles charged ÷ moles planned', [moles, planned]),
  );
  const theory = theoryOf(sheet, basisMoles);
  const weighed = cropsOf(state.products);
  const { product, crops } = productOf(sheet, weighed);
  const uncorrected = weighed.some((one) => one.assayPercent === null);
  const got = both(product, theory, (grams, full) => percentYield({ grams, assayPercent: uncorrected ? null : 100 }, full));
  const back = state.recovered.filter(counts);
  const recovery = recoveryOf(sheet, basisMoles, back);
  const plannedYield = entered('yield, planned', sheet.product.yieldPercent, '%', 'the plan', EXACT);
  return {
    basisMoles,
    basisFactor,
    theory,
    product,
    crops,
    wet: wetOf(sheet, state.products),
    yield: got,
    recovery,
    overWhole: recovery?.percent.ok === true && (got.ok ? got.figure.value : 0) + recovery.percent.figure.value > WHOLE,
    expected: map(theory, (full) =>
      computed(
        `${sheet.sheet.product}, expected from the real basis`,
        (full.value * plannedYield.value) / 100,
        'g',
        'theory × yield',
        [full, plannedYield],
      ),
    ),
    balance: balanceOf(state, weighed, back),
  };
}

function basisOf(sheet: RunSheet, state: RunState): Maybe<'mol'> {
  const charges = state.charges.filter((one) => one.charge.isBasis);
  const parts = charges.flatMap((one) => one.parts);
  if (parts.length === 0) return unknown('basis not weighed', { material: sheet.basis.name });
  const figures: Figure<'mol'>[] = [];
  for (const part of parts) {
    if (part.moles === null) return unknown('basis moles unknown', { material: sheet.basis.name });
    figures.push(entered(`${sheet.basis.name}, ${part.net} ${part.unit}`, part.moles, 'mol', 'this run', DIGITS_OF_READING));
  }
  const sum = figures.reduce((total, one) => total + one.value, 0);
  if (!(sum > 0)) return unknown('basis moles unknown', { material: sheet.basis.name });
  return known(computed(`${sheet.basis.name} charged`, sum, 'mol', 'sum of what was weighed', figures));
}

function theoryOf(sheet: RunSheet, basis: Maybe<'mol'>): Maybe<'g'> {
  const { molarMass, ratio } = sheet.product;
  if (molarMass === null) return unknown('no molar mass', { material: sheet.sheet.product });
  const mass = entered(`molar mass of ${sheet.sheet.product}`, molarMass, 'g/mol', 'its formula', 8);
  const times = entered('product per basis, by the equation', ratio, '', 'the equation', EXACT);
  return map(basis, (moles) =>
    computed(
      `${sheet.sheet.product} in theory`,
      moles.value * ratio * molarMass,
      'g',
      'moles of basis × ratio of coefficients × molar mass',
      [moles, times, mass],
    ),
  );
}

/** Yield and recovery are no more than the whole, but for what weighing is off by; %. */
const WHOLE = 100.5;

/** What is wet and of unknown assay says nothing of what it holds. */
const counts = ({ wet, assayPercent }: Product | Recovered): boolean => !wet || assayPercent !== null;

/** Of the contained basis really charged, by the molar mass that the sheet reckons it with. */
function recoveryOf(sheet: RunSheet, basis: Maybe<'mol'>, back: readonly Recovered[]): RunOutcome['recovery'] {
  if (back.length === 0) return null;
  const { name } = sheet.basis;
  const figures = back.map((one) => containedIn(`${name} got back`, one));
  const sum = figures.reduce((total, one) => total + one.value, 0);
  const contained = computed(`${name} got back, contained`, sum, 'g', 'sum of mass × assay', figures);
  const mass = entered(`molar mass of ${name}`, sheet.basis.grams / sheet.basis.moles, 'g/mol', 'the sheet', 8);
  const percent = map(basis, (moles) =>
    computed('basis got back', (100 * sum) / (moles.value * mass.value), '%', 'got back ÷ charged', [contained, moles, mass]),
  );
  return { contained, percent };
}

function containedIn(label: string, { grams, assayPercent }: Product | Recovered): Figure<'g'> {
  const mass = entered(label, grams, 'g', 'this run', DIGITS_OF_READING);
  const from = assayPercent === null ? 'not determined' : 'this run';
  const assay = entered('assay', (assayPercent ?? 100) / 100, 'g/g', from);
  return computed(`${label}, contained`, mass.value * assay.value, 'g', 'mass × assay', [mass, assay]);
}

/** The last weighing of each crop that can be counted: dry, or with an assay. */
function cropsOf(products: readonly Product[]): readonly Product[] {
  const counted = new Map<number, Product>();
  for (const one of products) if (counts(one)) counted.set(one.crop, one);
  return [...counted.values()].sort((a, b) => a.crop - b.crop);
}

function wetOf(sheet: RunSheet, products: readonly Product[]): RunOutcome['wet'] {
  const last = new Map<number, Product>();
  for (const one of products) if (one.wet && one.assayPercent === null) last.set(one.crop, one);
  return [...last.values()].map(({ crop, grams }) => {
    const label = `${sheet.sheet.product}, crop ${crop}, wet`;
    return { crop, weighed: entered(label, grams, 'g', 'this run', DIGITS_OF_READING) };
  });
}

function productOf(sheet: RunSheet, counted: readonly Product[]): Pick<RunOutcome, 'product' | 'crops'> {
  const crops = counted.map((one) => ({
    crop: one.crop,
    contained: containedIn(`${sheet.sheet.product}, crop ${one.crop}`, one),
  }));
  if (crops.length === 0) return { crops, product: unknown('product not weighed', { material: sheet.sheet.product }) };
  const figures = crops.map((one) => one.contained);
  const sum = figures.reduce((total, one) => total + one.value, 0);
  return { crops, product: known(computed(`${sheet.sheet.product} obtained`, sum, 'g', 'sum of the crops', figures)) };
}

function balanceOf(state: RunState, counted: readonly Product[], gotBack: readonly Recovered[]): MassBalance {
  const masses = state.charges.flatMap((one) => one.parts.map((part) => massOf(one, part)));
  const lacking = masses.find((one) => !one.ok);
  const figures = masses.flatMap((one) => (one.ok ? [one.figure] : []));
  const into: Maybe<'g'> =
    lacking && !lacking.ok
      ? lacking
      : figures.length === 0
        ? unknown('nothing charged')
        : known(
            computed(
              'charged in all',
              figures.reduce((sum, one) => sum + one.value, 0),
              'g',
              'sum of the charges',
              figures,
            ),
          );
  const weighed = counted.map((one) => entered(`crop ${one.crop}`, one.grams, 'g', 'this run', DIGITS_OF_READING));
  const product: Maybe<'g'> =
    weighed.length === 0
      ? unknown('product not weighed', { material: '' })
      : known(
          computed(
            'product as weighed',
            weighed.reduce((sum, one) => sum + one.value, 0),
            'g',
            'sum of the crops',
            weighed,
          ),
        );
  const backs = gotBack.map((one) => entered('basis got back', one.grams, 'g', 'this run', DIGITS_OF_READING));
  const back =
    backs.length === 0
      ? null
      : computed(
          'basis got back, as weighed',
          backs.reduce((sum, one) => sum + one.value, 0),
          'g',
          'sum of what was weighed',
          backs,
        );
  const rest = both(into, product, (all, got) =>
    computed(
      'liquors, washings, waste and loss',
      all.value - got.value - (back?.value ?? 0),
      'g',
      back === null ? 'charged − product' : 'charged − product − basis got back',
      [all, got, ...(back === null ? [] : [back])],
    ),
  );
  return { in: into, product, back, rest };
}

/** By the density of the bottle it came from, where the record has it. */
function massOf({ charge }: ChargeState, part: Charged): Maybe<'g'> {
  const density = part.gramsPerMillilitre === undefined ? charge.gramsPerMillilitre : part.gramsPerMillilitre;
  const grams = part.unit === 'g' ? part.net : inUnitOf({ unit: 'g', gramsPerMillilitre: density }, part.net, 'mL');
  if (grams === null) return unknown('charge mass unknown', { material: charge.name });
  return known(entered(charge.name, grams, 'g', part.unit === 'g' ? 'this run' : 'volume × density', DIGITS_OF_READING));
}

/** What is known of the runs that made the bottles a run's basis came from. */
export interface EarlierRun {
  /** Yield over all steps up to that bottle, % of theory; null where it is not known. */
  readonly cumulativePercent: number | null;
}

/**
 * Yield over this step and those that made its basis, %: what came out, of what the first bought material could have
 * given. Σ n / Σ (n/c) over the bottles of the basis, times this step's yield; a bought bottle counts 1.
 * @param madeBy the run that filled a bottle; null for one that was bought.
 */
export function cumulativeYield(state: RunState, own: Maybe<'%'>, madeBy: (bottle: string) => EarlierRun | null): Maybe<'%'> {
  if (!own.ok) return own;
  const parts = state.charges.filter((one) => one.charge.isBasis).flatMap((one) => one.parts);
  let there = 0;
  let atFirst = 0;
  for (const part of parts) {
    const run = part.bottle === null ? null : madeBy(part.bottle);
    if (part.moles === null) return unknown('basis moles unknown', { material: '' });
    if (run && run.cumulativePercent === null) return unknown('earlier yield unknown', { bottle: part.bottle ?? '' });
    there += part.moles;
    atFirst += part.moles / ((run?.cumulativePercent ?? 100) / 100);
  }
  if (!(atFirst > 0)) return unknown('basis moles unknown', { material: '' });
  const before = entered(
    'yield of the steps before',
    (100 * there) / atFirst,
    '%',
    'the runs that made its basis',
    DIGITS_OF_READING,
  );
  return known(
    computed('yield over all steps', (own.figure.value * there) / atFirst, '%', 'yield × yield of the steps before', [
      own.figure,
      before,
    ]),
  );
}

function map<A extends Figure['unit'], B extends Figure['unit']>(
  one: Maybe<A>,
  make: (figure: Figure<A>) => Figure<B>,
): Maybe<B> {
  return one.ok ? known(make(one.figure)) : one;
}

function both<A extends Figure['unit'], B extends Figure['unit'], C extends Figure['unit']>(
  one: Maybe<A>,
  other: Maybe<B>,
  make: (figure: Figure<A>, other: Figure<B>) => Figure<C>,
): Maybe<C> {
  if (!one.ok) return one;
  return other.ok ? known(make(one.figure, other.figure)) : other;
}
