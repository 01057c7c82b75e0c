import { formatAmount, formatSignificant } from '../quantity/format.ts';
import { readingParts } from '../quantity/reading.ts';
import type { Notice } from './notice.ts';
import { CAUTION_SENTENCES } from './caution-sentences.ts';
import { FILM_SENTENCES } from './film-sentences.ts';
import { HEAT_SENTENCES } from './heat-sentences.ts';
import { PROCEDURE_SENTENCES } from './procedure-sentences.ts';
import { RUN_SENTENCES } from './run-sentences.ts';
import { SOLUTION_SENTENCES } from './solution-sentences.ts';
import { VESSEL_SENTENCES } from './vessel-sentences.ts';

type Values = Notice['values'];
type Sentence = (values: Values) => string;

const text = (values: Values, name: string): string => String(values[name] ?? '');
const percent = (values: Values, name: string): string => {
  const value = Number(values[name]);
  return value > 0 && value < 0.01 ? 'less than 0.01 %' : `${formatSignificant(value, 3)} %`;
};
const amount = (values: Values): string => {
  const unit = values.unit === 'g' || values.unit === 'mol' ? values.unit : 'mL';
  // As many digits as lists and screens show of the same amount.
  const shown = formatAmount({ value: Number(values.amount), unit, digits: 4 });
  return `${shown.text} ${shown.unit}`;
};
const grams = (values: Values, name: string): string => amount({ amount: Number(values[name]), unit: 'g' });
/** With the decimals of the balance it is weighed on, as sheets and lists have it. */
const weighed = (values: Values, name: string, decimals = 'decimals'): string =>
  reading(Number(values[name]), Number(values[decimals]));
const reading = (grams: number, decimals: number): string => {
  const shown = readingParts(grams, 'g', decimals, '.');
  return `${shown.text} ${shown.unit}`;
};
const part = (values: Values, name: string): string => amount({ amount: Number(values[name]), unit: text(values, 'unit') });
/** ", 737 mL in the quench", of other stages in the same vessel. */
const furtherStages = (values: Values): string =>
  text(values, 'further')
    .split('|')
    .filter((one) => one !== '')
    .map((one) => one.split('='))
    .map(([stage, millilitres]) => `, ${amount({ amount: Number(millilitres), unit: 'mL' })} in the ${stage}`)
    .join('');
/** "to 89 %", "12 times over": nobody reads 23900 %. */
const times = (v: Values): string =>
  Number(v.percent) < 1000 ? `to ${percent(v, 'percent')}` : `${formatSignificant(Number(v.percent) / 100, 3)} times over`;
const even = ({ batches }: Values): string =>
  Number(batches) > 0 ? `Even in ${String(batches)} batches, the most that are planned, t` : 'T';
/** Why a bottle of what the route makes is not counted, and what would have it counted. */
const NOT_COUNTED: Readonly<Record<string, string>> = {
  'a solution':
    'only a neat bottle counts as stock of what a route makes. If this is its purity, enter the bottle with it as assay',
  'unknown strength': 'its strength is not known',
  'out of date': 'it is past its date',
  'assay too low': 'its assay is below what its use asks for',
  'no moles': 'what it holds cannot be told in moles: give the formula, or a density where it is measured by volume',
};
/** Of a fixed amount, like a seed, a larger batch takes no more. */
const MORE_OF_A_FIXED =
  'it is a fixed amount, which no larger batch makes more of. A finer balance does; or, where the procedure leaves room for it, enter a wider accepted range for it, or a larger amount each batch.';
const steps = (values: Values): string => (Number(values.uses) === 1 ? 'one step' : `${text(values, 'uses')} steps`);
const stuff = (values: Values): string => {
  const [material, form] = [text(values, 'material'), text(values, 'form')];
  if (form === 'neat') return material;
  return form.startsWith('at least') ? `${material} of ${form}` : `${material} ${form}`;
};

/** The standing sentence of every screen and paper. */
export const STANDING = 'Figures are for planning and screening. Local rules and the responsible, licensed person decide.';

/** What a structure holds that counts as an explosive here. */
const EXPLOSIVE_STRUCTURES: Readonly<Record<string, string>> = {
  nitro: 'holds three or more nitro groups, or two on one carbon',
  'nitrate esters': 'holds two or more nitrate esters',
  peroxides: 'holds two or more peroxide groups',
  'metal azide': 'is an azide of a heavy metal',
  azide:
    'is an azide with fewer than three atoms of carbon and oxygen for each nitrogen (Stanford University EH&S, Information on Azide Compounds)',
  'metal acetylide': 'is an acetylide of a heavy metal',
  fulminate: 'is a fulminate',
  'nitrogen halide': 'holds a nitrogen with several halogens',
  nitramine:
    'holds a nitro group on nitrogen with two carbons or fewer for each (University of Minnesota Duluth, Shock-Sensitive Compounds)',
  'small nitrate':
    'is a nitrate ester with two carbons or fewer for each nitrate (University of Minnesota Duluth, Shock-Sensitive Compounds)',
  'perchlorate ester': 'is an ester of perchloric acid (University of Minnesota Duluth, Shock-Sensitive Compounds)',
  diazonium: 'holds a diazo group beside two nitro groups, nitrate or perchlorate',
};

