import { formatAmount, formatSignificant } from '../quantity/format.ts';
import type { Notice } from './notice.ts';
import { CAUTION_SENTENCES } from './caution-sentences.ts';
import { HEAT_SENTENCES } from './heat-sentences.ts';
import { PROCEDURE_SENTENCES } from './procedure-sentences.ts';
import { RUN_SENTENCES } from './run-sentences.ts';
import { SOLUTION_SENTENCES } from './solution-sentences.ts';
import { VESSEL_SENTENCES } from './vessel-sentences.ts';

type Values = Notice['values'];
type Sentence = (values: Values) => string;

const text = (values: Values, name: string): string => String(values[name] ?? '');
const percent = (values: Values, name: string): string => `${formatSignificant(Number(values[name]), 3)} %`;
const amount = (values: Values): string => {
  const shown = formatAmount({ value: Number(values.amount), unit: values.unit === 'g' ? 'g' : 'mL', digits: 3 });
  return `${shown.text} ${shown.unit}`;
};
const grams = (values: Values, name: string): string => amount({ amount: Number(values[name]), unit: 'g' });
const steps = (values: Values): string => (Number(values.uses) === 1 ? 'one step' : `${text(values, 'uses')} steps`);
const stuff = (values: Values): string =>
  values.form === 'neat' ? text(values, 'material') : `${text(values, 'material')} ${text(values, 'form')}`;

/** The standing sentence of every screen and paper. */
export const STANDING = 'Figures are for planning and screening. Local rules and the responsible, licensed person decide.';

