import {
  type Contents,
  type ContentsContext,
  NOTHING,
  react,
  withCharge as withContent,
  withoutRemoved,
  withSolvent,
} from '../../bench/contents.ts';
import { neutralisingMoles } from '../../quench/neutralise.ts';
import { layerOf, phaseOf } from '../../bench/phase.ts';
import type { Facts } from '../../matter/facts.ts';
import { type Form, NEAT } from '../../matter/form.ts';
import { computed, type Figure, entered } from '../../quantity/figure.ts';
import type { Reference } from '../../reference.ts';
import type { Charge, PlainRule, Stage, Step } from '../../route/route.ts';
import type { Maybe, Why } from '../../words/why.ts';
import { type Amount, amountOf, type Governed } from '../amounts.ts';
import { type GasStages, gasStages } from './gas-stages.ts';
import { beginOperation, emptyFilling, emptyRemoval, fillCharge, noteFill } from './filling.ts';
import { addSolvent, addToPot, EMPTY_POT, type Pot, ratioVolume, removeFromPot } from './pot.ts';

export interface StepInput {
  readonly step: Step;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly reference: Reference;
  /** Contained basis of the whole step. */
  readonly basisMoles: Figure<'mol'>;
  /** How often a fixed amount per batch is charged; 0 leaves those charges out. */
  readonly batches: number;
}

export interface ChargeRun {
  readonly charge: Charge;
  readonly form: Form;
  /** The rule that fixes the amount: the estimate of an "until". */
  readonly rule: PlainRule;
  readonly governed: Governed | null;
  readonly amount: Amount | null;
  readonly why: Why | null;
  readonly liquid: boolean;
  /** What lies in the vessel before it. */
  readonly pot: Pot;
}

export interface StepRun {
  readonly charges: readonly ChargeRun[];
  /** Largest volume in the vessel during each stage, mL, all batches together. */
  readonly peaks: ReadonlyMap<Stage, number>;
  /** The operation that makes the vessel fullest in each stage. */
  readonly fullestAt: ReadonlyMap<Stage, string>;
  /** Smallest volume that is stirred during each stage, mL, all batches together; stages where nothing is stirred are left out. */
  readonly stirred: ReadonlyMap<Stage, number>;
  /** Liquid that runs off through a filter during each stage, mL, at most, all batches together; stages without are left out. */
  readonly runsOff: ReadonlyMap<Stage, number>;
  /** Stages in which gas comes off. */
  readonly gassing: GasStages;
  /** True where a volume rests on an assumed density. */
  readonly estimated: boolean;
}

/**
 * Goes through a step's operations in order for a given amount of basis: what each charge comes to, and how full
 * the vessel gets in each stage. Everything but the fixed amounts per batch is proportional to the basis.
 */
export function runStep(input: StepInput): StepRun {
  const { step } = input;
  const charges: ChargeRun[] = [];
  const filling = emptyFilling();
  const basisGrams = basisMass(input);
  const neutralises = step.operations.some((one) => one.do === 'charge' && plainRule(one).kind === 'to neutralise');
  let contents: Contents | null = neutralises ? NOTHING : null;
  let pot: Pot = EMPTY_POT;
  for (const operation of step.operations) {
    const before = pot;
    beginOperation(filling, operation, step, pot);
    if (operation.do === 'charge') {
      const run = runCharge(operation, input, basisGrams, pot, contents ?? NOTHING);
      charges.push(run);
      pot = withCharge(pot, run, input);
      contents &&= react(nextContents(contents, run, input), input, operation.id).contents;
      fillCharge(filling, operation, run.liquid, before, pot);
    }
    noteFill(filling, operation, pot);
    if (operation.do !== 'removal') continue;
    pot = removeFromPot(pot, operation, basisGrams?.value ?? 0);
    contents &&= withoutRemoved(contents, operation, basisGrams?.value ?? 0, input).contents;
    emptyRemoval(filling, operation, before, pot);
  }
  const { peaks, fullestAt, stirred, runsOff } = filling;
  const gassing = gasStages(step, input.facts, input.reference);
  return { charges, peaks, fullestAt, stirred, runsOff, gassing, estimated: pot.some((content) => content.estimated) };
}

