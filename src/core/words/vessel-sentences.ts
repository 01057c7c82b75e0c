import { formatSignificant } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Values = Notice['values'];

const text = (values: Values, name: string): string => String(values[name] ?? '');
const number = (values: Values, name: string): string => formatSignificant(Number(values[name]), 3);

/** Why something about the vessel and the layers is not known; sentences.ts takes these in. */
export const VESSEL_SENTENCES: Readonly<Record<string, (values: Values) => string>> = {
  'nothing in this stage': () => 'By what is charged there is no volume in it.',
  'no volume of it': (v) => `The volume of ${text(v, 'material')} is not known: give its density, its strength or its formula.`,
  'no density for layers': (v) =>
    text(v, 'material') === ''
      ? 'A density that decides is not known.'
      : `The density or the amount of ${text(v, 'material')} is not known here: enter them.`,
  'layers too alike': (v) =>
    text(v, 'loose') === ''
      ? `Their densities are too close to tell (aqueous about ${number(v, 'aqueous')}, organic about ${number(v, 'organic')} g/mL).`
      : `Their densities (aqueous about ${number(v, 'aqueous')}, organic about ${number(v, 'organic')} g/mL) do not tell: where ${text(v, 'loose')} dissolves can turn them over.`,
  'route does not say': (v) =>
    text(v, 'takes') === ''
      ? 'The step does not say which layer this separation takes: enter it (Routes, this step).'
      : `The step takes ${text(v, 'takes')} here, which names no one layer as the one that is taken: enter it (Routes, this step).`,
};
