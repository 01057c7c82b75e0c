import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import { percentYield, theoryGrams, yieldBetween } from '../../src/core/outcome/yield.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { near } from './amounts.ts';
import { caseById } from './cases.ts';
import { type Preparation, printedIn, type Reagent, read } from './printed-case.ts';
import { reference } from './tables.ts';

// Topic b: preparations read as they are printed, by the same function as the Routes place. Sources stand in cases.json.

const grams = (value: number) => entered('weighed', value, 'g', 'the case');
const facts = (formula: string) => factsOf({ name: formula, formula }, reference);
const reagentsOf = (id: string): readonly Reagent[] => caseById(id).inputs['reagents'] as readonly Reagent[];
const productOf = (id: string) =>
  caseById(id).inputs['product'] as {
    formula: string;
    coeff?: number;
    massRange?: { value: [number, number] };
    mass?: { value: number; unit: string };
  };

/** A case with its reagents; moles as printed beside the amounts. @param moles name in the case → output that prints them. */
function preparation(id: string, basis: string, moles: Readonly<Record<string, string>> = {}): Preparation {
  const one = caseById(id);
  const product = productOf(id);
  const [low, high] = [printedIn(one, 'yieldLow'), printedIn(one, 'yieldHigh')];
  const range = product.massRange?.value;
  const reagents = reagentsOf(id).map((reagent) => {
    const print = printedIn(one, moles[reagent.name ?? ''] ?? '');
    return print ? { ...reagent, moles: `${print} mol` } : reagent;
  });
  return {
    reagents,
    basis,
    product: {
      formula: product.formula,
      coeff: product.coeff ?? 1,
      ...(range ? { obtained: `${range[0]}–${range[1]} g` } : {}),
      ...(product.mass ? { obtained: `${product.mass.value} ${product.mass.unit}` } : {}),
      ...(low && high ? { yield: `${low}–${high} %` } : {}),
    },
  };
}

describe.each([
  ['b01', 'dibenzyl ketone', { benzil: 'n(benzil)', 'dibenzyl ketone': 'n(dibenzyl ketone)' }, []],
  ['b03', 'acetanilide', { acetanilide: 'n(acetanilide)', 'chlorosulfonic acid': 'n(chlorosulfonic acid)' }, []],
  ['b06', 'adipic acid', { 'adipic acid': 'n(adipic acid)' }, ['printed moles']],
  ['b07', 'benzoin', { benzoin: 'n(benzoin)', 'thionyl chloride': 'n(SOCl2)' }, ['printed volume']],
  [
    'b09',
    'p-nitrotoluene',
    { 'p-nitrotoluene': 'n(p-nitrotoluene)', 'sodium dichromate': 'n(dichromate) as dihydrate' },
    ['water unsaid'],
  ],
] as const)('%s as printed', (id, basis, moles, codes) => {
  const density = { value: 0.9819, unit: 'g/mL' };
  const made = preparation(id, basis, moles);
  const one = read({
    ...made,
    reagents: made.reagents.map((reagent) => (reagent.name === 'pyridine' ? { ...reagent, density } : reagent)),
  });
  test('moles', () => {
    for (const [name, output] of Object.entries(moles)) near(id, output, one.moles(name));
  });
  test('yield', () => {
    near(id, 'yieldLow', one.yield?.lowest?.value ?? Number.NaN);
    near(id, 'yieldHigh', one.yield?.highest?.value ?? Number.NaN);
    expect(one.yield?.expected).toMatchObject({ lowest: expect.closeTo(one.yield?.lowest?.value ?? 0, 2) });
    if (id !== 'b07' && id !== 'b09') near(id, 'theoreticalYield', one.yield?.theory.value ?? Number.NaN);
  });
  test(`what does not agree: ${codes.join() || 'nothing'}`, () => expect(one.codes).toEqual(codes));
});

