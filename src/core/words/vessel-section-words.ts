import { formatSignificant } from '../quantity/format.ts';
import { fillPart } from './fill-part.ts';
import type { SectionWords } from './section-words.ts';

type Values = Parameters<SectionWords['lines'][string]>[0];
const text = (v: Values, name: string): string => String(v[name] ?? '');
const figure = (value: unknown, digits = 3): string => formatSignificant(Number(value), digits);
const capital = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);
const stage = (v: Values): string => capital(text(v, 'stage'));

/** " at its fullest: 62 % of the 500 mL flask (two thirds at most)". */
function fill(v: Values): string {
  if (text(v, 'vessel') === '') return ' at its fullest';
  const share = Number(v.percent) < 1000 ? `${figure(v.percent, 2)} %` : `${figure(Number(v.percent) / 100, 2)} times the volume`;
  return ` at its fullest: ${share} of the ${text(v, 'vessel')} (${fillPart(v.most)} at most)`;
}

const moment = (v: Values): string =>
  text(v, 'with') !== ''
    ? `with ${text(v, 'with')} in it`
    : text(v, 'before') !== ''
      ? `before the ${HOW[text(v, 'before')]}`
      : '';
const HOW: Readonly<Record<string, string>> = {
  filter: 'filtration',
  separate: 'separation',
  distil: 'distillation',
  dry: 'drying',
  'wash away': 'washing',
  vent: 'venting',
};

/** "carbon dioxide is freed and all its heat at once is a rise of 80 K", or what the step says. */
function because(v: Values): string {
  const gas = text(v, 'gases') === '' ? [] : [`${text(v, 'gases')} ${text(v, 'gases').includes(',') ? 'come' : 'comes'} off`];
  const heat = Number(v.kelvin) > 0 ? [`its heat all at once is a rise of ${figure(v.kelvin)} K`] : [];
  const unsure = text(v, 'unsure') === '' ? [] : ['the heat of its neutralisation is not known'];
  const all = [...gas, ...heat, ...unsure];
  return all.length === 0 ? 'the step says that it foams, gases or grows hot' : all.join(', and ');
}

const layer = (v: Values): string => {
  const density = v.density === '' ? 'density not known' : `about ${figure(v.density)} g/mL`;
  const assumed = text(v, 'assumed') === '' ? '' : ` (density taken for ${text(v, 'assumed')})`;
  return `the ${text(v, 'layer')}, mostly ${text(v, 'main')}, ${density}${assumed}`;
};

const WHERE: Readonly<Record<string, string>> = {
  vessel: 'in the vessel',
  'filter flask': 'filtrate and washings together, under the filter',
  funnel: 'both layers in the funnel',
};

export const vesselSectionWords: SectionWords = {
  title: 'Vessel',
  lines: {
    stage: (v) => `${stage(v)}${fill(v)}`,
    'stage too full': (v) => `${stage(v)}${fill(v)}: too full. More batches, or a larger vessel`,
    decides: (v) =>
      `${stage(v)} decides${moment(v) === '' ? '' : `, ${moment(v)}`}. Least nominal volume of the vessel, ${fillPart(v.fill)} full at most`,
    margin: (v) => `${stage(v)}: ${because(v)}, so half full at most, in a vessel of at least`,
    'margin passed': (v) =>
      `${stage(v)}: ${because(v)}, so half full at most, and this vessel would be fuller${
        v.counted === 'yes'
          ? ''
          : '. The number of batches does not count this: say in Routes that the stage foams, gases or is strongly exothermic'
      }. It takes a vessel of at least`,
    'margin unknown': (v) => `${stage(v)}: whether its heat asks for a vessel at most half full`,
    'left out': (v) => `Volume of ${text(v, 'material')}, which is missing from every volume of this step`,
    'on the filter': (v) =>
      `${capital(text(v, 'material'))} on the filter, at most${
        Number(v.portions) > 1 ? `, in ${text(v, 'portions')} portions` : ''
      }; not counted in the vessel`,
    'filter flask': (v) => `Filtrate and washings of ${text(v, 'stage')}, at most: the flask under the filter holds them`,
    upper: (v) => `Upper layer: ${layer(v)}`,
    lower: (v) => `Lower layer: ${layer(v)}`,
    layer: (v) => `${capital(layer(v))}`,
    order: () => 'Which layer lies above',
    'one layer': (v) =>
      `All the liquid here counts as ${text(v, 'layer')} (mostly ${text(v, 'main')}): by what is charged there is nothing to separate it from. Look at the step, keep everything.`,
    'no layer': () => 'By what is charged there is no liquid here to separate. Look at the step.',
    loose: (v) =>
      `In which layer ${text(v, 'materials')} dissolves is not worked out: the layers are counted without, the funnel with.`,
    mixing: (v) =>
      `${capital(text(v, 'materials'))} counts in the aqueous layer but goes into both: volumes and densities are rough, and the layers may part badly or not at all.`,
    'product stays': (v) =>
      `By what the step takes, the product stays in the ${text(v, 'layer')}. Keep both layers until it is found in one.`,
    product: () => 'In which layer the product is',
    funnel: (v) =>
      v.name === ''
        ? 'Separating funnel for both layers'
        : `Separating funnel, both layers (${figure(v.both)} mL) filling it ${fillPart(v.fill)} at most: the ${text(v, 'name')} of the list. At least`,
    'funnel too small': (v) =>
      `No separating funnel of the list is large enough for both layers (${figure(v.both)} mL): with the ${text(v, 'largest')} in ${text(v, 'portions')} portions. Needed for all at once`,
    'no funnel': (v) =>
      `The laboratory’s list has no separating funnel. For both layers (${figure(v.both)} mL), ${fillPart(v.fill)} full at most`,
    held: (v) => `Largest volume to be held: ${WHERE[text(v, 'where')] ?? ''} (${text(v, 'stage')})`,
    'held at least': (v) =>
      `Largest volume to be held, of what is known, so more than this: ${WHERE[text(v, 'where')] ?? ''} (${text(v, 'stage')})`,
  },
  assumptions: {
    'added up':
      'volumes as charged added up, what goes on until an end point with its largest amount, removals taken out as the step says; nothing shrinks, expands, boils away or is thrown out;',
    estimated: 'where a density is not known, 1.3 g/mL for a solid and 1 g/mL for a liquid (common practice, no source);',
    fills:
      'the largest fills are the laboratory’s own; half full where gas comes off, where all heat at once is 50 K or more, and where the heat of a neutralisation is not known and could be so much (80 kJ for each mole of protons at the most, an estimate); foam can need more room than half.',
    filter:
      'A charge after a filtration that keeps the solid, without a hold before the next removal, is taken to be poured on the filter.',
    layers:
      'Layers: liquids by their nature, two that do not mix, at 20 °C, additive; how solutes and solvents spread between them, what acids and bases turn into there, emulsions and the pressure of shaking are not worked out. Densities only screen.',
  },
};
