import type { StandingBottle } from '../shelf/standing.ts';
import type { StockSolution } from '../bench/stock-solution.ts';
import type { Form } from '../matter/form.ts';
import type { Flow } from './flow.ts';
import type { MakeUp } from './make-up-result.ts';
import type { Figure } from '../quantity/figure.ts';
import type { Hold, Keeps, Removal, Stage, StepYield, TemperatureWindow } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';

/** What plan() gives back: every number a figure, every trouble a notice, the rest of the plan still there. */
export interface PlanResult {
  readonly name: string;
  readonly route: string;
  readonly asOf: string;
  /** True when nothing prevented the network from being solved. */
  readonly solved: boolean;
  /** How much is started, against the plan at the likeliest yields. */
  readonly start: StartPlan;
  readonly draws: readonly DrawPlan[];
  readonly materials: Readonly<Record<string, MaterialPlan>>;
  /** In working order: what is made first comes first. */
  readonly steps: readonly StepPlan[];
  readonly flow: Flow;
  readonly fetch: readonly FetchLine[];
  readonly makeUps: readonly MakeUp[];
  /** Materials with several makers: which run, and what each would cost. */
  readonly choices: readonly Choice[];
  readonly notices: readonly Notice[];
}

/** Which of several makers of a material the plan runs. */
export interface Choice {
  readonly material: string;
  /** Judged by money where every price is known, else by grams of bought material. */
  readonly by: 'price' | 'mass';
  readonly makers: readonly {
    readonly step: string;
    readonly runs: boolean;
    /** Bought materials of the whole plan with this maker alone, money or g; null where that cannot be planned. */
    readonly cost: number | null;
  }[];
}

/** The start that every amount of the plan follows. */
export interface StartPlan {
  readonly kind: 'likeliest' | 'chance' | 'multiplier';
  /** The chance of enough that was asked for; null where the start was not chosen by it. */
  readonly chancePercent: number | null;
  readonly multiplier: Figure<''>;
}

export interface DrawPlan {
  readonly id: string;
  readonly material: string;
  readonly purpose: string;
  readonly kept: boolean;
  readonly date: string | null;
  readonly grams: Figure<'g'> | null;
  readonly moles: Figure<'mol'> | null;
}

/** A route material as the plan understood it: table and route joined. */
export interface MaterialPlan {
  readonly key: string;
  readonly name: string;
  readonly formula: string | null;
  readonly cas: string | null;
  readonly smiles: string | null;
  readonly state: 'solid' | 'liquid' | 'gas' | null;
  readonly utility: boolean;
  readonly molarMass: Figure<'g/mol'> | null;
  /** The step that makes it, or null where it is bought. */
  readonly madeBy: string | null;
}

export interface StepPlan {
  readonly id: string;
  /** 1 … n in working order; what the person sees on screen and paper. */
  readonly number: number;
  readonly title: string;
  readonly equation: EquationPlan;
  readonly conditions: string;
  readonly protection: readonly string[];
  /** What to do with what is spilt, and for who is hurt; empty where the route does not say. */
  readonly spill: string;
  readonly firstAid: string;
  readonly source: string;
  /** How long its product keeps; null where the route does not say. */
  readonly keeps: Keeps | null;
  /** False where stock already covers what this step would make. */
  readonly active: boolean;
  /** Why a step that does not run does not. */
  readonly whyIdle: 'nothing to make' | 'left out' | 'another makes it' | null;
  readonly basis: { readonly material: string; readonly moles: Figure<'mol'>; readonly grams: Figure<'g'> };
  readonly product: {
    readonly material: string;
    /** What the yield lets one expect, contained. */
    readonly moles: Figure<'mol'>;
    readonly grams: Figure<'g'>;
    /** What a yield of 100 % would give. */
    readonly theory: Figure<'g'>;
  };
  /** Second products that are counted on, contained. */
  readonly seconds: readonly { readonly material: string; readonly moles: Figure<'mol'>; readonly grams: Figure<'g'> }[];
  readonly yield: Figure<'%'>;
  /** The later step whose yield covers this one too; null where it has its own. */
  readonly yieldCountedIn: string | null;
  readonly yieldRange: Exclude<StepYield, number> | null;
  /** How many runs the yield was learned from; not there where it was entered. */
  readonly yieldRuns?: number;
  readonly operations: readonly OperationPlan[];
  readonly batches: BatchPlan;
  readonly gases: readonly {
    readonly material: string;
    readonly moles: Figure<'mol'>;
    readonly grams: Figure<'g'>;
    readonly litres: Figure<'L'>;
  }[];
  /** What the equation makes besides water: product, by-products, gases. */
  readonly formed: readonly FormedPlan[];
  /** What is freed where charges meet water, acid or base, by its name; not what the equation makes. */
  readonly freed: readonly FormedPlan[];
  readonly notices: readonly Notice[];
}

