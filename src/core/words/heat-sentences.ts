import { formatSignificant } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Values = Notice['values'];

const text = (values: Values, name: string): string => String(values[name] ?? '');
const number = (values: Values, name: string): string => formatSignificant(Number(values[name]), 3);

/** As the sections of bench numbers are headed. */
export const SECTION_TITLES: Readonly<Record<string, string>> = {
  heat: 'Heat',
  addition: 'Addition',
  neutralise: 'Neutralise',
  gas: 'Gas',
  vessel: 'Vessel',
  recrystallise: 'Recrystallisation',
};

/** Why a figure about heat is not known, and what to enter; sentences.ts takes these in. */
export const HEAT_SENTENCES: Readonly<Record<string, (values: Values) => string>> = {
  'reason before': () => 'The reason stands before it.',
  'reason under': (v) => `The reason stands under “${SECTION_TITLES[text(v, 'section')] ?? text(v, 'section')}”.`,
  'no heat entered': () =>
    'No heat of reaction is entered for this step: enter a measured one, a trial, heats of formation, or choose a typical value (Routes, this step).',
  'no heat of formation': (v) => `The heat of formation of ${text(v, 'materials')} is missing: enter it with the step.`,
  'no such typical heat': (v) => `“${text(v, 'name')}” is not in the table of typical heats: choose another, or enter a value.`,
  'heat of another species': (v) => `The heat is per mol of ${text(v, 'material')}, which is not in the equation of this step.`,
  'mass not known': (v) => `The mass of ${text(v, 'material')} is not known: give its density or its strength.`,
  'moles not known': (v) => `The moles of ${text(v, 'material')} are not known: give its formula, and its strength or density.`,
  'protons not known': (v) =>
    `How much acid or base a mole of ${text(v, 'material')} takes up is not known here: work it out and cool for it.`,
  'nothing in the vessel': () => 'Nothing that the equation uses is charged, so there is no mixture to warm.',
  'no temperature window': () =>
    'The procedure names no temperature from the last reactant on: enter the window of its charge or of the hold after it.',
  'reflux not known': () =>
    'At which temperature it boils under reflux is not known: no boiling point, or no amount, of what is in the vessel. Enter the temperature.',
  'no MTT and no T_D24': () =>
    'Neither the technical limit (MTT) nor the temperature at which decomposition runs away in a day (T_D24) is entered: the class needs both, T_D24 from calorimetry.',
  'no MTT': () => 'The technical limit (MTT: boiling, or what the vessel stands) is not entered.',
  'no T_D24': () =>
    'The temperature at which decomposition runs away in a day (T_D24) is not entered: it needs calorimetry of the mixture.',
  'process above T_D24': (v) =>
    `The process temperature, ${number(v, 'process')} °C, is itself at or above T_D24, ${number(v, 'decomposition')} °C: outside the classes. Do not run it like this.`,
  'heat is taken up': () => 'By the heat entered this reaction takes heat up: cooling does not limit the addition, warming may.',
  'no known addition': () => 'No time of a known addition is entered.',
  'no scale to compare': () => 'A known addition needs its amount of basis and a batch larger than zero to be held against.',
  'no cooling difference': (v) =>
    `The mixture at ${number(v, 'mixture')} °C is not warmer than what cools it at ${number(v, 'coolant')} °C: nothing is carried away.`,
};
