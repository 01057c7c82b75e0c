import { NEAT } from '../../src/core/matter/form.ts';
import type { PaperContext } from '../../src/core/paper/context.ts';
import type {
  ChargePlan,
  FetchLine,
  LineShare,
  MaterialPlan,
  OperationPlan,
  PlanResult,
  StageVolume,
  StepPlan,
  Supply,
  Take,
} from '../../src/core/plan/result.ts';
import type { MakeUp } from '../../src/core/plan/make-up-result.ts';
import { entered, type Figure, sourced, type Unit } from '../../src/core/quantity/figure.ts';
import type { Hold, Removal, Stage } from '../../src/core/route/route.ts';
import type { Notice } from '../../src/core/words/notice.ts';

import type { Settings } from '../../src/core/plan/settings.ts';
import laboratory from '../../resources/tables/laboratory.json' with { type: 'json' };

/** Read as it is: the tables themselves are read by the main process only, and this stands in tests of the window too. */
const settings = laboratory as Settings;

/** A figure whose value matters to a paper and whose origin does not. */
export function figure<U extends Unit>(value: number, unit: U, digits = 3): Figure<U> {
  return entered('fixture', value, unit, 'fixture', digits);
}

export function take(by: Take['by'], target: number, unit: Take['unit'], decimals: number, spread = 0.025): Take {
  const step = 10 ** -decimals;
  const round = (value: number) => Math.round(value / step) * step;
  return {
    by,
    exact: figure(target, unit),
    target,
    unit,
    decimals,
    device: by === 'mass' ? 'balance 0.01 g' : 'cylinder 50 mL',
    readTwice: false,
    standard: '',
    deviceTolerance: null,
    fills: 1,
    least: null,
    meets: true,
    low: round(target * (1 - spread)),
    high: round(target * (1 + spread)),
    tolerancePercent: spread * 100,
    moles: null,
    equivalents: null,
    stock: null,
  };
}

export function bottle(lot: string, place: string, amount: number, unit: 'g' | 'mL'): LineShare {
  return { bottle: `bottle ${lot}`, lot, place, amount, unit, worth: amount };
}

export function charge(id: string, stage: Stage, material: string, perBatch: Take, more: Partial<ChargePlan> = {}): ChargePlan {
  return {
    kind: 'charge',
    id,
    stage,
    material,
    form: NEAT,
    formWords: '',
    rule: 'equivalents',
    ratio: null,
    isBasis: false,
    moles: null,
    equivalents: null,
    grams: perBatch.unit === 'g' ? figure(perBatch.target, 'g') : null,
    millilitres: perBatch.unit === 'mL' ? figure(perBatch.target, 'mL') : null,
    density: null,
    perGramBasis: null,
    total: perBatch,
    perBatch,
    portions: 1,
    noLess: false,
    supply: { kind: 'short', status: 'short', bottles: [] } satisfies Supply,
    returns: 0,
    temperature: null,
    overMinutes: null,
    carried: null,
    endPoint: null,
    atMost: null,
    limit: null,
    hazards: null,
    before: [],
    caution: '',
    note: '',
    source: '',
    ...more,
  };
}

export const hold = (value: Hold, before: readonly Notice[] = []): OperationPlan => ({ kind: 'hold', hold: value, before });
export const removal = (value: Removal, before: readonly Notice[] = []): OperationPlan => ({
  kind: 'removal',
  removal: value,
  before,
});
export const notice = (level: Notice['level'], code: string, at: Notice['at'] = {}): Notice => ({ level, code, values: {}, at });

export function stageVolume(stage: Stage, millilitres: number, nominal: number, more: Partial<StageVolume> = {}): StageVolume {
  return {
    stage,
    volume: figure(millilitres, 'mL'),
    vessel: { name: `${nominal} mL flask`, nominal },
    fill: millilitres / nominal,
    most: 2 / 3,
    apparatus: '',
    newVessel: false,
    stirred: null,
    runsOff: null,
    least: 0.2,
    ...more,
  };
}

