import { expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import {
  atomEconomy,
  eFactor,
  eFactorOfWaste,
  formedBeside,
  massIntensity,
  reactionMassEfficiency,
} from '../../src/core/outcome/metrics.ts';
import { percentYield, theoryGrams } from '../../src/core/outcome/yield.ts';
import { computed, entered, type Figure } from '../../src/core/quantity/figure.ts';
import { near } from './amounts.ts';
import { caseById } from './cases.ts';
import { reference } from './tables.ts';

// Topic i: atom economy, E-factor, mass intensity, reaction mass efficiency. Sources stand in cases.json.

const grams = (value: number): Figure<'g'> => entered('mass', value, 'g', 'the case');
const mass = (formula: string): Figure<'g/mol'> => {
  const found = factsOf({ name: formula, formula }, reference).molarMass;
  if (!found) throw new Error(`${formula} has no molar mass`);
  return found;
};
const times = (count: number, formula: string): Figure => {
  const one = mass(formula);
  return computed(formula, count * one.value, 'g/mol', 'coefficient × molar mass', [one]);
};
const quantity = (id: string, name: string): { value: number } => caseById(id).inputs[name] as { value: number };

test('i01, i03, i09: atom economy', () => {
  near(
    'i01',
    'atomEconomy',
    atomEconomy(grams(quantity('i01', 'product').value), [grams(quantity('i01', 'reactants').value)]).value,
  );
  const uses = (caseById('i03').inputs['reactants'] as string[]).map(mass);
  near('i03', 'atomEconomy', atomEconomy(mass('C4H9Br'), uses).value);
  near('i09', 'atomEconomy', atomEconomy(mass('C9H8O4'), [mass('C7H6O3'), mass('C4H6O3')]).value);
});

test('i04: experimental atom economy, and what the yield makes of it', () => {
  const { inputs, theoretical, actual } = caseById('i04').inputs as unknown as Record<'inputs', { value: number[] }> &
    Record<'theoretical' | 'actual', { value: number }>;
  const reactants = inputs.value.map(grams);
  const experimental = reactionMassEfficiency(grams(theoretical.value), reactants).value;
  near('i04', 'experimentalAE', experimental);
  const efficiency = reactionMassEfficiency(grams(actual.value), reactants).value;
  near('i04', 'yield x AE = RME', efficiency);
  const yielded = percentYield({ grams: grams(actual.value), assayPercent: null }, grams(theoretical.value)).value;
  expect((yielded * experimental) / 100).toBeCloseTo(efficiency, 10);
});

test('i06: maleic anhydride', () => {
  near('i06', 'atomEconomy', atomEconomy(mass('C4H2O3'), [times(1, 'C4H8'), times(3, 'O2')]).value);
  const butene = entered('butene', 1000 / mass('C4H8').value, 'mol', 'the case');
  const anhydride = factsOf({ name: 'maleic anhydride', formula: 'C4H2O3' }, reference);
  const theory = theoryGrams(butene, 1, anhydride);
  const obtained = grams(1000 * quantity('i06', 'product').value);
  near('i06', 'yield', percentYield({ grams: obtained, assayPercent: null }, theory as Figure<'g'>).value);
  const made = entered('made', obtained.value / mass('C4H2O3').value, 'mol', 'the case');
  near('i06', 'H2O', formedBeside(made, 3, mass('H2O'), 'water').value);
});

test('i07, i12: E-factor, mass intensity and the water convention', () => {
  const product = grams(1000 * quantity('i07', 'product').value);
  near('i07', 'E', eFactorOfWaste([grams(1000 * quantity('i07', 'waste').value)], product).value);
  const input = { name: 'all', grams: grams(1000 * (quantity('i07', 'waste').value + 1)), water: 0 };
  const intensity = massIntensity([input], product).withWater;
  near('i07', 'PMI', intensity.value);
  expect(eFactor(intensity).value).toBeCloseTo(25, 12);
  const [organic = 0, water = 0] = (caseById('i12').inputs['waste'] as { value: number[] }).value;
  near('i12', 'E without water', eFactorOfWaste([grams(organic)], grams(1)).value);
  near('i12', 'E with water', eFactorOfWaste([grams(organic), grams(water)], grams(1)).value);
  const inputs = [
    { name: 'organic', grams: grams(organic + 1), water: 0 },
    { name: 'water', grams: grams(water), water },
  ];
  near('i12', 'E without water', eFactor(massIntensity(inputs, grams(1)).withoutWater).value);
  near('i12', 'E with water', eFactor(massIntensity(inputs, grams(1)).withWater).value);
});

test('i10: a published preparation', () => {
  const masses = caseById('i10').inputs['masses'] as Record<string, number>;
  const product = grams(quantity('i10', 'product').value);
  const all = Object.entries(masses).map(([name, value]) => ({ name, grams: grams(value), water: 0 }));
  near('i10', 'PMI', massIntensity(all, product).withWater.value);
  near('i10', 'E (all solvent as waste)', eFactor(massIntensity(all, product).withWater).value);
  near('i10', 'atomEconomy', atomEconomy(mass('C29H20O'), [mass('C14H10O2'), mass('C15H14O')]).value);
  near(
    'i10',
    'RME',
    reactionMassEfficiency(product, [grams(masses['benzil'] ?? 0), grams(masses['dibenzyl ketone'] ?? 0)]).value,
  );
});
