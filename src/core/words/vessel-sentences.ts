import { formatSignificant } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Values = Notice['values'];

const text = (values: Values, name: string): string => String(values[name] ?? '');
/** Which layer is which, where densities do not tell. */
const FIND_OUT = 'Find out with a drop of water, and keep both.';
const KEEP_BOTH = 'Keep both layers until the product is found in one.';
const number = (values: Values, name: string): string => formatSignificant(Number(values[name]), 3);

/** Why something about the vessel and the layers is not known; sentences.ts takes these in. */
export const VESSEL_SENTENCES: Readonly<Record<string, (values: Values) => string>> = {
  'wash of nothing': (v) =>
    `${text(v, 'material')} is called a wash, but nothing is filtered off or separated before it in this step: it is counted in the vessel, with all that meets it there. To wash a solid, add the filtration before it; to wash layers, the separation behind it.`,
  'nothing in this stage': () => 'By what is charged there is no volume in it.',
  'no volume of it': (v) => `The volume of ${text(v, 'material')} is not known: give its density, its strength or its formula.`,
  'no density for layers': (v) =>
    text(v, 'material') === ''
      ? `A density that decides is not known. ${FIND_OUT}`
      : `The density or the amount of ${text(v, 'material')} is not known here: enter them. ${FIND_OUT}`,
  'layers too alike': (v) =>
    text(v, 'loose') === ''
      ? `Their densities are too close to tell (aqueous about ${number(v, 'aqueous')}, organic about ${number(v, 'organic')} g/mL). ${FIND_OUT}`
      : `Their densities (aqueous about ${number(v, 'aqueous')}, organic about ${number(v, 'organic')} g/mL) do not tell: where ${text(v, 'loose')} dissolves can turn them over. ${FIND_OUT}`,
  'route does not say': (v) =>
    text(v, 'takes') === ''
      ? `The step does not say which layer this separation takes: enter it (Routes, this step). ${KEEP_BOTH}`
      : `The step takes ${text(v, 'takes')} here, which names no one layer as the one that is taken: enter it (Routes, this step). ${KEEP_BOTH}`,
};