export function step(
  id: string,
  number: number,
  title: string,
  operations: readonly OperationPlan[],
  more: Partial<StepPlan> = {},
): StepPlan {
  return {
    id,
    number,
    title,
    equation: { text: 'A → B', balanced: true },
    conditions: '',
    protection: [],
    spill: '',
    firstAid: '',
    source: '',
    keeps: null,
    active: true,
    whyIdle: null,
    seconds: [],
    basis: { material: 'basis', moles: figure(0.1, 'mol'), grams: figure(20, 'g') },
    product: { material: 'product', moles: figure(0.09, 'mol'), grams: figure(18, 'g'), theory: figure(20, 'g') },
    yield: figure(90, '%'),
    yieldCountedIn: null,
    yieldRange: null,
    operations,
    batches: {
      count: 1,
      why: 'one is enough',
      reason: '',
      basisGrams: figure(20, 'g'),
      basisMoles: figure(0.1, 'mol'),
      productGrams: figure(18, 'g'),
      ownLimit: null,
      stages: [],
      heat: null,
      shortestAddition: null,
      lostGrams: null,
    },
    gases: [],
    freed: [],
    formed: [],
    notices: [],
    ...more,
  };
}

export function material(key: string, name: string, more: Partial<MaterialPlan> = {}): MaterialPlan {
  return {
    key,
    name,
    formula: null,
    cas: null,
    smiles: null,
    state: null,
    utility: false,
    molarMass: null,
    madeBy: null,
    ...more,
  };
}

export function fetchLine(id: string, name: string, need: number, unit: 'g' | 'mL', more: Partial<FetchLine> = {}): FetchLine {
  return {
    id,
    material: id,
    name,
    form: NEAT,
    formWords: '',
    unit,
    need: figure(need, unit),
    peak: figure(need, unit),
    onHand: figure(need * 2, unit),
    short: null,
    status: 'enough',
    place: '',
    bottles: [],
    passedOver: [],
    others: [],
    makeUp: null,
    uses: [],
    ...more,
  };
}

export function plan(steps: readonly StepPlan[], more: Partial<PlanResult> = {}): PlanResult {
  return {
    name: 'Spring practicals',
    route: 'Benzoin to a dienone and a quinoxaline',
    asOf: '2027-02-25',
    solved: true,
    start: { kind: 'likeliest', chancePercent: null, multiplier: entered('start', 1, '', 'the likeliest yields') },
    draws: [],
    choices: [],
    materials: {},
    steps,
    flow: { bands: [], pathStoichiometry: {} },
    fetch: [],
    makeUps: [],
    notices: [],
    ...more,
  };
}

const SENTENCES: Readonly<Record<string, string>> = {
  'nitrogen dioxide':
    'hood, sash down, scrubber on. Nitrogen dioxide is poisonous; its effect on the lungs can come hours later.',
  'oxidiser and organic': 'the acid must be washed out before ethanol is used: nitric acid and ethanol react violently.',
  'past its date': 'benzaldehyde lot B-08 is past its date: test it for benzoic acid, or distil it, and record it.',
};

export function context(result: PlanResult, more: Partial<PaperContext> = {}): PaperContext {
  return {
    result,
    size: 'A4',
    mark: '.',
    settings,
    secondCheck: false,
    say: (one) => SENTENCES[one.code] ?? one.code,
    statements: STATEMENTS,
    bench: () => [],
    cautions: () => new Map(),
    ...more,
  };
}

const STATEMENTS: ReadonlyMap<string, string> = new Map([
  ['H225', 'Highly flammable liquid and vapour.'],
  ['H270', 'May cause or intensify fire; oxidiser.'],
  ['H272', 'May intensify fire; oxidiser.'],
  ['H290', 'May be corrosive to metals.'],
  ['H301', 'Toxic if swallowed.'],
  ['H302', 'Harmful if swallowed.'],
  ['H312', 'Harmful in contact with skin.'],
  ['H314', 'Causes severe skin burns and eye damage.'],
  ['H317', 'May cause an allergic skin reaction.'],
  ['H319', 'Causes serious eye irritation.'],
  ['H330', 'Fatal if inhaled.'],
  ['H331', 'Toxic if inhaled.'],
  ['H332', 'Harmful if inhaled.'],
  ['H335', 'May cause respiratory irritation.'],
  ['H341', 'Suspected of causing genetic defects.'],
  ['H351', 'Suspected of causing cancer.'],
  ['H360FD', 'May damage fertility. May damage the unborn child.'],
  ['H400', 'Very toxic to aquatic life.'],
  ['H410', 'Very toxic to aquatic life with long lasting effects.'],
  ['EUH071', 'Corrosive to the respiratory tract.'],
]);