/** The rule that fixes the amount: the estimate of an "until". */
export function plainRule({ rule }: Charge): PlainRule {
  return rule.kind === 'until' ? rule.estimate : rule;
}

function runCharge(charge: Charge, input: StepInput, basisGrams: Figure<'g'> | null, pot: Pot, contents: Contents): ChargeRun {
  const form = charge.form ?? NEAT;
  const facts = factsFor(charge.material, input);
  const rule = plainRule(charge);
  const liquid = isLiquid(charge, form, facts, rule);
  const governed =
    rule.kind === 'to neutralise'
      ? toNeutralise(neutralisingMoles(contents, facts, rule, input.reference))
      : govern(rule, input, basisGrams, pot, facts.name);
  if ('code' in governed) return { charge, form, rule, governed: null, amount: null, why: governed, liquid, pot };
  return { charge, form, rule, governed, amount: amountOf(facts, form, governed, input.reference), why: null, liquid, pot };
}

function toNeutralise(moles: Maybe<'mol'>): Governed | Why {
  return moles.ok ? { by: 'mol', figure: moles.figure } : moles.why;
}

/** What is in the vessel by material, kept only where a charge neutralises it. */
function nextContents(contents: Contents, { charge, form, amount }: ChargeRun, input: ContentsContext): Contents {
  const { material } = charge;
  const facts = factsFor(material, input);
  const carried = carriedSolvent({ charge, amount }, facts);
  const there = carried ? withSolvent(contents, carried.material, carried.millilitres.value, input) : contents;
  const moles = amount?.moles.ok ? amount.moles.figure : null;
  const grams = amount?.grams.ok ? amount.grams.figure.value : null;
  const millilitres = amount?.millilitres.ok ? amount.millilitres.figure.value : null;
  return withContent(there, { material, facts, form, moles, grams, millilitres }, input);
}

/** The charge in the vessel; what goes on until an end point may take its largest amount of room. */
function withCharge(pot: Pot, run: ChargeRun, input: StepInput): Pot {
  if (!run.amount) return pot;
  const times = run.charge.rule.kind === 'until' ? run.charge.rule.atMost : 1;
  const facts = factsFor(run.charge.material, input);
  const asSolvent = run.rule.kind !== 'equivalents' && run.rule.kind !== 'basis';
  const carried = carriedSolvent(run, facts);
  const together = carried
    ? addSolvent(
        pot,
        carried.material,
        carried.millilitres.value * times,
        layerOf(factsFor(carried.material, input), input.reference),
      )
    : pot;
  return addToPot(together, {
    material: run.charge.material,
    facts,
    amount: run.amount,
    times,
    liquid: run.liquid,
    solvent: run.liquid && (asSolvent || run.form.kind === 'solution'),
    fixed: run.rule.kind === 'per batch',
    isBasis: run.charge.rule.kind === 'basis',
    layer: phaseOf(facts, run.form, input.reference, run.liquid),
  });
}

/** Solvent that comes along with a charge, or null: mL per g × contained grams. */
export function carriedSolvent(
  { charge, amount }: Pick<ChargeRun, 'charge' | 'amount'>,
  facts: Facts,
): { readonly material: string; readonly millilitres: Figure<'mL'> } | null {
  const { carriedWith } = charge;
  if (!carriedWith || !amount?.moles.ok || !facts.molarMass) return null;
  const { material, millilitresPerGram } = carriedWith;
  const moles = amount.moles.figure;
  const per = entered('solvent that comes along', millilitresPerGram, 'mL/g', 'the step');
  const value = moles.value * facts.molarMass.value * millilitresPerGram;
  const how = 'contained grams × mL per g';
  return { material, millilitres: computed(`comes along with ${facts.name}`, value, 'mL', how, [moles, facts.molarMass, per]) };
}

