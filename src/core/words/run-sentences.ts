import type { Notice } from './notice.ts';

type Values = Notice['values'];
const text = (values: Values, name: string): string => String(values[name] ?? '');

/** What a run's record refuses, and what of its outcome cannot be told. */
export const RUN_SENTENCES: Readonly<Record<string, (values: Values) => string>> = {
  'run not started': () => 'A run begins with its start.',
  'run started already': () => 'This run has been started already.',
  'run finished': () => 'This run is finished: only a product, a check, a remark, a file or a correction can be added.',
  'run paused': () => 'This run is paused: go on with it first.',
  'run not paused': () => 'This run is not paused.',
  'no such entry': (v) => `The record has no entry ${text(v, 'number')}.`,
  'entry not corrected': (v) => `Entry ${text(v, 'number')} (${text(v, 'kind')}) cannot be corrected; write a remark.`,
  'initials not understood': (v) =>
    `Initials need one to twenty letters or figures, a letter among them (got “${text(v, 'text')}”).`,
  'factor not understood': (v) => `A factor needs a number from 0.001 to 1000 (got “${text(v, 'text')}”).`,
  'temperature not understood': (v) => `A temperature needs a number of °C, such as 62 °C (got “${text(v, 'text')}”).`,
  'assay not understood': (v) => `An assay needs a number above 0, up to 100 (got “${text(v, 'text')}”).`,
  'product mass not understood': (v) => `A product needs a net mass, such as 8.914 g (got “${text(v, 'text')}”).`,
  'code misread': () => 'That code was misread. Scan it again, or type the label.',
  'correction of another kind': (v) =>
    `Entry ${text(v, 'number')} is of the kind “${text(v, 'kind')}”: what replaces it needs to be one too (got “${text(v, 'instead')}”).`,
  'no such operation': (v) => `The sheet has no operation ${text(v, 'operation')}.`,
  'no such caution': () => 'The sheet does not say this caution there.',
  'confirmed already': () => 'This has been confirmed already.',
  'charge complete': (v) => `${text(v, 'material')} is weighed completely. To change it, correct its entry.`,
  'portion out of turn': (v) => `Portion ${text(v, 'next')} is next (got ${text(v, 'portion')}).`,
  'net is not gross less tare': (v) =>
    `The net needs to be gross less tare (got ${text(v, 'gross')} − ${text(v, 'tare')} and ${text(v, 'net')}).`,
  'crop weighed already': (v) => `Crop ${text(v, 'crop')} has been weighed already: correct its entry.`,
  'crop dry already': (v) => `Crop ${text(v, 'crop')} has been weighed dry already.`,

  'basis not weighed': (v) => `not known, because the basis ${text(v, 'material')} has not been weighed`,
  'basis moles unknown': (v) =>
    `not known, because the moles of the basis ${text(v, 'material')} cannot be told: enter its formula and its assay`,
  'product not weighed': (v) => `not known, because no dry product ${text(v, 'material')} has been weighed`,
  'nothing charged': () => 'not known, because nothing has been charged',
  'charge mass unknown': (v) =>
    `not known, because ${text(v, 'material')} was measured by volume and no density is known: enter its density`,
  'earlier yield unknown': (v) => `not known, because the yield of the run that filled ${text(v, 'bottle')} is not known`,

  'reading empty': () => 'Nothing was typed.',
  'reading not understood': (v) => `“${text(v, 'text')}” is not understood: a number and g, mg, kg or mL, such as 12.345 g.`,
  'reading below zero': (v) => `The balance shows ${text(v, 'text')}, below zero: tare it and weigh again.`,
  'reading is zero': () => 'The balance shows zero: nothing is on it.',
  'reading too large': (v) =>
    `One weighing needs to be at most ${text(v, 'most')} (got ${text(v, 'text')}): look at the number and its unit.`,
  'gross without tare': () => 'A gross weight needs its tare first.',
  'gross not above tare': (v) => `The gross needs to be above the tare (got ${text(v, 'gross')} g, tare ${text(v, 'tare')} g).`,
  'weighed without density': (v) =>
    `${text(v, 'material')} is planned in ${text(v, 'unit')} and no density is known: measure it in ${text(v, 'unit')}, or enter its density.`,
  'dish not whole': (v) =>
    `“all” is for a dish that goes in whole, after the bottles that are planned with it: weigh the ${text(v, 'material')} that goes in.`,
  'balance unstable': () => 'The balance was still moving: wait until it stands still, and print again.',
  'balance overloaded': () => 'The balance shows too much or too little load, not a weight.',
};
