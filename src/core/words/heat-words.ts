import { formatSignificant } from '../quantity/format.ts';
import type { SectionWords } from './section-words.ts';

const text = (v: Readonly<Record<string, string | number>>, name: string): string => String(v[name] ?? '');
const capital = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);
const figure = (value: unknown, digits = 3): string => formatSignificant(Number(value), digits);

/** Where a heat of reaction is from. */
const FROM: Readonly<Record<string, (v: Readonly<Record<string, string | number>>) => string>> = {
  entered: (v) => (v.source === '' ? 'as entered, without a source' : `source: ${v.source}`),
  trial: (v) => `from a trial${v.source === '' ? '' : `, ${v.source}`}: what the vessel took up and lost is not in it`,
  formation: () => 'from the heats of formation entered',
  typical: (v) =>
    `typical of ${v.row}, ${figure(v.least)} to ${figure(v.most)} kJ per mol of ${v.per}, the most of it taken; check that one mol of ${v.material} is one mol of that`,
};

/** What each class of criticality says, and what it does not. */
const CLASSES: Readonly<Record<string, string>> = {
  1: 'by these four figures alone neither the technical limit nor the decomposition is reached when cooling is lost; wrong charges, gas and side reactions are not in them',
  2: 'the decomposition is not reached by the reaction alone, but the technical limit lies above it and does not stop a mixture that is kept hot',
  3: 'the technical limit is passed when cooling is lost: it boils or builds up pressure, and has to be made to hold there',
  4: 'the decomposition can be set off when cooling is lost; only the technical limit stands before it',
  5: 'the decomposition is set off when cooling is lost, and nothing stands before it: do not run it like this.',
};

const because: Readonly<Record<string, string>> = {
  gas: '; gas is freed or charged, so it is medium at least',
  boils: '; it boils, so it is medium at least',
};

export const heatWords: SectionWords = {
  title: 'Heat',
  lines: {
    reaction: (v) =>
      v.by === undefined
        ? 'Heat of the reaction, and with it the rise, the highest temperature and the class'
        : `Heat of the reaction ${Number(v.each) < 0 ? 'taken up (negative)' : 'given off'} (${figure(v.each)} kJ per mol of ${v.material}; ${FROM[String(v.by)]?.(v) ?? ''})`,
    'typical caution': (v) => `The typical heat of reaction leaves out: ${v.caution}`,
    rise: (v) =>
      `All of the heat at once, cooling lost: a rise of ${figure(v.kelvin)} K${v.extra === 'yes' ? ', dilution, hydrolysis and neutralisation counted' : ''}`,
    fall: (v) => `All of the heat taken up at once: a fall of ${figure(Math.abs(Number(v.kelvin)))} K`,
    'rise alone': (v) =>
      `All of the heat at once, cooling lost: a rise of${v.extra === 'yes' ? ', dilution, hydrolysis and neutralisation counted' : ''}`,
    'fall alone': () => 'All of the heat taken up at once: a change of',
    process: () => 'From which temperature, to which',
    boils: (v) =>
      `All of the heat at once, cooling lost, reaches the boiling of ${v.material}: vapour, pressure, and the vessel can boil over. ${capital(text(v, 'material'))} boils at`,
    boiling: (v) => `What boils first in the vessel, ${v.material}, boils at`,
    'boiling unknown': (v) => `The boiling point of ${v.materials} is not known here: it may boil sooner`,
    capacity: () => 'Heat capacity of the mixture, from the charges',
    'capacity partly assumed': (v) =>
      `Heat capacity of the mixture; for ${figure(v.percent, 2)} % of its mass assumed low, J/(g·K): ${[...new Set(text(v, 'materials').split(', '))].join(', ')}`,
    highest: (v) =>
      v.accumulation === 'at once'
        ? 'Highest temperature the reaction itself can reach, cooling lost (MTSR), everything in at once'
        : v.accumulation === 'unknown'
          ? 'Highest temperature the reaction itself can reach, cooling lost (MTSR); how much is held back during the addition is not known and counts as all of it'
          : `Highest temperature the reaction itself can reach, cooling lost (MTSR), ${figure(v.accumulation)} % held back during the addition, at its worst moment`,
    severity: (v) =>
      `Severity of a rise of ${figure(v.kelvin)} K, in Stoessel’s words: ${v.word}${because[String(v.because)] ?? ''} (below 50 K negligible, to 200 K medium, to 400 K critical, above catastrophic); not how likely it is, and without gas, poison and fire`,
    class: (v) =>
      v.class === undefined
        ? 'Criticality class (Stoessel 1993)'
        : `Criticality class ${v.class} of 5 (Stoessel 1993), MTT ${v.technical} °C, T_D24 ${v.decomposition} °C: ${CLASSES[String(v.class)] ?? ''}`,
    hydrolysis: (v) =>
      `Heat of hydrolysis as ${text(v, 'material')} turns what is there into its acid or base (it can start late and then come all at once)`,
    'extra rise': (v) =>
      `All the ${text(v, 'material')} at once, without cooling, from the heats beside the reaction${v.partly === 'yes' ? '; a heat that is not known comes on top' : ''}${v.carried === 'yes' ? '; from the hottest the step allows just before, since no window is given here; what a colder charge takes up is not counted' : ''}`,
    'extra boils': (v) =>
      `All the ${text(v, 'material')} at once: it can boil (${text(v, 'liquid')}: ${figure(v.boiling)} °C) and throw out what is in the vessel. In portions, with cooling, the temperature watched.`,
    dilution: (v) => `Heat of dilution as ${text(v, 'material')} mixes with what is there`,
    neutralisation: (v) =>
      `Heat of neutralisation as ${text(v, 'material')} brings acid and base together beside the reaction${
        text(v, 'uncounted') === '' ? '' : `, without ${text(v, 'uncounted')}, whose pKa is not known`
      }`,
  },
  assumptions: {
    adiabatic:
      'nothing lost to bath, vessel or air; heat capacities at 25 °C and constant; no decomposition and no side reaction; the basis reacts away wholly; what is charged after the last reactant takes up nothing. Two liquids that boil together lower than either are looked up; three, and pairs that the table has not, can boil lower still.',
    convention:
      'The words of severity and the classes are those of Stoessel (1993; 2008, from memory); they do not replace calorimetry.',
    'extra heats':
      'Heats of dilution hold for water at 25 °C, of solutes that give or take 5 kJ/mol or more, each with all of the water; what is left after the first removal is not followed. Ice counts as water: what it takes to melt is left out, so that the rise comes out high. Hydrolysis: as far as it goes, with all that it frees kept in the water. Acids and bases: what the equation does not use, as in dilute water at 25 °C, also where it is in another solvent; what the equation makes of them counts as free until then; one whose heat is not known is left out where less than 2 % of it moves. Where a charge neutralises, its heat stands under “Neutralise”.',
    'extra not known': 'A heat of dilution or neutralisation that is not known is not in the sum: the rise is higher by it.',
  },
};
