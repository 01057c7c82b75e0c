import type { Mark } from '../quantity/figure.ts';
import type { Manner } from '../bench/solution-order.ts';

const NB = '\u00a0';

/** What a figure rests on where it was not read from its source directly. */
const MARKS = {
  'from memory': 'figures from memory',
  model: 'a model',
  formula: 'a formula',
  estimate: 'an estimate',
  'common practice, no source': 'common practice',
} satisfies Record<Mark, string>;

/** What making a solution says, on the screen and on its paper. */
export const solutionWords = {
  from: (material: string) => `Make a solution of ${material}`,
  other: (material: string) => `Another strength of ${material}`,
  fromBottle: 'Make a solution from this',
  fromCharge: 'how to make it',
  otherStrength: 'another strength',
  otherStrengthOf: (material: string, form: string) => `another strength for ${material} ${form}`,
  fromChargeOf: (material: string, form: string) => `how to make ${material} ${form}`,
  close: 'Back to the shelf',
  backToPlan: 'Back to the plan',
  severalBottles: (count: number) =>
    `(the plan makes it from ${count} bottles together: the fetch list and the sheet say how; here it is made from one)`,
  wantedBy: (step: number, title: string) => `for step ${step}, ${title}`,

  modes: { make: 'Make a solution', replace: 'Use another strength' },
  mode: 'What is to be done',

  ask: {
    section: 'What is wanted',
    wanted: 'how much of which strength',
    wantedHint: '250 mL of 3 mol/L, 1 kg of 70 % w/w, 0.5 mol of 2 mol/L, 100 mL of saturated',
    replaced: 'what is asked for',
    solvent: 'dissolved in',
    water: 'water',
    counted: 'the strength counts',
    countedAs: (formula: string, anhydrous: boolean) =>
      anhydrous ? `${formula}, without its water` : `${formula}, with its water`,
    source: 'Made from',
    insteadSection: 'Taken instead',
    bottle: 'bottle',
    weaker: 'thinned with',
    typed: 'one that is not on the shelf',
    typedForm: 'its strength, or neat',
    typedHint: '98 % w/w, 12 mol/L, neat, assay 95 %',
    celsius: 'everything is at, °C',
    choose: 'choose a bottle',
    noBottle: 'No bottle of it is on the shelf.',
    left: (amount: string) => `${amount} left`,
    lot: (lot: string) => `lot ${lot}`,
    reading: 'Looking on the shelf…',
    notRead: (why: string) => `The shelf could not be read. ${why}`,
  },

  read: {
    needsStrength: 'a strength is expected here too, such as of 3 mol/L or of 70 % w/w',
    needsAmount: 'an amount is expected before the strength, such as 250 mL of 3 mol/L',
    amountFirst: 'an amount is expected here, such as 250 mL, 1 kg or 0.5 mol',
    saturated: 'how much of it dissolves at 20 °C is not known here, or not in this solvent: name a strength instead',
    strengthHere: 'a strength with its basis is expected here, such as 3 mol/L or 70 % w/w',
    above: 'this needs to be more than 0',
    perMole: 'how many equivalents has a mole? Write it behind, such as 2 eq/L (2 per mol)',
    assay: 'an assay needs to be more than 0 and at most 100 %',
    celsius: 'a temperature is expected here, such as 20',
    celsiusRange: 'a temperature needs to be −20 to 60 °C',
  },

  result: {
    empty: 'Say what is wanted and choose what it is made from: the amounts appear here as you type.',
    weighs: 'weighs',
    fills: 'fills',
    density: 'density',
    holds: 'holds',
    order: 'In this order',
    heads: { number: 'no.', what: 'what', mass: 'by mass', volume: 'by volume' },
    unknown: 'not known',
    heat: 'Heat',
    given: 'gives off',
    takenUp: 'takes up',
    takenUpLabel: 'heat taken up',
    reached: 'would reach',
    boils: 'boils',
    heatUnknown: 'Not known.',
    at: (celsius: string) => `${celsius}${NB}°C`,
    heatNote:
      'A screening figure: made in one go, no heat lost, the heat capacity of the final mixture. Local rules and the person responsible decide.',
    marks: (marks: readonly Mark[]) => `Rests on ${marks.map((mark) => MARKS[mark]).join(', ')}.`,
    hazards: 'Hazards',
    noEntry: 'no harmonised entry here: read the safety sheet',
    noneListed: 'no hazard statement listed here holds at this strength: read the safety sheet',
    short: (left: string) => `only ${left} left in this bottle`,
    summary: (source: string, rest: string, celsius: string, boils: boolean) =>
      `${source} into ${rest}; ${celsius === '' ? 'temperature not known' : `would reach ${celsius} °C`}${boils ? ', boils' : ''}`,
    volumes: 'Grams first: masses add up, volumes do not.',
  },

  replace: {
    asked: 'asked for',
    instead: 'instead',
    carries: 'carries',
    mass: 'mass',
    volume: 'volume',
    others: 'water or other solvent in it',
    molarity: 'strength per litre',
    normality: 'equivalents per litre',
    more: 'What else changes',
    moreOthers: (less: boolean) => (less ? 'less water or other solvent' : 'more water or other solvent'),
    moreVolume: (less: boolean) => (less ? 'less volume' : 'more volume'),
    heads: { what: 'the same moles', asked: 'asked for', instead: 'instead' },
  },

  manners: {
    first: 'put in first',
    slowly: 'slowly into it, stirring',
    'in small portions': 'into it in small portions, stirring',
    'in portions': 'into it in portions, stirring',
    'stirred in': 'stirred into it',
  } satisfies Record<Manner, string>,

  acts: {
    startWith: (part: string, solvent: string) => `About ${part} of ${solvent} in the measuring flask`,
    cool: (celsius: number) => `Let it come to ${celsius}${NB}°C`,
    fillUp: (solvent: string, volume: string) => `Fill up with ${solvent} to ${volume}`,
    label: 'Mix well and label',
  },

  papers: {
    section: 'Paper',
    note: (operations: number) => `${operations} lines with places to write the weighings, and a label`,
    preview: 'Preview',
    issue: 'Issue',
    issuing: 'Issuing…',
    failed: (why: string) => `Not issued. ${why}`,
    issued: 'Issued before',
    unread: (why: string) => `The list of papers could not be read. ${why}`,
  },
  putOnShelf: 'Put it on the shelf',
  putHint:
    'Fills in a new bottle; nothing is recorded until you put it there. What it was made from comes off its bottles in the same entry, unless you say otherwise.',

  paper: {
    kind: 'Make-up',
    title: (what: string) => `Make-up of ${what}`,
    gives: (amounts: string) => `gives ${amounts}`,
    holds: (moles: string, grams: string, solute: string) => `holds ${moles} (${grams}) ${solute}`,
    density: (density: string) => `density ${density}`,
    heat: (kilojoules: string, reached: string) =>
      `Gives off ${kilojoules} when made in one go; would reach ${reached} (largest value).`,
    heatTaken: (kilojoules: string, reached: string) => `Takes up ${kilojoules} when made in one go; would fall to ${reached}.`,
    heatUnknown: (why: string) => `Heat not known. ${why}`,
    heatSeveral: (heat: string) => `As if all were made of the bottle that warms it most: ${heat}`,
    marks: (marks: readonly Mark[]) => ` Rests on ${marks.map((mark) => MARKS[mark]).join(', ')}.`,
    or: (amount: string) => `or ${amount}`,
    lot: (lot: string) => `lot ${lot}`,
    noLot: 'no lot',
    notOnShelf: 'not on the shelf',
    countedAs: (formula: string) => `strength counted as ${formula}`,
    label: {
      title: 'Label for the bottle',
      made: 'made on',
      by: 'by',
      useBy: 'use by',
      titre: 'found by titration',
      from: (source: string) => `from ${source}`,
      at20: (density: string) => `${density} at 20${NB}°C`,
    },
    result: {
      title: 'What came out',
      vessel: 'vessel, empty, g',
      vesselFull: 'vessel + solution, g',
      solution: 'solution, g',
      highest: 'highest °C',
      found: 'strength found',
      doneBy: 'done by, date',
      checkedBy: 'checked by, date',
      remarks: 'remarks',
    },
    endOf: (count: string) => `End of what is done: ${count}.`,
    linesHere: (count: number) => `${count} of ${count} ${count === 1 ? 'operation' : 'operations'} on this paper`,
  },
} as const;
