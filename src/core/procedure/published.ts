import type { Form } from '../matter/form.ts';
import { ratioVolume } from '../plan/step/pot.ts';
import { washNotices } from '../plan/step/wash-notices.ts';
import { runStep } from '../plan/step/run-step.ts';
import { computed, entered, type Figure } from '../quantity/figure.ts';
import type { Charge, ChargeRule, PlainRule, Step } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import type { Why } from '../words/why.ts';
import { printChecks } from './checks.ts';
import { type Limiting, limitingOf } from './limiting.ts';
import { type Known, printedAmount, printedForm, type Three } from './printed-amount.ts';
import { type PublishedYield, publishedYield } from './published-yield.ts';
import { ratioNumber, ratioText } from './ratio-text.ts';
import { type ChargedAmount, neededPerMole, type PrintedBasis, type RatioReading, ratioOf, saidRule } from './ratios.ts';
import { type Printed, readPrinted } from './read-printed.ts';
import { saidChecks } from './said-checks.ts';
import { chargesOf, inside, plain, withRule } from './step-charges.ts';

/** A charge as printed, and what follows from it. */
export interface PublishedCharge {
  readonly operation: string;
  readonly material: string;
  readonly printed: Printed;
  /** The strength and density the print names, else those of the charge. */
  readonly form: Form;
  /** What the print comes to: active moles, grams and millilitres as supplied; null where not known. */
  readonly moles: Figure<'mol'> | null;
  readonly grams: Figure<'g'> | null;
  readonly millilitres: Figure<'mL'> | null;
  readonly equivalents: Figure<''> | null;
  /** The rule with the ratio the print gives; null, with why, where it gives none. */
  readonly rule: ChargeRule | null;
  readonly ratio: Figure | null;
  readonly why: Why | null;
  readonly notices: readonly Notice[];
}

/** A step as printed: its charges, what limits, its yield, and everything that does not agree. */
export interface PublishedStep {
  /** Contained basis as printed; null where the basis has no printed amount. */
  readonly basis: PrintedBasis | null;
  /** By operation. Charges without a print are left out, and those whose print cannot be read: see unreadPrints. */
  readonly charges: ReadonlyMap<string, PublishedCharge>;
  readonly limiting: Limiting | null;
  readonly yield: PublishedYield | null;
  readonly notices: readonly Notice[];
}

/**
 * Reads a step as its procedure prints it, and works out rule and ratio of every printed charge from the printed
 * amount of the basis; checks every printed pair as finely as its digits allow.
 */
export function publishedStep(step: Step, known: Known): PublishedStep {
  const prints = new Map<string, Printed>();
  for (const charge of chargesOf(step)) {
    if (charge.printed === undefined) continue;
    const read = readPrinted(charge.printed);
    if (read.ok) prints.set(charge.id, read);
  }
  const basis = basisOf(step, prints, known);
  const charges = new Map<string, PublishedCharge>();
  // Rules are worked out in the order of addition: a solvent "to concentration" counts what lies there before it.
  let sofar = step;
  for (const charge of chargesOf(step)) {
    const printed = prints.get(charge.id);
    if (!printed) continue;
    const one = publishedCharge({ step: sofar, charge, printed, basis, known });
    charges.set(charge.id, one);
    if (one.rule) sofar = withRule(sofar, charge.id, one.rule);
  }
  const nameOf = (key: string): string => known.facts.get(key)?.name ?? key;
  const limiting = limitingOf(step, (material) => chargedMoles(step, charges, material), nameOf);
  const yielded = publishedYield(step, basis, limiting, known);
  const notices = [
    ...[...charges.values()].flatMap((one) => one.notices),
    ...limitNotices(step, limiting, nameOf),
    ...(yielded?.notices ?? []),
    ...washNotices(step, nameOf),
  ];
  return { basis, charges, limiting, yield: yielded, notices };
}

interface ChargeToRead {
  readonly step: Step;
  readonly charge: Charge;
  readonly printed: Printed;
  readonly basis: PrintedBasis | null;
  readonly known: Known;
}

function publishedCharge(one: ChargeToRead): PublishedCharge {
  const { step, charge, printed, basis, known } = one;
  const facts = known.facts.get(charge.material);
  if (!facts) throw new Error(`a checked route needs the material ${charge.material}`);
  const form = printedForm(charge, printed);
  const at = { step: step.id, operation: charge.id };
  const said = charge.rule.kind === 'basis' ? null : saidRule(printed, step, charge.material, basis);
  const amount = printedAmount(facts, form, printed, known.reference) ?? amountBySaid(one, said?.ok ? said.rule : null);
  const { before, all } = volumesBefore(one, form);
  const charged: ChargedAmount = { name: facts.name, ...amount, solventsBefore: before, allBefore: all };
  const rule = plain(charge.rule);
  const { kind } = rule;
  // What is in the pot decides, not the print.
  const own: RatioReading | null = rule.kind === 'to neutralise' ? { ok: true, rule, ratio: null } : null;
  const reading =
    (basis && byAmount(said, charged, basis)) ??
    said ??
    own ??
    (basis || kind === 'per batch' || kind === 'basis' ? ratioOf(kind, charged, basis ?? NO_BASIS) : null);
  // Charcoal, a drying agent: no part of the equation.
  const aid = facts.aid && said === null && neededPerMole(step, charge.material) === null && kind !== 'equivalents';
  const equivalents =
    amount.moles && basis && !aid
      ? computed(`${facts.name}, equivalents`, amount.moles.value / basis.moles.value, '', 'moles ÷ moles of basis', [
          amount.moles,
          basis.moles,
        ])
      : null;
  return {
    operation: charge.id,
    material: charge.material,
    printed,
    form,
    ...amount,
    equivalents,
    rule: reading?.ok ? inside(charge.rule, reading.rule) : null,
    ratio: reading?.ok ? reading.ratio : null,
    why: reading === null ? { code: 'no printed basis', values: { material: facts.name } } : reading.ok ? null : reading.why,
    notices: [
      ...printChecks({ facts, form, printed, reference: known.reference, at }),
      ...saidChecks({ printed, basis, step, material: charge.material, amount: charged, equivalents, at }),
      ...ruleCheck(charge, reading, facts.name, at),
    ],
  };
}