/** A material that a step makes, with the hazard statements of the pure substance; null: no harmonised entry. */
export interface FormedPlan {
  readonly material: string;
  readonly gas: boolean;
  readonly hazards: readonly string[] | null;
}

export interface EquationPlan {
  /** E.g. "2 C₇H₆O → C₁₄H₁₂O₂". */
  readonly text: string;
  readonly balanced: boolean;
}

export interface BatchPlan {
  readonly count: number;
  readonly why: 'one is enough' | 'own limit' | 'cooling' | 'vessel' | 'by hand';
  readonly reason: string;
  /** Contained basis in each batch. */
  readonly basisGrams: Figure<'g'>;
  readonly basisMoles: Figure<'mol'>;
  readonly productGrams: Figure<'g'>;
  /** The person's own limit for one batch, g of contained basis. */
  readonly ownLimit: { readonly grams: number; readonly reason: string } | null;
  readonly stages: readonly StageVolume[];
  /** Heat that one batch gives off; null where no figure is entered: unknown, never none. */
  readonly heat: Figure<'kJ'> | null;
  /** Shortest addition the cooling keeps up with; null where heat or cooling power is not known. */
  readonly shortestAddition: Figure<'min'> | null;
  /** Product that stays behind in each batch; null where none is entered. */
  readonly lostGrams: Figure<'g'> | null;
}

export interface StageVolume {
  readonly stage: Stage;
  /** Largest volume in the vessel during the stage, one batch. */
  readonly volume: Figure<'mL'>;
  readonly vessel: { readonly name: string; readonly nominal: number } | null;
  /** Filtrate and washings of the stage together, one batch, at most: what the filter flask must hold; null without a filter. */
  readonly runsOff: Figure<'mL'> | null;
  /** Smallest volume that is stirred during the stage, one batch; null where nothing is. */
  readonly stirred: Figure<'mL'> | null;
  /** volume ÷ nominal. */
  readonly fill: number | null;
  /** Largest fill allowed here. */
  readonly most: number;
  /** Smallest fill that can be stirred. */
  readonly least: number;
  readonly apparatus: string;
  readonly newVessel: boolean;
}

export type OperationPlan = ChargePlan | HoldPlan | RemovalPlan;

export interface HoldPlan {
  readonly kind: 'hold';
  readonly hold: Hold;
  readonly before: readonly Notice[];
}
export interface RemovalPlan {
  readonly kind: 'removal';
  readonly removal: Removal;
  readonly before: readonly Notice[];
}