/** Every code the core can say, and its sentence. A translation is another table like this one. */
const SENTENCES: Readonly<Record<string, Sentence>> = {
  ...CAUTION_SENTENCES,
  ...HEAT_SENTENCES,
  ...SOLUTION_SENTENCES,
  ...PROCEDURE_SENTENCES,
  ...RUN_SENTENCES,
  ...VESSEL_SENTENCES,
  // What cannot be computed.
  'no molar mass': (v) => `${text(v, 'material')} has no formula, so grams and moles cannot be exchanged: give its formula.`,
  'no density': (v) => `No density is known for ${text(v, 'material')}, so no volume can be given: measure it, or weigh.`,
  'no density table': (v) =>
    `No density table is known for this solution of ${text(v, 'material')}: measure its density and enter it.`,
  'outside density table': (v) =>
    `This strength of ${text(v, 'material')} lies outside the density table (${text(v, 'from')} to ${text(v, 'to')} % w/w): measure its density and enter it.`,
  'usually a solution': (v) => `${text(v, 'material')} is usually sold as a solution: name its strength with its basis.`,
  'unknown strength': (v) =>
    v.form === undefined
      ? `The strength of ${text(v, 'material')} is not known.`
      : `${stuff(v)}: only a bottle of unknown strength is on the shelf. Titrate it and enter the strength; ${amount(v)} are needed.`,
  'impossible strength': (v) => `${text(v, 'value')} ${text(v, 'basis')} of ${text(v, 'material')} is more than there can be.`,
  'no solvent': (v) => `A strength per kilogram of solvent needs solvent, and this ${text(v, 'material')} is pure.`,
  'no amount': (v) => `The amount of ${text(v, 'material')} cannot be worked out.`,
  'moles: no density': (v) => `${text(v, 'material')} is given by volume and has no density here: its moles are not counted.`,
  'moles: no density table': (v) =>
    `${text(v, 'material')} is given by volume and has no density here: its moles are not counted.`,
  'moles: outside density table': (v) =>
    `${text(v, 'material')} is given by volume at a strength outside the density table: its moles are not counted.`,
  'moles: no molar mass': (v) => `${text(v, 'material')} has no formula: its moles are not counted.`,
  'moles: unknown strength': (v) => `The strength of ${text(v, 'material')} is not known: its moles are not counted.`,
  'moles: usually a solution': (v) =>
    `${text(v, 'material')} is usually sold as a solution: name its strength, so that its moles can be counted.`,
  formula: (v) =>
    `The formula ${text(v, 'formula')} of ${text(v, 'material')} cannot be read at character ${text(v, 'at')}: ${text(v, 'words')}.`,

  'no cooling power': () =>
    'The laboratory’s list gives no cooling power: measure what the bath carries away from the vessel, and enter it.',

  'too few solubility points': () => 'Solubilities at two different temperatures at least are needed: measure, or look them up.',
  'outside solubility points': (v) =>
    `${text(v, 'celsius')} °C lies outside the solubilities that are known (${text(v, 'from')} to ${text(v, 'to')} °C), and more than ${text(v, 'reach')} °C beyond nothing is guessed: add one there.`,
  'no solubility known': (v) =>
    `The built-in table has no solubility of ${text(v, 'product')} in ${text(v, 'solvent')}: enter at least two (“0 °C 0.53 g”).`,
  'no product mass': () => 'The mass of the product is not known.',

  // What is not planned on purpose.
  'explosive not scaled': (v) =>
    `“${text(v, 'step')}” ${v.how === 'made' ? 'makes' : 'charges'} ${text(v, 'material')}, which is classed as explosive (${text(v, 'codes')}). No amounts are worked out for this step or for what is made only for it. Such work belongs to licensed people in a place made for it, under their own rules. Leave the step out, and the rest of the route can be planned.`,
  // Acids and bases.
  'no pKa': (v) =>
    `No pKa of ${text(v, 'material')} is known here: enter it in Routes, Materials, pKa (“acid 4.8”, “base 10.7”, or “neither”).`,
  'amount in the vessel': (v) =>
    `How many moles of ${text(v, 'material')} are in the vessel at that point is not known: give its formula and strength, or its amount in moles.`,
  'no heat of ionisation': (v) =>
    `No heat of ionisation is known here for ${text(v, 'material')}: measure the rise on a small part.`,
  'no heat of hydrolysis': (v) =>
    `The heat that ${text(v, 'material')} gives off with water is not known here, and it can be large: measure it on a small part.`,
  'no mass in the vessel': (v) =>
    `The mass of what is in the vessel, or of the ${text(v, 'material')} for it, is not known: give strengths and densities, or formulas.`,
  'no volume in the vessel': () => 'The volume of what is in the vessel is not known: give strengths and densities.',
  'bicarbonate limit': (v) =>
    `${text(v, 'material')} cannot bring water past about pH 8.3, and pH ${text(v, 'pH')} is asked: take carbonate or hydroxide for the rest, or a lower pH.`,
  'cannot neutralise': (v) =>
    `${text(v, 'material')} takes up or gives no protons to speak of at pH ${text(v, 'pH')}: it cannot bring the vessel there.`,
  'nothing to neutralise': (v) =>
    `By what is charged, consumed and taken out there is nothing in the vessel that ${text(v, 'material')} would neutralise on the way to pH ${text(v, 'pH')}: none is counted. Measure the pH.`,

  // What cannot be planned.
  'use not in moles': (v) =>
    `How many moles of ${text(v, 'material')} this step uses cannot be worked out: give its formula, and a strength or density where it is measured by volume.`,
  'impossible loop': (v) =>
    `These steps feed each other and use as much as they make, or more: ${text(v, 'steps')}. No start is large enough.`,
  'certain start': (v) =>
    `A start for a chance of ${text(v, 'percent')} % was chosen, but every yield is taken as certain: the plan follows the yields as they are.`,
  'no such start': (v) =>
    `No start up to a hundred times the likeliest plan has a chance of ${text(v, 'percent')} %: the plan follows the likeliest yields.`,
  'zero yield': (v) => `“${text(v, 'step')}” has a yield of 0 %: nothing it makes can be planned.`,
  'never enough': (v) =>
    `No mix of the steps makes enough ${text(v, 'material')}: they use as much of it as they make, or have a yield of 0 %.`,
  'left short': (v) =>
    `The amounts of this plan make ${amount(v)} too little ${text(v, 'material')} (${percent(v, 'percent')} of what is asked of it here): beside the largest amounts of the plan it is lost in rounding. Plan it apart.`,
  'not made': (v) => `No step of this route makes ${text(v, 'material')}.`,
  'unknown draw': (v) => `${text(v, 'material')} is not among the materials of this route.`,

  // What to know about a step.
  unbalanced: (v) => `The equation does not balance: ${text(v, 'difference')}.`,
  'yield not entered': (v) =>
    `The yield of ${text(v, 'step')} is not entered: it counts as 100 %, so these amounts are the least that could be needed.`,
  'balance unknown': (v) => `Whether the equation balances cannot be told without the formula of ${text(v, 'materials')}.`,
  'more than all': (v) => `Yield and recovered basis come to ${percent(v, 'percent')} together; they cannot be more than 100 %.`,
  'more back than charged': (v) => `More ${text(v, 'material')} comes back than this step charges (${percent(v, 'percent')}).`,
  'no measure serves': (v) =>
    `${text(v, 'material')}: no measure of the laboratory’s list takes ${amount(v)} within ±${percent(v, 'percent')}, and without a density it cannot be weighed instead: enter its density, or a finer measure.`,
  'too little to weigh': (v) =>
    `${text(v, 'material')}: ${amount(v)} is less than the ${text(v, 'device')} weighs within ±${percent(v, 'percent')} (${grams(v, 'least')}): larger batches or a finer balance are needed.`,
  'too little for a solution': (v) =>
    `${text(v, 'material')}: ${amount(v)} is less than the ${text(v, 'device')} weighs within ±${percent(v, 'percent')} (${grams(v, 'least')}). Make ${grams(v, 'make')} of the solution or more, or thin it in two steps.`,
  'weigh as a stock solution': (v) =>
    `${text(v, 'material')}: ${amount(v)} is less than the ${text(v, 'device')} weighs within ±${percent(v, 'percent')} (${grams(v, 'least')}). Dissolve (or dilute) ${grams(v, 'dissolve')} in a solvent that suits the step, to ${grams(v, 'total')} in all, and take ${grams(v, 'take')} of that.`,
  'more dilute already': (v) => `The pot is more dilute already than asked: no ${text(v, 'material')} is added.`,
  'limit not checked': (v) =>
    `The limit of ${text(v, 'grams')} g a batch (${text(v, 'reason')}) cannot be checked without the basis' formula.`,
  'back in hand': (v) =>
    `Each time, ${text(v, 'step')} takes ${amount(v)} more ${text(v, 'material')} than is made for it: that much comes back from the time before, and must be in hand for the first.`,
  'made too impure': (v) =>
    `${text(v, 'material')} is wanted at ${text(v, 'wanted')} % or better, and its step isolates it at ${text(v, 'made')} %.`,
  'never charged': (v) => `The equation uses ${text(v, 'material')}, but no operation charges it.`,
  'another limits': (v) =>
    `${text(v, 'material')} limits, not the basis: it covers ${percent(v, 'percent')} of what the equation needs.`,
  'maker chosen': (v) =>
    `${text(v, 'material')} is made by ${text(v, 'runs')}, at the least ${text(v, 'by')} of bought materials for the whole plan. ${text(v, 'others')}`,
  'second at the same yield': (v) =>
    `${text(v, 'material')}, made beside ${text(v, 'product')}, is taken to be isolated at the step's own yield: the equation names none for it.`,
  'steady loop': (v) =>
    `These materials feed back into earlier steps: ${text(v, 'materials')}. The amounts are those of a steady state; the first batch needs what it takes in hand already.`,
  'too full': (v) =>
    `The ${text(v, 'stage')} would fill the ${text(v, 'vessel')} to ${percent(v, 'percent')}; ${percent(v, 'most')} at most. A larger vessel or more batches are needed.`,
  'too little to stir': (v) =>
    `${text(v, 'stage')}: ${amount(v)} fill the ${text(v, 'vessel')} to ${percent(v, 'percent')} only, and less than ${percent(v, 'least')} is hard to stir. ${Number(v.better) > 0 ? `In ${text(v, 'better')} batches smaller vessels do; or` : 'What comes later needs a vessel of this size:'} start in a smaller one, or use a stirrer that reaches down.`,
  'more heat than cooling': (v) =>
    `A batch gives off more heat than the cooling bath takes away in ${text(v, 'longest')} minutes: at least ${formatSignificant(Number(v.minutes), 2)} minutes are needed (a screening figure). Smaller batches, or better cooling.`,
  'over own limit': (v) => `A batch is larger than the limit of ${text(v, 'grams')} g (${text(v, 'reason')}).`,

  // The shelf.
  short: (v) => `${stuff(v)} is short by ${amount(v)} over ${steps(v)}.`,
  'make up': (v) => `${stuff(v)} is not on the shelf, but can be made up from a stronger bottle.`,
  'out of date': (v) =>
    `${stuff(v)}, lot ${text(v, 'lot')}, is past its date: test or purify it, record that, and it can be used again; or buy.`,
};

/** The sentence of a notice. An unknown code is a fault of the program and is shown as one, never swallowed. */
export function sentence(notice: Pick<Notice, 'code' | 'values'>): string {
  const make = Object.hasOwn(SENTENCES, notice.code) ? SENTENCES[notice.code] : undefined;
  return make ? make(notice.values) : `No sentence is known for “${notice.code}”.`;
}

/** Codes that have a sentence; a test holds the core's codes against them. */
export function knownCodes(): readonly string[] {
  return Object.keys(SENTENCES);
}
