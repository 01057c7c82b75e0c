import { formatAmount, formatSignificant } from '../quantity/format.ts';
import { fillPart } from './fill-part.ts';
import type { SectionWords } from './section-words.ts';

type Values = Parameters<SectionWords['lines'][string]>[0];
const text = (values: Values, name: string): string => String(values[name] ?? '');
const moles = (values: Values, name: string): string => {
  const shown = formatAmount({ value: Number(values[name]), unit: 'mol', digits: 3 });
  return `${shown.text} ${shown.unit}`;
};
const capital = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);
const named = (v: Values, name = 'material'): string =>
  v.form === '' || v.form === undefined ? text(v, name) : `${text(v, name)}, ${text(v, 'form')}`;
const agent = (v: Values): string => capital(named(v));
const excess = (v: Values): string => (Number(v.excess) > 0 ? ` (with ${text(v, 'excess')} % excess)` : '');
/** Said where the charge has no window and what was before it was hotter than the room. */
const carried = (v: Values): string =>
  v.carried === undefined
    ? ''
    : ', from the hottest the step allows just before, since no window is given here; what a colder charge takes up is not counted';
/** The plan may add more than neutralises; this much of it gives the heat. */
const amountOf = (v: Values): string =>
  v.part === undefined ? `all the ${text(v, 'material')}` : `as much ${text(v, 'material')} as this asks for`;
const hydrolysis = (v: Values, joint: string): string => (v.hydrolysed === undefined ? '' : `${joint} hydrolysis`);

export const neutraliseWords: SectionWords = {
  title: 'Neutralise',
  lines: {
    'acid there': (v) => `Acid in the vessel before ${text(v, 'material')} goes in, as equivalents to pH ${text(v, 'pH')}`,
    'base there': (v) => `Base in the vessel before ${text(v, 'material')} goes in, as equivalents to pH ${text(v, 'pH')}`,
    'not balanced': (v) =>
      `The equation does not balance (${text(v, 'difference')}): acid or base in what it leaves out is not counted, and more ${text(v, 'material')} can be needed, with more heat and gas.`,
    nothing: (v) =>
      `By what is charged, consumed and taken out, there is nothing in the vessel for ${text(v, 'material')} to neutralise to pH ${text(v, 'pH')}. Measure the pH.`,
    'wrong way': (v) =>
      `${text(v, 'material')} moves the pH the other way: by the sum over the vessel it is past pH ${text(v, 'pH')} already. Measure the pH.`,
    mass: (v) => `${agent(v)}, that this asks for, to pH ${text(v, 'pH')}${excess(v)}`,
    volume: (v) => `${agent(v)}, by volume${excess(v)}`,
    'carbonate least': (v) =>
      `Above pH 8.3 the amount of ${text(v, 'material')} hangs on how much carbon dioxide leaves on the way. The amount above is with none of it leaving; with all of it leaving${excess(v)}`,
    'on hand': (v) =>
      `For comparison, as it stands on the shelf: ${text(v, 'material')} ${text(v, 'form')}${excess(v)}; it brings other water, heat and volume`,
    'on hand volume': (v) => `${capital(text(v, 'material'))} ${text(v, 'form')}, by volume`,
    'too little': (v) => `The planned ${text(v, 'material')} is less than the acid or base there asks for: this part of it`,
    heat: (v) => `Heat of neutralisation with ${text(v, 'material')}`,
    hydrolysis: (v) =>
      `Heat of hydrolysis of ${text(v, 'hydrolysed')}, counted as if all of it came now: water may not be done with it`,
    dilution: (v) => `Heat of dilution as ${text(v, 'material')} mixes with what is there`,
    temperature: (v) =>
      `Temperature if ${amountOf(v)} went in at once, with neutralisation${hydrolysis(v, ',')} and dilution${carried(v)}`,
    'temperature alone': (v) =>
      `Temperature if ${amountOf(v)} went in at once, from the neutralisation${hydrolysis(v, ' and')} alone: the heat of dilution comes on top and is not known${carried(v)}`,
    boils: (v) =>
      `All at once it would boil (${text(v, 'liquid')}: ${formatSignificant(Number(v.boiling), 3)} °C) and throw out what is in the vessel: in portions, with cooling, the temperature watched.`,
    'gas at most': (v) =>
      `Carbon dioxide, the largest possible, if all carbonate that goes in is decomposed (${moles(v, 'moles')}): it foams`,
    vessel: (v) => `Vessel that holds all of it with ${text(v, 'material')}, ${fillPart(v.fill)} full at most`,
    'time by cooling': (v) => `The cooling cannot keep up with an addition of ${text(v, 'material')} shorter than`,
    rate: (v) =>
      `Rate of ${text(v, 'material')} where all of it goes in over the ${formatSignificant(Number(v.minutes), 3)} min of the step`,
    'excess base': (v) =>
      `For information only, since the excess may be the procedure’s safety or its solvent: the excess of ${text(v, 'material')} (${moles(v, 'charged')} charged, ${usedText(v)} used by the equation, ${moles(v, 'left')} left then) later asks for ${named(v, 'base')}`,
    'excess volume': (v) => `The same by volume, for the excess of ${text(v, 'material')}`,
    'excess salt': (v) => `Salt from the excess of ${text(v, 'material')}`,
  },
  assumptions: {
    'usual end': 'pH 7 where a charge does not say to which pH it goes;',
    conversion: 'full conversion by the equation; what removals take as the step says;',
    hydrolysed: 'acid halides, anhydrides and hydrides counted as hydrolysed, with all their acid kept in the water;',
    pKa: 'pKa of dilute solutions at 25 °C, also where it is strong or salty; what holds by its structure only alcohol, ether, carbonyl, ester, amide, nitrile, aromatic nitro groups and halides counted as neither acid nor base;',
    'water left out': 'the little that water itself needs not counted;',
    heat: 'heats of neutralisation of dilute solutions at 25 °C; no heat lost to bath, vessel or leaving gas; a carboxylic acid (pKa 2 or more) whose heat is not known counted like those of the table, 0 ± 5 kJ for each mole of protons, and its dissolving, which mostly takes heat up, left out; so is the dissolving of a hydrogen sulfate; a weak base whose heat is not known counted as free acid, which gives more, and left out where less than 2 % of it takes up a proton; no other reaction of the base or acid;',
    capacity: 'heat capacity from the water and a low round figure for the rest, so that the rise comes out high;',
    volumes:
      'volumes added up; the fill by the laboratory’s list, the smaller where carbon dioxide foams, the step is lively, all at once is 50 K or more, or its heat is not known and could be so much (80 kJ for each mole of protons at the most, an estimate). The pH in the vessel decides, measured.',
  },
};

function usedText(v: Values): string {
  return Number(v.used) === 0 ? 'none' : moles(v, 'used');
}