test('b01: which of two equal amounts limits is decided in the fourth figure', () => {
  const one = read(preparation('b01', 'benzil'));
  expect(one.limiting?.first.name).toBe('dibenzyl ketone');
  expect(one.codes).toContain('printed amounts: another limits');
  near('b01', 'theoreticalYield', one.yield?.theoryOfLimiting.value ?? Number.NaN);
});

test('b03: grams and millilitres give the density', () => {
  const acid = read(preparation('b03', 'acetanilide')).charges.get('c1');
  near('b03', 'density(chlorosulfonic acid)', (acid?.grams?.value ?? 0) / (acid?.millilitres?.value ?? 0));
});

test('b04: the strength is taken into account, and a cut-off print is a note, not a misprint', () => {
  const one = read(preparation('b04', 'cyclohexanol', { cyclohexanol: 'n(cyclohexanol)', 'nitric acid': 'n(HNO3)' }));
  near('b04', 'n(HNO3)', one.moles('nitric acid'));
  near('b04', 'n(cyclohexanol)', one.moles('cyclohexanol'));
  near('b04', 'volume(HNO3 50 %)', one.charges.get('c1')?.millilitres?.value ?? Number.NaN);
  near('b04', 'theoreticalYield', one.yield?.theory.value ?? Number.NaN);
  near('b04', 'yieldLow', one.yield?.lowest?.value ?? Number.NaN);
  near('b04', 'yieldHigh', one.yield?.highest?.value ?? Number.NaN);
  expect(one.notices.filter((notice) => notice.level === 'note').map((notice) => notice.code)).toContain('printed moles cut off');
  const pure = read({
    ...preparation('b04', 'cyclohexanol'),
    reagents: reagentsOf('b04').map((reagent) => (reagent.assay ? { ...reagent, moles: '33.3 mol' } : reagent)),
  });
  expect(pure.codes).toContain('printed as pure');
});

test('b07: pyridine, printed in grams and in millilitres that do not fit', () => {
  const made = preparation('b07', 'benzoin');
  const one = read({
    ...made,
    reagents: made.reagents.map((r) => (r.name === 'pyridine' ? { ...r, density: { value: 0.9819, unit: 'g/mL' } } : r)),
  });
  const said = one.notices.find((notice) => notice.code === 'printed volume');
  near('b07', 'volume(pyridine) at 0.9819 g/mL', Number(said?.values['computed']));
  const chloride = one.charges.get('c1');
  near('b07', 'density(SOCl2)', (chloride?.grams?.value ?? 0) / (chloride?.millilitres?.value ?? 0));
  const [crude, ...crops] = [125, 77, 9];
  near(
    'b07',
    'recrystallisationRecovery',
    percentYield({ grams: grams(crops[0]! + crops[1]!), assayPercent: null }, grams(crude!)).value,
  );
});

test('b09: read as anhydrous, the printed moles give the dihydrate away', () => {
  const made = preparation('b09', 'p-nitrotoluene', { 'sodium dichromate': 'n(dichromate) as dihydrate' });
  const one = read({
    ...made,
    reagents: made.reagents.map((r) => (r.formula?.includes('Cr2O7') ? { ...r, formula: 'Na2Cr2O7' } : r)),
  });
  const said = one.notices.find((notice) => notice.code === 'hidden hydrate');
  expect(said?.values['formula']).toBe('Na2Cr2O7·2H2O');
  near('b09', 'n(dichromate) if taken as anhydrous', one.moles('sodium dichromate'));
});

