import { formatSignificant } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Sentence = (values: Notice['values']) => string;

const text = (values: Notice['values'], name: string): string => String(values[name] ?? '');
const figure = (values: Notice['values'], name: string, digits = 4): string => formatSignificant(Number(values[name]), digits);
/** Printed and worked out side by side, in mmol where the print is below a tenth of a mole. */
const moles = (values: Notice['values'], name: 'printed' | 'computed'): string => {
  const [factor, unit] = Number(values['printed']) < 0.1 ? [1000, 'mmol'] : [1, 'mol'];
  const value = Number(values[name]) * factor;
  return `${name === 'printed' ? Number(value.toPrecision(12)) : formatSignificant(value, 4)} ${unit}`;
};
const signed = (values: Notice['values'], name: string): string => {
  const value = Number(values[name]);
  return `${formatSignificant(Math.abs(value), 2)} % ${value < 0 ? 'too little' : 'too much'}`;
};
const RULES: Readonly<Record<string, string>> = {
  equivalents: 'its moles',
  'mass ratio': 'its mass and that of the basis',
  volumes: 'its volume and the mass of the basis',
  'molar volume': 'its volume',
  'to concentration': 'its volume',
  'make up to': 'its volume',
  'per batch': 'a mass or a volume',
  'to neutralise': 'what is in the pot',
};

/** What is said about a procedure as printed. */
export const PROCEDURE_SENTENCES: Readonly<Record<string, Sentence>> = {
  'printed moles': (v) =>
    `${text(v, 'material')}: the print says ${moles(v, 'printed')}, but its amount comes to ${moles(v, 'computed')}, so the printed figure is ${signed(v, 'off')}. One of the two is misprinted; the ratio follows the amount.`,
  'printed by another density': (v) =>
    `${text(v, 'material')}: the print says ${moles(v, 'printed')}; at ${figure(v, 'density')} g/mL its volume comes to ${moles(v, 'computed')} (the print would need ${figure(v, 'implied', 3)} g/mL). Another density was used, or one of the two is misprinted; the ratio follows the volume.`,
  'printed moles cut off': (v) =>
    `${text(v, 'material')}: ${moles(v, 'computed')} is printed as ${moles(v, 'printed')}: cut off, not rounded.`,
  'printed moles round': (v) =>
    `${text(v, 'material')}: ${moles(v, 'printed')} is printed for ${moles(v, 'computed')}: right only as a round number.`,
  'hidden hydrate': (v) =>
    `${text(v, 'material')}: the printed ${moles(v, 'printed')} agree with ${text(v, 'formula')}, not with ${text(v, 'own')} as it stands here (${moles(v, 'computed')}). ${
      /H2O/.test(text(v, 'own'))
        ? 'One of the two is misprinted, or another salt was used'
        : 'The name hides how much water it holds'
    }: look at the label, and give the formula that was used.`,
  'water unsaid': (v) =>
    `${text(v, 'material')} is taken as ${text(v, 'formula')}: its name does not say the water. The anhydrous substance would be more moles for the same mass.`,
  'printed as pure': (v) =>
    `${text(v, 'material')}: the printed ${moles(v, 'printed')} take it as pure; at its strength it is ${moles(v, 'computed')}.`,
  'printed volume': (v) =>
    `${text(v, 'material')}: ${text(v, 'grams')} g and ${text(v, 'printed')} mL are printed, but at ${figure(v, 'density')} g/mL the mass is ${figure(v, 'computed')} mL (the pair would need ${figure(v, 'implied', 3)} g/mL). One of the two is misprinted; the ratio follows the mass.`,
  'printed equivalents': (v) =>
    `${text(v, 'material')}: ${text(v, 'printed')} equiv is printed, but the amounts come to ${figure(v, 'computed')} equiv. The ratio follows what is printed.`,
  'ratio by amount': (v) =>
    `${text(v, 'material')}: how many moles it holds is not known, so ${text(v, 'printed')} ${text(v, 'unit')} could not be checked, and the ratio follows the printed amount. Of a metal on a support give the formula of the metal, and its content as % w/w.`,
  'printed ratio': (v) =>
    `${text(v, 'material')}: ${text(v, 'printed')} ${text(v, 'unit')} is printed, but the amounts come to ${figure(v, 'computed')} ${text(v, 'unit')}. The ratio follows what is printed.`,
  'printed amounts: another limits': (v) =>
    `${text(v, 'material')} limits, not ${text(v, 'basis')}: it covers ${figure(v, 'percent')} % of what the basis needs. The yield is still told against the basis.`,
  'printed yield': (v) =>
    `The print says a yield of ${text(v, 'printed')} %, but its amounts give ${figure(v, 'computed')} %. ${
      v['kept'] === undefined
        ? 'The expected yield follows the amounts.'
        : `The expected yield stays as entered, ${text(v, 'kept')} %.`
    }`,
  'printed yield kept': (v) =>
    `The print comes to a yield of ${text(v, 'computed')} %; the expected yield stays as entered, ${text(v, 'kept')} %.`,
  'printed yield cut off': (v) =>
    `A yield of ${figure(v, 'computed')} % is printed as ${text(v, 'printed')} %: cut off, not rounded.`,
  'printed yield over': (v) =>
    `The printed product comes to ${figure(v, 'computed')} % of theory (${figure(v, 'theory')} g): is it dry, and is its assay known?`,
  'ratio not printed': (v) =>
    `${text(v, 'material')}: the print comes to ${text(v, 'printed')}, and the ratio used is ${text(v, 'used')}.`,
  'no printed basis': (v) => `${text(v, 'material')}: the printed amount of the basis is needed for its ratio.`,
  'not on this rule': (v) =>
    `${text(v, 'material')}: this ratio needs ${RULES[text(v, 'rule')] ?? 'another amount'}, which cannot be told from the print.`,
  'excess of what': () => 'An excess is over what the equation needs, and the equation does not use this material.',
};