/** Where a charge comes from. */
export type Supply =
  | { readonly kind: 'bottles'; readonly bottles: readonly BottleShare[] }
  /** Made up, with what is there of it already. */
  | { readonly kind: 'make up'; readonly makeUp: string; readonly bottles: readonly BottleShare[] }
  /** From the dish of an earlier step, after what stands on the shelf of it. */
  | {
      readonly kind: 'step';
      readonly step: string;
      /** Contained moles from that step. */
      readonly madeMoles: number;
      /** True where everything that step is expected to make goes into this charge. */
      readonly wholeDish: boolean;
      readonly bottles: readonly BottleShare[];
    }
  | { readonly kind: 'utility' }
  /** Not covered: what of it is on the shelf, and why the rest is not. */
  | { readonly kind: 'short'; readonly status: Status; readonly bottles: readonly BottleShare[] };

export interface BottleShare {
  readonly bottle: string;
  readonly lot: string;
  readonly place: string;
  /** As supplied, in the bottle's unit. */
  readonly amount: number;
  readonly unit: 'g' | 'mL';
}

/** A share of a bottle on a fetch line. */
export interface LineShare extends BottleShare {
  /** What it is worth in the line's own form and unit, corrected for assay and strength. */
  readonly worth: number;
}

/** One charge's call on a fetch line. */
export interface LineUse {
  readonly step: string;
  readonly operation: string;
  /** What the whole step takes, in the line's form and unit, the estimate of an "until"; null where it is not known. */
  readonly amount: number | null;
}

export interface ChargePlan {
  readonly kind: 'charge';
  readonly id: string;
  readonly stage: Stage;
  readonly material: string;
  readonly form: Form;
  /** Asked for as saturated: `form` is the strength that is. */
  readonly saturated?: true;
  /** The form in words, with the strength's basis, e.g. "68 % w/w". */
  readonly formWords: string;
  readonly rule: string;
  readonly ratio: Figure | null;
  /** Of a charge that neutralises (or the estimate of an "until" that does): to which pH, with how much more. */
  readonly neutralises?: { readonly endPH: number; readonly excessPercent: number };
  readonly isBasis: boolean;
  /** Contained amount of the active material for the whole step. */
  readonly moles: Figure<'mol'> | null;
  readonly equivalents: Figure<''> | null;
  /** As supplied, for the whole step. */
  readonly grams: Figure<'g'> | null;
  readonly millilitres: Figure<'mL'> | null;
  readonly density: Figure<'g/mL'> | null;
  /** g or mL per g of contained basis; null for a fixed amount per batch. */
  readonly perGramBasis: Figure<'g/g' | 'mL/g'> | null;
  /** The whole step's amount as it is taken: what the step card shows large. */
  readonly total: Take;
  /** One batch's amount, rounded to what the balance or measure can show. */
  readonly perBatch: Take;
  readonly portions: number;
  /** Not less than the target may be used. */
  readonly noLess: boolean;
  readonly supply: Supply;
  /** Part of what a batch charges that comes back of it and goes into the next, 0 … 1; 0 for a single batch, or where none does. */
  readonly returns: number;
  /** Solvent that comes along with a product that was not isolated dry, for the whole step. */
  readonly carried: { readonly material: string; readonly name: string; readonly millilitres: Figure<'mL'> } | null;
  readonly temperature: TemperatureWindow | null;
  readonly overMinutes: number | null;
  readonly endPoint: string | null;
  /** Of an "until": the largest amount, as a multiple of the estimate that the target is. */
  readonly atMost: number | null;
  readonly limit: { readonly celsius: number; readonly side: 'above' | 'below'; readonly action: string } | null;
  /** Hazard statements of this material at this strength; null: no harmonised entry. */
  readonly hazards: readonly string[] | null;
  /** Cautions that stand immediately before this operation. */
  readonly before: readonly Notice[];
  readonly caution: string;
  readonly note: string;
  readonly source: string;
}