const LYE: MakeUp = {
  id: 'lye',
  material: 'naoh',
  form: { kind: 'solution', strength: { value: 3, basis: 'mol/L' } },
  formWords: '3 mol/L',
  millilitres: figure(14.2, 'mL'),
  grams: figure(15.9, 'g'),
  excessPercent: 0,
  parts: [
    {
      from: bottle('L-3', 'Bases', 3.41, 'g'),
      fromWords: '50 % w/w',
      takeGrams: figure(3.41, 'g'),
      takeMillilitres: figure(2.24, 'mL'),
      hazards: ['H290', 'H302', 'H314'],
    },
  ],
  waterGrams: figure(12.49, 'g'),
  before: [],
};

const benzoin = step(
  'benzoin',
  1,
  'Benzoin coupling',
  [
    charge('thiamine', 'reaction', 'thiamine', take('mass', 5.76, 'g', 2), {
      formWords: 'solid, hydrochloride',
      supply: { kind: 'bottles', bottles: [bottle('T-2', 'Shelf C2', 5.76, 'g')] },
      equivalents: figure(0.05, ''),
      moles: figure(0.01707, 'mol'),
      perGramBasis: figure(0.159, 'g/g'),
    }),
    charge('water', 'reaction', 'water', take('volume', 11.5, 'mL', 1, 0.1), {
      supply: { kind: 'utility' },
      perGramBasis: figure(0.318, 'mL/g'),
    }),
    charge('ethanol', 'reaction', 'ethanol', take('volume', 54.3, 'mL', 1, 0.1), {
      formWords: '96 % v/v',
      density: sourced('density', 0.807, 'g/mL', 'table, 20 °C', 3),
      supply: { kind: 'bottles', bottles: [bottle('E-40', 'Solvents', 54.3, 'mL')] },
      perGramBasis: figure(1.5, 'mL/g'),
      hazards: ['H225', 'H319'],
    }),
    charge('lye', 'reaction', 'naoh', take('volume', 14.2, 'mL', 1), {
      formWords: '3 mol/L',
      grams: figure(15.9, 'g'),
      density: sourced('density', 1.117, 'g/mL', 'model, 20 °C', 4),
      supply: { kind: 'make up', makeUp: 'lye', bottles: [] },
      moles: figure(0.0426, 'mol'),
      equivalents: figure(0.125, ''),
      perGramBasis: figure(0.392, 'mL/g'),
      overMinutes: 10,
      temperature: { from: 0, to: 10 },
      limit: { celsius: 20, side: 'above', action: 'stop adding and wait' },
      hazards: ['H290', 'H314'],
      portions: 4,
    }),
    charge('basis', 'reaction', 'benzaldehyde', take('mass', 36.94, 'g', 2), {
      isBasis: true,
      formWords: 'neat, assay 98 %',
      density: sourced('density', 1.044, 'g/mL', 'table, 20 °C', 4),
      supply: { kind: 'short', status: 'short', bottles: [] },
      moles: figure(0.3411, 'mol'),
      perGramBasis: figure(1.0204, 'g/g'),
      hazards: ['H302', 'H312', 'H315', 'H319', 'H332', 'H360FD'],
      before: [notice('caution', 'past its date')],
    }),
    hold({
      do: 'hold',
      id: 'wait',
      stage: 'reaction',
      until: 'crystals fill the liquid',
      temperature: { from: 60, to: 65 },
      aboutMinutes: 90,
      ifNot: 'check that the pH is above 9; add lye in 1 mL portions',
    }),
    removal({
      do: 'removal',
      id: 'filter',
      stage: 'work-up',
      how: 'filter',
      takes: [{ what: 'liquids', percent: 95 }],
      wasteTo: 'halogen-free organics, basic',
    }),
  ],
  {
    equation: { text: '2 C₇H₆O → C₁₄H₁₂O₂', balanced: true },
    conditions: '60–65 °C, about 90 min, then overnight in the cold',
    protection: ['goggles', 'nitrile gloves'],
    yield: figure(55, '%'),
    yieldRange: { lowest: 35, likeliest: 55, highest: 70 },
    basis: { material: 'benzaldehyde', moles: figure(0.3411, 'mol'), grams: figure(36.2, 'g') },
    product: { material: 'benzoin', moles: figure(0.0939, 'mol'), grams: figure(19.92, 'g'), theory: figure(36.2, 'g') },
    batches: {
      count: 1,
      why: 'one is enough',
      reason: '',
      basisGrams: figure(36.2, 'g'),
      basisMoles: figure(0.3411, 'mol'),
      productGrams: figure(19.92, 'g'),
      heat: null,
      shortestAddition: null,
      lostGrams: null,
      ownLimit: null,
      stages: [
        stageVolume('reaction', 118, 250, { apparatus: '250 mL flask, condenser' }),
        stageVolume('work-up', 118, 250, { apparatus: 'Büchner funnel' }),
      ],
    },
  },
);

