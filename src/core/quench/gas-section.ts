import { benchLine, benchWords, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { gasLitres } from '../bench/gas.ts';
import { natureOf } from '../bench/nature.ts';
import type { Facts } from '../matter/facts.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { ChargePlan } from '../plan/result.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { type FreedAt, freedGases } from './freed-gases.ts';

/** Molar gas constant, bar·L/(mol·K): CODATA 2018. */
const GAS_CONSTANT = 0.08314462618;
const ROOM_KELVIN = 298.15;

/** Gases that go in, and gases that come off, with their rates and where to lead them. */
export function gasSection(of: BenchInput): BenchSection | null {
  const charged = of.plan.operations.flatMap((one) => (one.kind === 'charge' && isGas(one, of) ? chargedLines(one, of) : []));
  const freed = freedGases(of);
  if (charged.length === 0 && freed.length === 0) return null;
  const lines = [...charged, ...wordsForCharged(of), ...freed.flatMap((one) => freedLines(one, of)), ...wordsFor(freed, of)];
  return { kind: 'gas', lines, assumptions: ['room', 'conversion', 'largest'], plot: null };
}

/** Charged as a gas: neat, not as its solution. */
function isGas(charge: ChargePlan, of: BenchInput): boolean {
  return charge.form.kind !== 'solution' && of.facts.get(charge.material)?.state === 'gas';
}

function chargedLines(charge: ChargePlan, of: BenchInput): readonly BenchLine[] {
  const name = of.facts.get(charge.material)?.name ?? charge.material;
  const at = { values: { gas: name }, operation: charge.id };
  if (!charge.moles) return [benchLine('charged', unknown('no amount', { material: name }), at)];
  const { count } = of.plan.batches;
  const moles = computed(`${name}, one batch`, charge.moles.value / count, 'mol', 'whole step ÷ batches', [charge.moles]);
  const work = computed(`${name}, bar·L`, moles.value * GAS_CONSTANT * ROOM_KELVIN, 'bar·L', 'ideal gas at 25 °C', [moles]);
  return [
    benchLine('charged', known(moles), at),
    benchLine('charged volume', known(work), at),
    ...rateOf(charge, litresOf(known(moles)), at),
  ];
}

/** What a gas that goes in asks for: a way out for what is not taken up, and what its kind asks for. */
function wordsForCharged(of: BenchInput): readonly BenchLine[] {
  return of.plan.operations.flatMap((one) => {
    const gas = one.kind === 'charge' && isGas(one, of) ? of.facts.get(one.material) : undefined;
    if (!gas || one.kind !== 'charge') return [];
    const at = { operation: one.id, level: 'caution' as const, values: { gas: gas.name } };
    return [
      benchWords('metered', { ...at, level: 'number' }),
      benchWords('not taken up', at),
      ...kindsOf(gas, of).map((kind) => benchWords(kind, at)),
    ];
  });
}

function freedLines(one: FreedAt, of: BenchInput): readonly BenchLine[] {
  const values = { gas: one.gas.name, from: one.from ?? '', meets: one.meets };
  const at = { values, operation: one.operation };
  const moles = (maybe: Maybe<'mol'>): number | string => (maybe.ok ? maybe.figure.value : '');
  const stoichiometric = litresOf(one.stoichiometric);
  const charge = of.plan.operations.find((each): each is ChargePlan => each.kind === 'charge' && each.id === one.operation);
  return [
    benchLine('stoichiometric', stoichiometric, { ...at, values: { ...values, moles: moles(one.stoichiometric) } }),
    benchLine('largest', litresOf(one.largest), { ...at, values: { ...values, moles: moles(one.largest) } }),
    ...(charge ? rateOf(charge, stoichiometric, at) : []),
  ];
}

function litresOf(moles: Maybe<'mol'>): Maybe<'L'> {
  if (!moles.ok) return moles;
  const { figure } = moles;
  return known(computed(figure.label, gasLitres(figure.value), 'L', 'ideal gas at 25 °C and 1 atm', [figure]));
}

function rateOf(charge: ChargePlan, litres: Maybe<'L'>, at: Pick<BenchLine, 'values' | 'operation'>): readonly BenchLine[] {
  if (charge.overMinutes === null || !litres.ok || litres.figure.value <= 0) return [];
  const minutes: Figure<'min'> = entered('addition', charge.overMinutes, 'min', 'the step');
  const value = litres.figure.value / charge.overMinutes;
  const rate = computed('average rate', value, 'L/min', 'litres ÷ minutes', [litres.figure, minutes]);
  return [benchLine('rate', known(rate), { ...at, values: { ...at.values, minutes: charge.overMinutes } })];
}

/** Where the gas must go, said once for each operation; the kind of scrubber by what the gas is. */
function wordsFor(freed: readonly FreedAt[], of: BenchInput): readonly BenchLine[] {
  const seen = new Set<string>();
  const once = (code: string, operation: string, gas: string): readonly BenchLine[] => {
    const key = `${code} ${operation} ${gas}`;
    if (seen.has(key)) return [];
    seen.add(key);
    return [benchWords(code, { operation, level: 'caution', values: { gas } })];
  };
  return freed.flatMap((one) => [
    ...once('no closed vessel', one.operation, ''),
    ...kindsOf(one.gas, of).flatMap((kind) => once(kind, one.operation, one.gas.name)),
  ]);
}

/** Formulas by what their gas needs. Common practice, no source. */
const INTO_BASE = /^(?:HCl|ClH|HBr|BrH|HI|IH|HF|FH|SO2|O2S|NO2|NO|Cl2|Br2|H2S|HCN|CHN|HN3)$/;
const BURNS = /^(?:H2|CO|C\d*H\d*|H2S|HCN|CHN|H3N|NH3)$/;
const SUFFOCATES = /^(?:CO2|N2|Ar|He)$/;

/** Formulas of gases that the table of materials does not have. */
const FORMULAS: Readonly<Record<string, string>> = { '74-90-8': 'HCN', '7782-79-8': 'HN3', '106-97-8': 'C4H10' };
const POISON = /^(?:HCN|HN3|H2S|Cl2|NO2|NO|CO|SO2|HF|PH3)$/;

function kindsOf(gas: Facts, of: BenchInput): readonly string[] {
  const formula = gas.formula ?? FORMULAS[gas.cas ?? ''] ?? '';
  return [
    ...(POISON.test(formula) ? ['poisons'] : []),
    ...(INTO_BASE.test(formula) ? ['scrubber for acid'] : []),
    ...(natureOf(gas, of.reference).ammonia ? ['scrubber for base'] : []),
    ...(BURNS.test(formula) ? ['burns'] : []),
    ...(SUFFOCATES.test(formula) ? ['suffocates'] : []),
  ];
}