/** What a rule fixes, from the basis and from what is in the pot already; or why it cannot. */
function govern(
  rule: Exclude<PlainRule, { kind: 'to neutralise' }>,
  input: StepInput,
  basisGrams: Figure<'g'> | null,
  pot: Pot,
  name: string,
): Governed | Why {
  const n = input.basisMoles;
  const label = `${name} for the step`;
  const ratio = (value: number, unit: 'g/g' | 'mL/g' | 'mL/mol' | 'mol/L' | '' | 'g' | 'mL'): Figure =>
    entered(`ratio of ${name}`, value, unit, 'the step');
  const perGram = <U extends 'g' | 'mL'>(value: number, unit: U): Governed | Why => {
    if (!basisGrams) return { code: 'no molar mass', values: { material: factsFor(input.step.basis, input).name } };
    const how = 'ratio × contained mass of basis';
    const figure = computed(label, value * basisGrams.value, unit, how, [
      ratio(value, unit === 'g' ? 'g/g' : 'mL/g'),
      basisGrams,
    ]);
    return { by: unit, figure } as Governed;
  };
  /** A volume, mL, less what of it is in the pot already. */
  const rest = (whole: number, there: Figure<'mL'>, how: string, per: Figure): Governed => ({
    by: 'mL',
    figure: computed(label, Math.max(0, whole - there.value), 'mL', how, [n, per, there]),
  });
  switch (rule.kind) {
    case 'basis':
      return { by: 'mol', figure: n };
    case 'equivalents':
      return {
        by: 'mol',
        figure: computed(label, rule.equivalents * n.value, 'mol', 'equivalents × moles of basis', [
          ratio(rule.equivalents, ''),
          n,
        ]),
      };
    case 'mass ratio':
      return perGram(rule.gramsPerGram, 'g');
    case 'volumes':
      return perGram(rule.millilitresPerGram, 'mL');
    case 'molar volume': {
      const value = rule.millilitresPerMole * n.value;
      return {
        by: 'mL',
        figure: computed(label, value, 'mL', 'mL per mol × moles of basis', [ratio(rule.millilitresPerMole, 'mL/mol'), n]),
      };
    }
    case 'to concentration': {
      const there = entered('solvent in the pot already', ratioVolume(pot, 'solvents'), 'mL', 'the step');
      const whole = (n.value / rule.molesPerLitre) * 1000;
      return rest(whole, there, 'moles of basis ÷ concentration − solvent present', ratio(rule.molesPerLitre, 'mol/L'));
    }
    case 'make up to': {
      const there = entered('volume in the pot already', ratioVolume(pot, 'all'), 'mL', 'the step');
      const whole = rule.millilitresPerMole * n.value;
      return rest(whole, there, 'total volume − volume present', ratio(rule.millilitresPerMole, 'mL/mol'));
    }
    case 'per batch': {
      const count = entered('batches', input.batches, '', 'the plan');
      const figure = computed(label, rule.amount * input.batches, rule.unit, 'fixed amount × batches', [
        ratio(rule.amount, rule.unit),
        count,
      ]);
      return { by: rule.unit, figure } as Governed;
    }
  }
}

/** Contained basis, g; null where its molar mass is not known. */
export function basisMass(input: Pick<StepInput, 'step' | 'facts' | 'basisMoles'>): Figure<'g'> | null {
  const facts = factsFor(input.step.basis, input);
  if (!facts.molarMass) return null;
  const value = input.basisMoles.value * facts.molarMass.value;
  return computed(`${facts.name}, contained`, value, 'g', 'moles × molar mass', [input.basisMoles, facts.molarMass]);
}

/**
 * Liquids are measured by volume and counted as liquid in the vessel: solutions, and what is liquid at 20 °C. What a rule
 * gives in millilitres is one too, unless the material is said to be something else.
 */
function isLiquid(charge: Charge, form: Form, facts: Facts, rule: PlainRule): boolean {
  if (form.kind === 'solution') return true;
  if (facts.state) return facts.state === 'liquid';
  return charge.by === 'volume' || facts.liquidDensity !== null || byMillilitres(rule);
}

function byMillilitres(rule: PlainRule): boolean {
  if (rule.kind === 'per batch') return rule.unit === 'mL';
  return (
    rule.kind === 'volumes' || rule.kind === 'molar volume' || rule.kind === 'to concentration' || rule.kind === 'make up to'
  );
}

/** A material's facts. Throws where the route was not checked: a checked route names only materials it has. */
export function factsFor(key: string, input: Pick<StepInput, 'facts'>): Facts {
  const facts = input.facts.get(key);
  if (!facts) throw new Error(`a checked route needs the material ${key}`);
  return facts;
}
