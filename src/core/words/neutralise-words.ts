import { formatSignificant } from '../quantity/format.ts';
import { fillPart } from './fill-part.ts';
import type { SectionWords } from './section-words.ts';

type Values = Parameters<SectionWords['lines'][string]>[0];
const text = (values: Values, name: string): string => String(values[name] ?? '');
const moles = (values: Values, name: string): string => `${formatSignificant(Number(values[name]), 3)} mol`;
const capital = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);
const agent = (v: Values): string =>
  capital(v.form === '' || v.form === undefined ? text(v, 'material') : `${text(v, 'material')}, ${text(v, 'form')}`);
const excess = (v: Values): string => (Number(v.excess) > 0 ? ` (with ${text(v, 'excess')} % excess)` : '');

export const neutraliseWords: SectionWords = {
  title: 'Neutralise',
  lines: {
    'acid there': (v) => `Acid in the vessel before ${text(v, 'material')} goes in, as equivalents to pH ${text(v, 'pH')}`,
    'base there': (v) => `Base in the vessel before ${text(v, 'material')} goes in, as equivalents to pH ${text(v, 'pH')}`,
    nothing: (v) =>
      `By what is charged, consumed and taken out, there is nothing in the vessel for ${text(v, 'material')} to neutralise to pH ${text(v, 'pH')}. Measure the pH.`,
    'wrong way': (v) =>
      `${text(v, 'material')} moves the pH the other way: by the sum over the vessel it is past pH ${text(v, 'pH')} already. Measure the pH.`,
    mass: (v) => `${agent(v)} needed for it, to pH ${text(v, 'pH')}${excess(v)}`,
    volume: (v) => `${agent(v)} needed for it, by volume${excess(v)}`,
    'carbonate least': (v) =>
      `Above pH 8.3 the amount of ${text(v, 'material')} hangs on how much carbon dioxide leaves on the way. The amount above is with none of it leaving; with all of it leaving${excess(v)}`,
    'on hand': (v) =>
      `With what is on the shelf, ${text(v, 'material')} ${text(v, 'form')}${excess(v)}; the water it brings, and with it heat and volume, is another`,
    'on hand volume': (v) => `The same by volume, ${text(v, 'material')} ${text(v, 'form')}`,
    'too little': (v) => `The planned ${text(v, 'material')} is less than the acid or base there asks for: this part of it`,
    heat: (v) => `Heat of neutralisation with ${text(v, 'material')}`,
    dilution: (v) => `Heat of dilution, of what is there and of ${text(v, 'material')}`,
    temperature: (v) => `Temperature if all the ${text(v, 'material')} went in at once, with neutralisation and dilution`,
    'temperature alone': (v) =>
      `Temperature if all the ${text(v, 'material')} went in at once, from the neutralisation alone: the heat of dilution comes on top and is not known`,
    boils: (v) =>
      `All at once it would boil (${text(v, 'liquid')}: ${formatSignificant(Number(v.boiling), 3)} °C) and throw out what is in the vessel: in portions, with cooling, the temperature watched.`,
    'gas at most': (v) =>
      `Carbon dioxide, the largest possible, if all carbonate that goes in is decomposed (${moles(v, 'moles')}): it foams`,
    vessel: (v) => `Vessel that holds all of it with ${text(v, 'material')}, ${fillPart(v.fill)} full at most`,
    'time by cooling': (v) => `The cooling cannot keep up with an addition of ${text(v, 'material')} shorter than this`,
    rate: (v) => `Rate of ${text(v, 'material')}, all of it in ${formatSignificant(Number(v.minutes), 3)} min as the step says`,
    'excess base': (v) =>
      `${agent({ ...v, material: v.base ?? '' })} that ${text(v, 'material')} beyond the equation asks for later (${moles(v, 'charged')} charged, ${usedText(v)} used, ${moles(v, 'left')} left then). For information: the excess may be the procedure’s safety or its solvent`,
    'excess volume': (v) => `The same by volume, for ${text(v, 'material')}`,
    'excess salt': (v) => `Salt that comes of it, for ${text(v, 'material')}`,
  },
  assumptions: {
    'usual end': 'pH 7 where a charge does not say to which pH it goes;',
    conversion: 'full conversion by the equation; what removals take as the step says;',
    hydrolysed: 'acid halides, anhydrides and hydrides counted as hydrolysed, with all their acid kept in the water;',
    pKa: 'pKa of dilute solutions at 25 °C, also where it is strong or salty;',
    'water left out': 'the little that water itself needs not counted;',
    heat: 'heats of neutralisation of dilute solutions at 25 °C; no heat lost to bath, vessel or leaving gas; a weak base whose heat is not known counted as free acid, which gives more, and left out where less than 2 % of it takes up a proton; no other reaction of the base or acid;',
    capacity: 'heat capacity from the water and a low round figure for the rest, so that the rise comes out high;',
    volumes:
      'volumes added up; the fill by the laboratory’s list, the smaller where carbon dioxide foams, the step is lively or all at once is 50 K or more. The pH in the vessel decides, measured.',
  },
};

function usedText(v: Values): string {
  return Number(v.used) === 0 ? 'none' : moles(v, 'used');
}