test('b10: chalcone, crude and recrystallised, what limits, a cut-off yield', () => {
  const { crude, recrystallised } = caseById('b10').inputs['product'] as Record<string, { value: number }>;
  const moles = { acetophenone: 'n(acetophenone)', benzaldehyde: 'n(benzaldehyde)', NaOH: 'n(NaOH)' };
  const made = preparation('b10', 'acetophenone', moles);
  const reagents = made.reagents.map((r) => (r.name === 'NaOH' ? { ...r, coeff: 0 } : r));
  const as = (obtained: number, yielded: string) =>
    read({ ...made, reagents, product: { formula: 'C15H12O', obtained: `${obtained} g`, yield: yielded } });
  const first = as(crude!.value, `${printedIn(caseById('b10'), 'yieldCrude')} %`);
  for (const [name, output] of Object.entries(moles)) near('b10', output, first.moles(name));
  expect(first.limiting?.first.name).toBe(caseById('b10').outputs.find((o) => o.name === 'limiting')?.value);
  near('b10', 'yieldCrude', first.yield?.lowest?.value ?? Number.NaN);
  expect(first.notices.map((notice) => [notice.level, notice.code])).toContainEqual(['note', 'printed yield cut off']);
  const pure = as(recrystallised!.value, `${printedIn(caseById('b10'), 'yieldRecryst')} %`);
  near('b10', 'yieldRecryst', pure.yield?.lowest?.value ?? Number.NaN);
  expect(pure.codes).toEqual([]);
  near(
    'b10',
    'recoveryRecryst',
    percentYield({ grams: grams(recrystallised!.value), assayPercent: null }, grams(crude!.value)).value,
  );
});

test('b12: two benzaldehyde for one benzoin', () => {
  const { volume, density } = caseById('b12').inputs['benzaldehyde'] as Required<Reagent>;
  const one = read({
    reagents: [{ name: 'benzaldehyde', formula: 'C7H6O', volume, density, coeff: 2, moles: '150 mmol' }],
    basis: 'benzaldehyde',
    product: { formula: 'C14H12O2', obtained: '5.681 g', yield: '35.68 %' },
  });
  near('b12', 'n(benzaldehyde)', 1000 * one.moles('benzaldehyde'));
  expect(one.codes.filter((code) => code === 'printed moles')).toEqual([]);
  const start = entered('benzaldehyde', 0.15, 'mol', 'the case');
  near('b12', 'theoretical benzoin at 150 mmol', theoryGrams(start, 0.5, facts('C14H12O2'))?.value ?? Number.NaN);
  near('b12', 'theoretical benzil at 150 mmol', theoryGrams(start, 0.5, facts('C14H10O2'))?.value ?? Number.NaN);
  near('b12', 'theoretical benzilic acid at 150 mmol', theoryGrams(start, 0.5, facts('C14H12O3'))?.value ?? Number.NaN);
  const theory = theoryGrams(start, 0.5, facts('C14H12O2'));
  near('b12', 'benzoinYield', percentYield({ grams: grams(5.681), assayPercent: null }, theory!).value);
});

test('b13: yields of a sequence, and that they multiply', () => {
  const { acetanilide, sulfonamide, sulfanilamide } = caseById('b13').inputs as Record<string, { value: number }>;
  const first = { facts: facts('C8H9NO'), grams: grams(acetanilide!.value) };
  const middle = { facts: facts('C8H10N2O3S'), grams: grams(sulfonamide!.value), assayPercent: null };
  const last = { facts: facts('C6H8N2O2S'), grams: grams(sulfanilamide!.value), assayPercent: null };
  near('b13', 'yield step 1+2', yieldBetween(first, middle)!.value);
  near('b13', 'yield step 3', yieldBetween(middle, last)!.value);
  near('b13', 'overall', yieldBetween(first, last)!.value);
  for (const [name, formula, mass] of [
    ['n(acetanilide)', 'C8H9NO', acetanilide],
    ['n(4-acetamidobenzenesulfonamide)', 'C8H10N2O3S', sulfonamide],
    ['n(sulfanilamide)', 'C6H8N2O2S', sulfanilamide],
  ] as const) {
    const one = read({
      reagents: [{ name, formula, mass: { value: mass!.value, unit: 'g' } }],
      basis: name,
      product: { formula: 'H2O' },
    });
    near('b13', name, one.moles(name));
  }
});