const benzil = step(
  'benzil',
  2,
  'Oxidation to benzil',
  [
    charge('basis', 'reaction', 'benzoin', take('mass', 9.96, 'g', 2), {
      isBasis: true,
      formWords: 'solid, dry',
      grams: figure(19.92, 'g'),
      total: take('mass', 19.92, 'g', 2),
      supply: { kind: 'step', step: 'benzoin', madeMoles: 0.0939, wholeDish: true, bottles: [] },
      moles: figure(0.0939, 'mol'),
      perGramBasis: figure(1, 'g/g'),
    }),
    charge('acid', 'reaction', 'nitric', take('volume', 39.9, 'mL', 1), {
      formWords: '68 % w/w',
      millilitres: figure(79.8, 'mL'),
      grams: figure(112.1, 'g'),
      density: sourced('density', 1.405, 'g/mL', 'table, 20 °C', 4),
      supply: {
        kind: 'bottles',
        bottles: [bottle('N-117', 'Acids cabinet', 50, 'mL'), bottle('N-118', 'Acids cabinet', 29.8, 'mL')],
      },
      moles: figure(1.21, 'mol'),
      equivalents: figure(12.9, ''),
      perGramBasis: figure(4, 'mL/g'),
      hazards: ['H272', 'H290', 'H314', 'H331', 'EUH071'],
      before: [notice('caution', 'nitrogen dioxide')],
    }),
    hold({
      do: 'hold',
      id: 'gas',
      stage: 'reaction',
      until: 'no brown gas is left',
      temperature: { from: 95, to: 100 },
      aboutMinutes: 90,
      limit: { celsius: 105, action: 'take the bath away' },
      ifNot: 'go on heating; at most 3 h, then ask',
    }),
    charge('ice', 'quench', 'water', take('volume', 149, 'mL', 0, 0.07), {
      supply: { kind: 'utility' },
      perGramBasis: figure(15, 'mL/g'),
      portions: 3,
    }),
    removal({
      do: 'removal',
      id: 'filter',
      stage: 'quench',
      how: 'filter',
      takes: [{ what: 'liquids', percent: 98 }],
      wasteTo: 'nitric acid, aqueous, vented',
    }),
    hold(
      {
        do: 'hold',
        id: 'acid-free',
        stage: 'purification',
        until: 'the washings are acid-free',
        check: 'pH paper 6–7',
        ifNot: 'wash again with 20 mL of cold water',
      },
      [notice('caution', 'oxidiser and organic')],
    ),
    charge('ethanol', 'purification', 'ethanol', take('volume', 39.9, 'mL', 1, 0.1), {
      formWords: '96 % v/v',
      millilitres: figure(79.8, 'mL'),
      density: sourced('density', 0.807, 'g/mL', 'table, 20 °C', 3),
      supply: { kind: 'bottles', bottles: [bottle('E-40', 'Solvents', 79.8, 'mL')] },
      perGramBasis: figure(4, 'mL/g'),
      hazards: ['H225', 'H319'],
    }),
    removal({
      do: 'removal',
      id: 'crystals',
      stage: 'purification',
      how: 'filter',
      takes: [{ what: 'liquids', percent: 96 }],
      wasteTo: 'halogen-free organics',
    }),
  ],
  {
    equation: { text: 'C₁₄H₁₂O₂ + 2 HNO₃ → C₁₄H₁₀O₂ + 2 NO₂ + 2 H₂O', balanced: true },
    conditions: '95–100 °C, about 90 min; staff only, 10 g at most',
    protection: ['goggles', 'face shield', 'acid-proof gloves', 'scrubber with NaOH'],
    yield: figure(92, '%'),
    basis: { material: 'benzoin', moles: figure(0.0939, 'mol'), grams: figure(19.92, 'g') },
    product: { material: 'benzil', moles: figure(0.0864, 'mol'), grams: figure(18.16, 'g'), theory: figure(19.73, 'g') },
    batches: {
      count: 2,
      why: 'own limit',
      reason: '10 g at most',
      basisGrams: figure(9.96, 'g'),
      basisMoles: figure(0.0469, 'mol'),
      productGrams: figure(9.08, 'g'),
      heat: null,
      shortestAddition: null,
      lostGrams: null,
      ownLimit: { grams: 10, reason: '10 g at most' },
      stages: [
        stageVolume('reaction', 48, 100, { most: 0.5, apparatus: '100 mL flask, condenser, gas to scrubber' }),
        stageVolume('quench', 198, 400, {
          vessel: { name: '400 mL beaker', nominal: 400 },
          newVessel: true,
          apparatus: '400 mL beaker',
        }),
        stageVolume('purification', 48, 100, {
          vessel: { name: '100 mL Erlenmeyer', nominal: 100 },
          newVessel: true,
          apparatus: '100 mL Erlenmeyer',
        }),
      ],
    },
    formed: [
      { material: 'benzil', gas: false, hazards: null },
      { material: 'no2', gas: true, hazards: ['H270', 'H314', 'H330'] },
    ],
    gases: [{ material: 'no2', moles: figure(0.188, 'mol'), grams: figure(8.64, 'g'), litres: figure(4.6, 'L') }],
  },
);

