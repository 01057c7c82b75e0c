import { formatSignificant } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Values = Notice['values'];

const text = (values: Values, name: string): string => String(values[name] ?? '');
const number = (values: Values, name: string, digits: number): string =>
  formatSignificant(Number(values[name]), digits).replace('-', '−');
const celsius = (values: Values): string => `${Math.round(Number(values.celsius))} °C`;

/** What the core says about making, mixing and replacing solutions; sentences.ts takes these in. */
export const SOLUTION_SENTENCES: Readonly<Record<string, (values: Values) => string>> = {
  'saturated: known': (v) =>
    `${text(v, 'material')}, saturated: where none stands on the shelf it can be made up from the solid. At ${celsius(v)} 100 g of water dissolve ${number(v, 'grams', 3)} g of it (${text(v, 'source')}), ${number(v, 'perMillilitre', 3)} g per mL of water; what is over stays as a solid.`,
  'saturated: surplus': (v) =>
    `More solid goes in than dissolves: at ${celsius(v)} 100 g of water dissolve ${number(v, 'grams', 4)} g of ${text(v, 'material')} (${text(v, 'source')}), and ${text(v, 'percent')} % more stays undissolved. Stir long enough at that temperature and use what is clear; where all has dissolved, add more.`,
  'saturated: no density': (v) =>
    `The density of saturated ${text(v, 'material')} is not known here, so it is made by mass: as much water as the volume asked for, and what dissolves in it. That makes more than the volume.`,
  'saturated: not known': (v) =>
    `${text(v, 'material')}, saturated: how much of it water dissolves at ${celsius(v)} is not known here, so it cannot be told how to make it up from the solid.`,
  // What cannot be made or worked out.
  'explosive not made up': (v) =>
    `${text(v, 'material')} is classed as explosive, or counts as such by its structure: no solution of it is worked out here. Such work belongs to licensed people in a place made for it, under their own rules.`,
  'another substance': (v) => `${text(v, 'material')} is not ${text(v, 'other')}: choose a bottle of the same substance.`,
  'another solvent': (v) =>
    `This ${text(v, 'material')} is dissolved in ${text(v, 'solvent')}, and a solution in ${text(v, 'wanted')} is wanted: choose one in ${text(v, 'wanted')}, or want one in ${text(v, 'solvent')}.`,
  'gas not weighed': (v) => `${text(v, 'material')} is a gas and cannot be weighed into a solvent here: choose a solution of it.`,
  'source too weak': (v) =>
    `This ${text(v, 'material')} is weaker than what is wanted: a solution cannot be made stronger by dilution. Choose a stronger bottle.`,
  'already this strength': (v) =>
    `This ${text(v, 'material')} has the wanted strength already: there is nothing to make, take it as it is.`,
  'second too strong': (v) =>
    `The second ${text(v, 'material')} needs to be weaker than what is wanted, and the first stronger: what is wanted has to lie between them.`,
  'weighed, not measured': (v) => `${text(v, 'material')} is a solid: it is weighed.`,
  'no heat of solution': (v) => `No heat of solution is known here for ${text(v, 'material')}.`,
  'outside heat table': (v) =>
    `The heats of solution of ${text(v, 'material')} end at ${number(v, 'to', 3)} mol of water per mol; ${
      Number.isFinite(Number(v.water)) ? `this solution has ${number(v, 'water', 3)}` : 'of dilution without end none is known'
    }.`,
  'heat at great dilution only': (v) =>
    `For ${text(v, 'material')} only the heat at great dilution is known (${number(v, 'heat', 3)} kJ/mol), and this solution is stronger.`,
  'heat in water only': (v) => `Heats of solution are known here in water only, not in ${text(v, 'solvent')}.`,

  // Cautions; each stands immediately before its operation.
  'not into this solvent': (v) =>
    `${text(v, 'material')} does not go into ${text(v, 'other')} unless a procedure says so and says how: ask first.`,
  'stronger into weaker': (v) => `The stronger ${text(v, 'material')} into the weaker, slowly, with stirring and cooling.`,
  'solution boils': (v) =>
    `Boils: added at once it would reach ${celsius(v)}, estimated. Cool in ice, add little by little with stirring, and wait for the thermometer between additions.`,
  'solution gets hot': (v) =>
    `Gets hot: added at once it would reach ${celsius(v)}, a rise of ${number(v, 'rise', 2)} K, estimated. Cool, and add slowly with stirring.`,
  'solution gets cold': (v) =>
    `Gets cold: down to ${celsius(v)}, estimated. Let it come back to room temperature before a volume is read.`,
  'solution heat unknown': (v) =>
    `How warm ${text(v, 'material')} gets here is not known: a little first, with stirring, cooling and a thermometer in it.`,
  'solubility not checked': (v) => `Whether so much ${text(v, 'material')} dissolves is not checked here.`,

  // What goes with another strength.
  'equal moles only': (v) =>
    `Equal moles of ${text(v, 'material')} do not mean equal behaviour: in a nitration or a dehydration the water decides. Ask whether the procedure stands a different strength.`,
  'weaker instead': (v) => `The weaker ${text(v, 'material')} brings more water or other solvent, and more volume.`,
  'stronger instead': (v) =>
    `The stronger ${text(v, 'material')} brings less water or other solvent, and less to take up the heat: it can react faster and hotter.`,
};