test('b15: forward masses of two steps', () => {
  const start = read({
    reagents: [{ name: 'xylidine', formula: 'C8H11N', mass: { value: 0.5, unit: 'g' } }],
    basis: 'xylidine',
    product: { formula: 'C10H12ClNO' },
  });
  near('b15', 'n(xylidine)', 1000 * start.moles('xylidine'));
  near('b15', 'theoretical chloroamide', start.yield?.theory.value ?? Number.NaN);
  const lidocaine = theoryGrams(start.basis!.moles, 1, facts('C14H22N2O'));
  near('b15', 'theoretical lidocaine', lidocaine!.value);
  near('b15', 'lidocaine at 76.9 % of step 2', lidocaine!.value * 0.769);
  near('b15', 'molarMass lidocaine', facts('C14H22N2O').molarMass!.value);
});

describe.each([
  ['b16', 'C6H12O', '1.99 g', 'C6H10', '0.77 g', [1, 1]],
  ['b24', 'C7H8', '1.0 kg', 'C7H6O2', '1.21 kg', [2, 2]],
] as const)('%s: one start, one product', (id, formula, mass, product, obtained, [basis, coeff]) => {
  const [value, unit] = mass.split(' ');
  const one = read({
    reagents: [{ name: 'start', formula, mass: { value: Number(value), unit: unit ?? '' }, coeff: basis }],
    basis: 'start',
    product: { formula: product, coeff, obtained },
  });
  test('yield', () => near(id, 'yield', one.yield?.lowest?.value ?? Number.NaN));
  test('theory, where the case tells it', () => {
    const told = caseById(id).outputs.some((output) => output.name === 'theoreticalYield');
    if (told) near(id, 'theoreticalYield', one.yield?.theory.value ?? Number.NaN);
    expect(one.yield?.theory.value).toBeGreaterThan(1);
  });
});

test('b25: both by volume and density, two for one', () => {
  const one = caseById('b25').inputs as unknown as Record<'start' | 'product', Required<Reagent>>;
  const start = read({
    reagents: [{ ...one.start, name: 'ethanol', coeff: 2 }],
    basis: 'ethanol',
    product: { formula: one.product.formula },
  });
  const obtained = grams(1000 * one.product.volume.value * one.product.density.value);
  near('b25', 'yield', percentYield({ grams: obtained, assayPercent: null }, start.yield!.theory).value);
});

test('b18: hexaphenylbenzene', () => {
  const one = read(
    preparation('b18', 'tetraphenylcyclopentadienone', {
      tetraphenylcyclopentadienone: 'n(TPCP)',
      diphenylacetylene: 'n(diphenylacetylene)',
    }),
  );
  near('b18', 'n(TPCP)', one.moles('tetraphenylcyclopentadienone'));
  near('b18', 'n(diphenylacetylene)', one.moles('diphenylacetylene'));
  near('b18', 'theoreticalYield', one.yield?.theory.value ?? Number.NaN);
  near('b18', 'yield', one.yield?.lowest?.value ?? Number.NaN);
  expect(one.codes).toEqual([]);
});

test('b19: tert-butylbenzene', () => {
  const one = read(preparation('b19', 't-butyl chloride'));
  near('b19', 'n', one.moles('t-butyl chloride'));
  near('b19', 'theoreticalYield', one.yield?.theory.value ?? Number.NaN);
});

test.each(['b21', 'b22'])('%s: aspirin', (id) => {
  const one = read(preparation(id, 'salicylic acid'));
  expect(one.limiting?.first.name).toBe('salicylic acid');
  near(id, 'theoreticalYield', one.yield?.theory.value ?? Number.NaN);
  near(id, 'yield', one.yield?.lowest?.value ?? Number.NaN);
  near(id, 'equivAnhydride', one.charges.get('c1')?.equivalents?.value ?? Number.NaN);
});

test('b27: the reactant with fewer moles is not the one that limits', () => {
  const one = read(preparation('b27', 'Si'));
  near('b27', 'n(Si)', one.moles('Si'));
  near('b27', 'n(N2)', one.moles('N2'));
  expect(one.limiting?.first.name).toBe('Si');
  const from = (name: string): number => one.limiting?.reaches.find((reach) => reach.name === name)?.turnover.value ?? Number.NaN;
  near('b27', 'product from Si', from('Si'));
  near('b27', 'product from N2', from('N2'));
});