const dienone = step('dienone', 3, 'Condensation to the dienone', [
  charge('basis', 'reaction', 'benzil', take('mass', 11.94, 'g', 2), {
    isBasis: true,
    formWords: 'solid',
    supply: { kind: 'step', step: 'benzil', madeMoles: 0.0283, wholeDish: false, bottles: [bottle('21-B', 'Shelf C2', 6, 'g')] },
    moles: figure(0.0568, 'mol'),
    perGramBasis: figure(1, 'g/g'),
  }),
  charge('acetone', 'reaction', 'diphenylacetone', take('mass', 11.94, 'g', 2), {
    formWords: 'solid',
    supply: { kind: 'bottles', bottles: [bottle('D-1', 'Shelf C2', 11.94, 'g')] },
    moles: figure(0.0568, 'mol'),
    equivalents: figure(1, ''),
    perGramBasis: figure(1, 'g/g'),
  }),
  charge('ethanol', 'reaction', 'ethanol', take('volume', 119, 'mL', 0, 0.1), {
    formWords: '96 % v/v',
    density: sourced('density', 0.807, 'g/mL', 'table, 20 °C', 3),
    perGramBasis: figure(10, 'mL/g'),
    hazards: ['H225', 'H319'],
    supply: { kind: 'short', status: 'short', bottles: [] },
  }),
  charge('koh', 'reaction', 'koh', take('mass', 1.7, 'g', 2), {
    formWords: 'pellets, 85 %',
    supply: { kind: 'bottles', bottles: [bottle('K-9', 'Bases', 1.7, 'g')] },
    moles: figure(0.0258, 'mol'),
    equivalents: figure(0.454, ''),
    perGramBasis: figure(0.142, 'g/g'),
    hazards: ['H302', 'H314'],
    overMinutes: 15,
    caution: 'foams as it is added through the condenser: take the heat away, one portion at a time',
    portions: 2,
  }),
]);

const quinoxaline = step('quinoxaline', 4, 'Quinoxaline', [
  charge('basis', 'reaction', 'benzil', take('mass', 10.04, 'g', 2), {
    isBasis: true,
    formWords: 'solid',
    supply: { kind: 'step', step: 'benzil', madeMoles: 0.0478, wholeDish: false, bottles: [] },
    moles: figure(0.0478, 'mol'),
  }),
  charge('diamine', 'reaction', 'diamine', take('mass', 5.22, 'g', 2), {
    formWords: 'solid',
    supply: { kind: 'bottles', bottles: [bottle('P-4', 'Shelf C2', 5.22, 'g')] },
    moles: figure(0.0483, 'mol'),
    equivalents: figure(1.01, ''),
    perGramBasis: figure(0.52, 'g/g'),
    hazards: ['H301', 'H312', 'H317', 'H319', 'H332', 'H341', 'H351', 'H410'],
  }),
  charge('ethanol', 'reaction', 'ethanol', take('unknown', 0, 'mL', 0), {
    formWords: 'strength not written',
    supply: { kind: 'short', status: 'short', bottles: [] },
  }),
]);