/**
 * Equivalents of what has no known moles (a metal on a support, a named mixture) leave nothing to weigh: where grams or
 * millilitres are printed beside them, these are the ratio. Null where the printed ratio stands.
 */
function byAmount(said: RatioReading | null, amount: ChargedAmount, basis: PrintedBasis): RatioReading | null {
  if (!said?.ok || said.rule.kind !== 'equivalents' || amount.moles) return null;
  const found = ratioOf(amount.grams ? 'mass ratio' : 'volumes', amount, basis);
  return found.ok ? found : null;
}

const NO_BASIS: PrintedBasis = { moles: entered('no basis', Number.NaN, 'mol', 'the step'), grams: null };

/** A print that names a ratio only: its amount on the printed scale. */
function amountBySaid({ step, charge, basis, known }: ChargeToRead, rule: PlainRule | null): Three {
  if (!rule || !basis) return { moles: null, grams: null, millilitres: null };
  const run = runStep({
    step: withRule(upTo(step, charge.id), charge.id, rule),
    ...known,
    basisMoles: basis.moles,
    batches: 1,
  }).charges.at(-1);
  const of = <U extends Figure['unit']>(one: { ok: true; figure: Figure<U> } | { ok: false } | undefined): Figure<U> | null =>
    one?.ok ? one.figure : null;
  return { moles: of(run?.amount?.moles), grams: of(run?.amount?.grams), millilitres: of(run?.amount?.millilitres) };
}

/** Volumes in the vessel before a charge, on the printed scale; looked up only for the rules that need them. */
function volumesBefore({ step, charge, basis, known }: ChargeToRead, form: Form): { before: number; all: number } {
  const kind = plain(charge.rule).kind;
  if (!basis || (kind !== 'to concentration' && kind !== 'make up to')) return { before: 0, all: 0 };
  const cut = upTo(step, charge.id);
  const last = { ...charge, form };
  const run = runStep({
    step: { ...cut, operations: [...cut.operations.slice(0, -1), last] },
    ...known,
    basisMoles: basis.moles,
    batches: 1,
  }).charges.at(-1);
  return run ? { before: ratioVolume(run.pot, 'solvents'), all: ratioVolume(run.pot, 'all') } : { before: 0, all: 0 };
}

function upTo(step: Step, operation: string): Step {
  return { ...step, operations: step.operations.slice(0, step.operations.findIndex((one) => one.id === operation) + 1) };
}

/** The basis as printed: what its own charge says. */
function basisOf(step: Step, prints: ReadonlyMap<string, Printed>, known: Known): PrintedBasis | null {
  const charge = chargesOf(step).find((one) => one.rule.kind === 'basis');
  const printed = charge && prints.get(charge.id);
  const facts = charge && known.facts.get(charge.material);
  if (!charge || !printed || !facts) return null;
  const moles = printedAmount(facts, printedForm(charge, printed), printed, known.reference)?.moles;
  if (!moles || !(moles.value > 0)) return null;
  const mass = facts.molarMass;
  const grams = mass && computed(`${facts.name}, contained`, moles.value * mass.value, 'g', 'moles × molar mass', [moles, mass]);
  return { moles, grams: grams ?? null, printed };
}

/** A stored ratio may be rounded; further from the print than this it is another ratio. Common practice, no source. */
const RATIO_SLACK = 0.02;

/** The ratio in use against the one the print gives; only where both are on the same rule. */
function ruleCheck(charge: Charge, reading: RatioReading | null, material: string, at: Notice['at']): readonly Notice[] {
  const used = plain(charge.rule);
  if (!reading?.ok || reading.rule.kind !== used.kind || used.kind === 'basis') return [];
  const apart = Math.abs(ratioNumber(reading.rule) / ratioNumber(used) - 1);
  if (apart <= RATIO_SLACK) return [];
  const values = { material, printed: ratioText(reading.rule), used: ratioText(used) };
  return [{ level: 'caution', code: 'ratio not printed', values, at }];
}

function limitNotices(step: Step, limiting: Limiting | null, nameOf: (key: string) => string): readonly Notice[] {
  if (!limiting || limiting.first.material === step.basis) return [];
  const basis = limiting.reaches.find((one) => one.material === step.basis);
  if (!basis) return [];
  const percent = (100 * limiting.first.turnover.value) / basis.turnover.value;
  return [
    {
      level: 'caution',
      code: 'printed amounts: another limits',
      values: { material: limiting.first.name, basis: nameOf(step.basis), percent },
      at: { step: step.id },
    },
  ];
}

/** Moles of a material over all its printed charges; null where one of them is not known. */
function chargedMoles(step: Step, charges: ReadonlyMap<string, PublishedCharge>, material: string): Figure<'mol'> | null {
  const own = chargesOf(step).filter((charge) => charge.material === material);
  const moles = own.map((charge) => charges.get(charge.id)?.moles ?? null);
  const found = moles.filter((one) => one !== null);
  if (found.length === 0 || found.length < moles.length) return null;
  if (found.length === 1) return found[0] ?? null;
  const sum = found.reduce((total, one) => total + one.value, 0);
  return computed(`${found[0]?.label ?? material} in all`, sum, 'mol', 'sum of its charges', found);
}