/** An amount to weigh or measure. `exact` is unrounded; `target` is what the device can show. */
export interface Take {
  readonly by: 'mass' | 'volume' | 'unknown';
  readonly exact: Figure<'g' | 'mL'> | null;
  readonly target: number;
  readonly unit: 'g' | 'mL';
  readonly decimals: number;
  readonly device: string;
  /** Standard and class of a measure, e.g. "ISO 4788, class A"; empty for a balance, or where none is entered. */
  readonly standard: string;
  /** Largest error the standard allows the measure; null where it is not known. */
  readonly deviceTolerance: Figure<'mL'> | null;
  /** True for a burette: its scale is read before and after. */
  readonly readTwice: boolean;
  /** How often the measure is filled for one portion. */
  readonly fills: number;
  /** Smallest net mass the balance weighs within the accepted range. */
  readonly least: Figure<'g'> | null;
  /** False where no device of the laboratory takes it within the accepted range. */
  readonly meets: boolean;
  readonly low: number | null;
  readonly high: number | null;
  /** Accepted deviation, ± %; of the basis, which is only recorded, what a reagent is weighed to. */
  readonly tolerancePercent: number;
  /** Moles and equivalents of the rounded target. */
  readonly moles: number | null;
  readonly equivalents: number | null;
  /** The smallest stock solution that makes it weighable, for one portion; null where it is not needed or not possible. */
  readonly stock: StockSolution | null;
}

export type Status = 'enough' | 'make up' | 'short' | 'out of date' | 'unknown strength' | 'from a step' | 'tap';

export interface FetchLine {
  readonly id: string;
  readonly material: string;
  readonly name: string;
  readonly form: Form;
  readonly formWords: string;
  readonly unit: 'g' | 'mL';
  readonly need: Figure<'g' | 'mL'>;
  /** The strictest purity its charges ask for, % w/w. */
  readonly leastAssayPercent?: number;
  /**
   * What the shelf must give, which is more than the net need where some comes back: the first batch's gross and what each
   * following one loses (shelf/recycled.ts), as much as an end point may take. Equals need otherwise.
   */
  readonly peak: Figure<'g' | 'mL'>;
  /** Some of it goes in as a stock solution: `peak` has what is dissolved for that, `need` only what goes in. */
  readonly dissolved?: true;
  /** What the usable bottles are worth in the line's form and unit. */
  readonly onHand: Figure<'g' | 'mL'>;
  /** What stands there, where that is not the line's form and unit: then `onHand` is an amount no bottle holds. */
  readonly stands?: readonly StandingBottle[];
  readonly short: Figure<'g' | 'mL'> | null;
  readonly status: Status;
  readonly place: string;
  readonly bottles: readonly LineShare[];
  /** Bottles that would serve but for a reason, e.g. past their date. */
  readonly passedOver: readonly PassedOverBottle[];
  /** Bottles that would serve too, or could be thinned, of which nothing is taken here, and something is left. */
  readonly others: readonly string[];
  readonly makeUp: string | null;
  readonly uses: readonly LineUse[];
  /**
   * What steps that feed each other need before it has come back; the plan's own steps make it again. Which part of it each
   * batch of the taking step needs.
   */
  readonly comesBack?: readonly number[];
}

/** A bottle that would serve a line, or could be thinned for it, but for a reason. */
export interface PassedOverBottle {
  readonly bottle: string;
  readonly lot: string;
  readonly why:
    | 'out of date'
    | 'unknown strength'
    | 'held back'
    | 'assay too low'
    | 'named alike'
    | 'other solvent'
    | 'other form'
    | 'strength not said';
  /** As it stands in the bottle. */
  readonly left: number;
  readonly unit: 'g' | 'mL';
  /** Its date, where that is the reason. */
  readonly useBy?: string;
  /** What it is entered as, where it is another material called nearly the same; the solvent, where that is another; its form, where that is. */
  readonly name?: string;
  /** Its assay, % w/w, where that is the reason. */
  readonly assayPercent?: number;
  /**
   * Whether it alone would cover what the line misses if the reason fell away (one of unknown strength: if it is as
   * strong as asked); null where nothing is missing, or it cannot be told.
   */
  readonly wouldCover: boolean | null;
}