/** Benzaldehyde → benzoin → benzil → dienone and quinoxaline; figures are made up for the papers, not computed. */
export const DEMO: PlanResult = plan([benzoin, benzil, dienone, quinoxaline], {
  materials: Object.fromEntries(
    [
      material('thiamine', 'thiamine hydrochloride'),
      material('water', 'water'),
      material('ethanol', 'ethanol', { cas: '64-17-5' }),
      material('naoh', 'sodium hydroxide'),
      material('koh', 'potassium hydroxide'),
      material('benzaldehyde', 'benzaldehyde'),
      material('benzoin', 'benzoin', { madeBy: 'benzoin' }),
      material('benzil', 'benzil', { madeBy: 'benzil' }),
      material('nitric', 'nitric acid'),
      material('no2', 'nitrogen dioxide'),
      material('diphenylacetone', '1,3-diphenylacetone'),
      material('diamine', 'o-phenylenediamine'),
      material('product', 'product'),
    ].map((one) => [one.key, one]),
  ),
  makeUps: [LYE],
  fetch: [
    fetchLine('nitric', 'nitric acid', 79.8, 'mL', {
      formWords: '68 % w/w',
      place: 'Acids cabinet',
      bottles: [bottle('N-117', 'Acids cabinet', 50, 'mL'), bottle('N-118', 'Acids cabinet', 29.8, 'mL')],
      uses: [{ step: 'benzil', operation: 'acid', amount: 79.8 }],
    }),
    fetchLine('ethanol', 'ethanol', 253.1, 'mL', {
      formWords: '96 % v/v',
      place: 'Solvents',
      status: 'short',
      onHand: figure(250, 'mL'),
      short: figure(3.1, 'mL'),
      bottles: [bottle('E-40', 'Solvents', 250, 'mL')],
      uses: [
        { step: 'benzoin', operation: 'ethanol', amount: 54.3 },
        { step: 'benzil', operation: 'ethanol', amount: 79.8 },
        { step: 'dienone', operation: 'ethanol', amount: 119 },
      ],
    }),
    fetchLine('benzaldehyde', 'benzaldehyde', 36.94, 'g', {
      formWords: 'neat, assay 98 %',
      place: 'Shelf C2',
      status: 'out of date',
      passedOver: [
        { bottle: 'bottle B-08', lot: 'B-08', why: 'out of date', left: 250, unit: 'g', useBy: '2026-10-31', wouldCover: true },
      ],
      short: figure(36.94, 'g'),
      onHand: figure(0, 'g'),
      uses: [{ step: 'benzoin', operation: 'basis', amount: 36.94 }],
    }),
    fetchLine('naoh', 'sodium hydroxide', 14.2, 'mL', {
      formWords: '3 mol/L',
      place: 'Bases',
      onHand: figure(0, 'mL'),
      status: 'make up',
      makeUp: 'lye',
      uses: [{ step: 'benzoin', operation: 'lye', amount: 14.2 }],
    }),
    fetchLine('koh', 'potassium hydroxide', 1.7, 'g', {
      formWords: 'pellets, 85 %',
      place: 'Bases',
      bottles: [bottle('K-9', 'Bases', 1.7, 'g')],
      uses: [{ step: 'dienone', operation: 'koh', amount: 1.7 }],
    }),
    fetchLine('water', 'water', 310, 'mL', {
      status: 'tap',
      uses: [
        { step: 'benzoin', operation: 'water', amount: 11.5 },
        { step: 'benzil', operation: 'ice', amount: 298 },
      ],
    }),
  ],
});

/** One step with so many charges, each named so that a lost one is noticed. */
export function manyCharges(count: number): PlanResult {
  const stages = ['reaction', 'quench', 'work-up', 'purification'] as const;
  const charges = Array.from({ length: count }, (_, at) =>
    charge(
      `c${at + 1}`,
      stages[Math.floor((at * 4) / count)] ?? 'reaction',
      `m${at + 1}`,
      take(at % 3 === 0 ? 'volume' : 'mass', 1 + at / 10, at % 3 === 0 ? 'mL' : 'g', 2),
      {
        isBasis: at === 0,
        formWords: at % 2 === 0 ? 'solid' : '10 % w/w in water',
        supply: { kind: 'bottles', bottles: [bottle(`LOT${at + 1}`, `Shelf ${at % 7}`, 1, 'g')] },
        moles: figure(0.01, 'mol'),
        equivalents: figure(1, ''),
        perGramBasis: figure(0.5, 'g/g'),
        hazards: at % 4 === 0 ? ['H225', 'H319', 'H335'] : at % 4 === 1 ? null : ['H302'],
        caution: at % 5 === 2 ? `caution belonging to charge ${at + 1} only` : '',
      },
    ),
  );
  const names = Array.from({ length: count }, (_, at) => {
    const long = at % 11 === 10 ? ' of a name so long that it has to run over several lines without pushing anything aside' : '';
    return material(`m${at + 1}`, `material-${at + 1}x${long}`);
  });
  return plan([step('many', 1, 'A step of many charges', charges)], {
    materials: Object.fromEntries(names.map((one) => [one.key, one])),
  });
}