/** Desensitised: something in it tames it, and a vessel thins that or takes it away. */
const kindOfExplosive = (codes: string): string =>
  codes !== '' && codes.split(', ').every((code) => /H20[678]/.test(code)) ? 'a desensitised explosive' : 'explosive';
const sourceOf = (source: string): string => {
  if (source === '') return '';
  const asked =
    source === 'as given with the material' ? '' : '. How a thinned or wetted form of it is classed is not decided here';
  return `; source: ${source}${asked}`;
};

const explosiveReason = (v: Values): string =>
  text(v, 'structure') === ''
    ? `is classed as ${kindOfExplosive(text(v, 'codes'))} (${text(v, 'codes')})${sourceOf(text(v, 'source'))}`
    : `by its structure ${EXPLOSIVE_STRUCTURES[text(v, 'structure')] ?? ''} and counts as explosive here`;

/** Every code the core can say, and its sentence. A translation is another table like this one. */
const SENTENCES: Readonly<Record<string, Sentence>> = {
  ...CAUTION_SENTENCES,
  ...FILM_SENTENCES,
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
      : `${stuff(v)}: ${amount(v)} more are needed, and there is a bottle of unknown strength. Titrate it and enter the strength.`,
  'impossible strength': (v) => `${text(v, 'value')} ${text(v, 'basis')} of ${text(v, 'material')} is more than there can be.`,
  'no solvent': (v) => `A strength per kilogram of solvent needs solvent, and this ${text(v, 'material')} is pure.`,
  'no amount': (v) => `The amount of ${text(v, 'material')} cannot be worked out.`,
  'moles: no density': (v) => `${text(v, 'material')} is given by volume and has no density here: its moles are not counted.`,
  'moles: no density table': (v) =>
    `${text(v, 'material')} is given by volume and has no density here: its moles are not counted.`,
  'moles: outside density table': (v) =>
    `${text(v, 'material')} is given by volume at a strength outside the density table: its moles are not counted.`,
  'moles: no molar mass': (v) => `${text(v, 'material')} has no formula: its moles are not counted.`,
  'no water content': (v) =>
    `The assay of ${text(v, 'material')} is on the anhydrous basis and its water is not known: enter the water found.`,
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
    `“${text(v, 'step')}” ${v.how === 'made' ? 'makes' : 'charges'} ${text(v, 'material')}, which ${explosiveReason(v)}. No amounts are worked out for this step or for what is made only for it. Such work belongs to licensed people in a place made for it, under their own rules. Leave the step out, and the rest of the route can be planned.`,
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
  'acid would free a poison': (v) =>
    `${v.material} with acid frees poisonous ${v.gas}, so no amount is worked out: it is destroyed or taken out first, as the procedure and the responsible person say.`,
  'bicarbonate limit': (v) =>
    `${text(v, 'material')} cannot bring water past about pH 8.3, and pH ${text(v, 'pH')} is asked: take carbonate or hydroxide for the rest, or a lower pH.`,
  'cannot neutralise': (v) =>
    `${text(v, 'material')} takes up or gives no protons to speak of at pH ${text(v, 'pH')}: it cannot bring the vessel there.`,
  'nothing to neutralise': (v) =>
    `By what is charged, consumed and taken out, nothing to speak of is in the vessel that ${text(v, 'material')} would neutralise on the way to pH ${text(v, 'pH')}. What clings to a layer or stays dissolved in it is not known, so no amount is worked out: enter a volume, and measure the pH.`,

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
  'near enough': (v) =>
    `${amount(v)} ${text(v, 'material')} is lacking, ${percent(v, 'percent')} of what its runs made: less than a sheet shows, so no batch is planned for it. Ask for more, and one is.`,
  'stock not counted': (v) =>
    `${text(v, 'bottle')} of ${text(v, 'material')} (${amount(v)}, ${text(v, 'form')}) is not counted, and the plan makes it anew: ${NOT_COUNTED[text(v, 'why')] ?? ''}.`,
  'not made': (v) => `No step of this route makes ${text(v, 'material')}.`,
  'unknown draw': (v) => `${text(v, 'material')} is not among the materials of this route.`,

  // What to know about a step.
  'gas not marked': (v) =>
    `${text(v, 'material')} is a gas at room temperature, and what the equation makes of it counts here as staying in the vessel: no litres, rate or vent is worked out for that. Where it comes off, mark it as a gas (↑) in the equation; never a closed vessel.`,
  unbalanced: (v) => `The equation does not balance: ${text(v, 'difference')}.`,
  'yield not entered': (v) =>
    `The yield of ${text(v, 'step')} is not entered: it counts as 100 %, so these amounts are the least that could be needed.`,
  'balance unknown': (v) => `Whether the equation balances cannot be told without the formula of ${text(v, 'materials')}.`,
  'more than all': (v) => `Yield and recovered basis come to ${percent(v, 'percent')} together; they cannot be more than 100 %.`,
  'more back than charged': (v) => `More ${text(v, 'material')} comes back than this step charges (${percent(v, 'percent')}).`,
  'no measure serves': (v) =>
    `${text(v, 'material')}: no measure of the laboratory’s list takes ${amount(v)} within ±${percent(v, 'percent')}, and without a density it cannot be weighed instead: enter its density, or a finer measure.`,
  'too little to weigh': (v) =>
    `${text(v, 'material')}: ${amount(v)} is less than the ${text(v, 'device')} weighs within ±${percent(v, 'percent')} (${grams(v, 'least')}): ${v.fixed === undefined ? 'larger batches or a finer balance are needed.' : MORE_OF_A_FIXED}`,
  'too little for a solution': (v) =>
    `${text(v, 'material')}: ${amount(v)} is less than the ${text(v, 'device')} weighs within ±${percent(v, 'percent')} (${grams(v, 'least')}). Make ${grams(v, 'make')} of the solution or more, or thin it in two steps.`,
  'weigh as a stock solution': (v) =>
    `${text(v, 'material')}: ${amount(v)} is less than the ${text(v, 'device')} weighs within ±${percent(v, 'percent')} (${grams(v, 'least')}). Dissolve (or dilute) ${weighed(v, 'dissolve')} in a solvent that suits the step, to ${weighed(v, 'total', 'totalDecimals')} in all${v.thin === undefined ? '' : `; thin ${weighed(v, 'thin')} of that to ${weighed(v, 'thinned', 'totalDecimals')} in all`}, and take ${weighed(v, 'take')} of that${Number(v.portions ?? 1) > 1 ? ' for each portion' : ''}.`,
  'more dilute already': (v) => `The pot is more dilute already than asked: no ${text(v, 'material')} is added.`,
  'limit not checked': (v) =>
    `The limit of ${text(v, 'grams')} g a batch (${text(v, 'reason')}) cannot be checked without the basis' formula.`,
  'back in hand': (v) =>
    `Each batch of ${text(v, 'step')} takes ${amount(v)} more ${text(v, 'material')} than is made for it: that much comes back from the one before, and must be in hand for the first.`,
  'back into the next batch': (v) =>
    `${text(v, 'material')} that comes back of one batch goes into the next: ${part(v, 'each')} from the shelf for the first batch, ${part(v, 'later')} more for each later one, ${part(v, 'inHand')} in all. Batches side by side need ${part(v, 'whole')}.`,
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
    `What a later step makes goes back into an earlier one: ${text(v, 'back')}. The amounts are those of a steady state: what has not come back yet when a batch begins must be in hand (the fetch list asks for it), and the last round gives it back. In more batches, each taken through all these steps before the next, less has to be in hand.`,
  'too full': (v) =>
    `${even(v)}he ${text(v, 'stage')} would fill the ${text(v, 'vessel')} ${times(v)}; ${percent(v, 'most')} at most. A larger vessel or more batches are needed.`,
  'too little to stir': (v) =>
    `The ${text(v, 'vessel')} holds ${amount(v)} in the ${text(v, 'stage')} (${percent(v, 'percent')})${furtherStages(v)}; less than ${percent(v, 'least')} of it is hard to stir. ${Number(v.better) > 0 ? `In ${text(v, 'better')} batches smaller vessels do; or` : 'What comes later needs a vessel of this size:'} start in a smaller one, or use a stirrer that reaches down.`,
  'more heat than cooling': (v) =>
    `A batch gives off more heat than the cooling bath takes away in ${text(v, 'longest')} minutes: at least ${formatSignificant(Number(v.minutes), 2)} minutes are needed (a screening figure). Smaller batches, or better cooling.`,
  'over own limit': (v) =>
    `${Number(v.batches) > 0 ? `Even one of ${text(v, 'batches')} batches, the most that are planned,` : 'A batch'} is larger than the limit of ${text(v, 'grams')} g (${text(v, 'reason')}).`,

  // The shelf.
  short: (v) =>
    `${stuff(v)} is short by ${amount(v)} over ${steps(v)}.${v.heldBack === undefined ? '' : ` A bottle held back would cover it: ${text(v, 'heldBack')}.`}`,
  'make up': (v) =>
    Number(v.lots) > 0
      ? `There is too little ${stuff(v)} on the shelf, but the rest can be made up from what is stronger.`
      : `${stuff(v)} is not on the shelf, but can be made up from what is stronger.`,
  'out of date': (v) => {
    const one = Number(v.bottles) === 1;
    return `${stuff(v)}, ${one ? 'lot' : 'lots'} ${text(v, 'lot')}, ${one ? 'is past its date: not to be used before it has' : 'are past their dates: not to be used before they have'} been tested or purified and that is recorded; or buy ${amount(v)}.`;
  },
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
