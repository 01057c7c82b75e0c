import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { Key, LongText, Material, ShortText } from '../matter/material.ts';
import { BATHS } from './bath.ts';

const Positive = z.number().check(z.gt(0), z.lte(1e9));
const Percent = z.number().check(z.gte(0), z.lte(100));
const Celsius = z.number().check(z.gte(-200), z.lte(1000));
const Count = z.int().check(z.gte(1), z.lte(1000));

export const Stage = z.enum(['reaction', 'quench', 'work-up', 'purification']);
export type Stage = z.infer<typeof Stage>;
/** Stages in the order they are worked. */
export const STAGES: readonly Stage[] = ['reaction', 'quench', 'work-up', 'purification'];

/** What ties an amount to the basis; the table in resources/schema/README.md explains each. */
const PlainRule = z.discriminatedUnion('kind', [
  /** The material the step's ratios refer to. */
  z.strictObject({ kind: z.literal('basis') }),
  /** mol per mol of basis. */
  z.strictObject({ kind: z.literal('equivalents'), equivalents: Positive }),
  /** g as supplied per g of contained basis. */
  z.strictObject({ kind: z.literal('mass ratio'), gramsPerGram: Positive }),
  /** mL as added per g of contained basis. */
  z.strictObject({ kind: z.literal('volumes'), millilitresPerGram: Positive }),
  /** mL as added per mol of basis. */
  z.strictObject({ kind: z.literal('molar volume'), millilitresPerMole: Positive }),
  /** Solvent to n(basis)/c litres of solvent, solvents already in the pot counted. */
  z.strictObject({ kind: z.literal('to concentration'), molesPerLitre: Positive }),
  /** Solvent up to a total volume in the pot, mL per mol of basis. */
  z.strictObject({ kind: z.literal('make up to'), millilitresPerMole: Positive }),
  /** A fixed amount in every batch: a rinse, a seed. */
  z.strictObject({ kind: z.literal('per batch'), amount: Positive, unit: z.enum(['g', 'mL']) }),
  /** A base or an acid that brings what is in the pot at that point to a pH, with so much more, %. */
  z.strictObject({
    kind: z.literal('to neutralise'),
    endPH: z.number().check(z.gte(2), z.lte(12)),
    excessPercent: z.optional(z.number().check(z.gte(0), z.lte(1000))),
  }),
]);
export type PlainRule = z.infer<typeof PlainRule>;

/** To an end point, with an estimate and a stated largest amount. */
const UntilRule = z.strictObject({
  kind: z.literal('until'),
  endPoint: ShortText,
  estimate: PlainRule,
  /** Largest amount, as a multiple of the estimate. */
  atMost: z.number().check(z.gte(1), z.lte(1000)),
});

export const ChargeRule = z.union([PlainRule, UntilRule]);
export type ChargeRule = z.infer<typeof ChargeRule>;

/** A temperature that must not be passed, and what to do if it is. Comes from the procedure; never a default. */
const Limit = z.strictObject({ celsius: Celsius, side: z.optional(z.enum(['above', 'below'])), action: ShortText });
/** Numbers, or the procedure's own word for a bath, which stays a word: see bath.ts. */
const TemperatureWindow = z.union([z.strictObject({ from: Celsius, to: Celsius }), z.strictObject({ bath: z.enum(BATHS) })]);
export type TemperatureWindow = z.infer<typeof TemperatureWindow>;

/** Solvent that goes on with a product that is not isolated dry, mL per g of what is contained. */
const CarriedSolvent = z.strictObject({ material: Key, millilitresPerGram: Positive });
export type CarriedSolvent = z.infer<typeof CarriedSolvent>;

const KnownAddition = z.strictObject({ minutes: Positive, basisGrams: Positive });

const Charge = z.strictObject({
  do: z.literal('charge'),
  id: Key,
  stage: Stage,
  material: Key,
  /** The form the procedure names; neat where it is not given. Need not be on the shelf. */
  form: z.optional(Form),
  rule: ChargeRule,
  /** Added in so many equal portions. */
  portions: z.optional(Count),
  /** Weighed or measured; chosen by state and rule where it is not given. */
  by: z.optional(z.enum(['mass', 'volume'])),
  /** Accepted range around the target, ± %. */
  tolerancePercent: z.optional(Percent),
  /** Not less than the target may be used: the excess is what keeps it safe, or carries the heat. */
  noLess: z.optional(z.boolean()),
  /** Largest fraction of the basis' purity allowed: least assay of what may be used, % w/w. */
  leastAssayPercent: z.optional(Percent),
  /** Solvent that comes with it; that of the step which makes it where none is given. */
  carriedWith: z.optional(CarriedSolvent),
  temperature: z.optional(TemperatureWindow),
  overMinutes: z.optional(Positive),
  /** How long this addition took where it went well, and at what scale, g of contained basis. */
  knownAddition: z.optional(KnownAddition),
  limit: z.optional(Limit),
  /** Printed immediately before the operation. */
  caution: z.optional(LongText),
  note: z.optional(LongText),
  /** Where the ratio comes from, e.g. a published procedure; or "from memory". */
  source: z.optional(ShortText),
  /** The amount as the procedure prints it, e.g. "75 g (46 mL, 0.63 mol)"; the rule follows from it. */
  printed: z.optional(ShortText),
});
export type Charge = z.infer<typeof Charge>;

/** How long a step's product keeps, or a mixture may stand, and where. */
export const Keeps = z.strictObject({
  hours: z.number().check(z.gt(0), z.lte(87_600)),
  /** Where, and under what: "in the fridge, under argon". */
  where: z.optional(ShortText),
});
export type Keeps = z.infer<typeof Keeps>;

const Hold = z.strictObject({
  do: z.literal('hold'),
  id: Key,
  stage: Stage,
  /** What must be true before going on, e.g. "no brown gas is left". */
  until: ShortText,
  temperature: z.optional(TemperatureWindow),
  aboutMinutes: z.optional(Positive),
  /** An in-process check and its pass mark. */
  check: z.optional(ShortText),
  ifNot: z.optional(ShortText),
  /** How long it may stand when it is so, before what follows; not known where it is not given. */
  stands: z.optional(Keeps),
  limit: z.optional(Limit),
  caution: z.optional(LongText),
  note: z.optional(LongText),
});
export type Hold = z.infer<typeof Hold>;

/** What a removal can take besides a material named by its key. */
export const GROUPS_TAKEN: readonly string[] = ['liquids', 'solids', 'aqueous layer', 'organic layer', 'all but the product'];
/** What a removal takes: a material by key, or one of the groups above. */
const Taken = z.strictObject({
  what: z.union([z.enum(['liquids', 'solids', 'aqueous layer', 'organic layer', 'all but the product']), Key]),
  percent: Percent,
});

const Removal = z.strictObject({
  do: z.literal('removal'),
  id: Key,
  stage: Stage,
  how: z.enum(['filter', 'separate', 'distil', 'dry', 'wash away', 'vent']),
  takes: z.array(Taken).check(z.maxLength(20)),
  /** For "distil": what stays, mL per g of contained basis; liquids are then taken down to it. */
  leavesMillilitresPerGram: z.optional(z.number().check(z.gte(0), z.lte(1e6))),
  /** Waste container of what is taken; the same name is the same container. */
  wasteTo: z.optional(ShortText),
  caution: z.optional(LongText),
  note: z.optional(LongText),
});
export type Removal = z.infer<typeof Removal>;

export const Operation = z.discriminatedUnion('do', [Charge, Hold, Removal]);
export type Operation = z.infer<typeof Operation>;

/** A single value taken as certain, or lowest / likeliest / highest; % of theory against the basis. */
export const StepYield = z.union([
  Percent,
  z.strictObject({
    lowest: Percent,
    likeliest: Percent,
    highest: Percent,
    /** Never passed, or passed about one time in ten on each side; absolute where it is not given. */
    limits: z.optional(z.enum(['absolute', 'one in ten'])),
  }),
]);
export type StepYield = z.infer<typeof StepYield>;

const Term = z.strictObject({
  material: Key,
  coefficient: z.number().check(z.gt(0), z.lte(1000)),
  gas: z.optional(z.boolean()),
  /** Of a second product that is isolated too: % of theory against the basis. */
  yieldPercent: z.optional(Percent),
});
export type Term = z.infer<typeof Term>;

/** Material that comes back usable: a fraction of what this step charged, or mol per mol of basis. */
const Recovery = z.union([
  z.strictObject({ material: Key, percentOfCharge: z.number().check(z.gt(0), z.lt(100)) }),
  z.strictObject({ material: Key, molesPerMoleBasis: Positive }),
]);
export type Recovery = z.infer<typeof Recovery>;

const StageSetting = z.strictObject({
  /** The stage starts in another vessel; what the removals left is carried over. */
  newVessel: z.optional(z.boolean()),
  apparatus: z.optional(ShortText),
  /** Foams, frees gas or is strongly exothermic: half full at most instead of two thirds. */
  lively: z.optional(z.boolean()),
});

/** How the product is recrystallised, with what is known of its solubility. */
const Recrystallise = z
  .strictObject({
    solvent: ShortText,
    /** What the solubilities are counted per. */
    per: z.enum(['100 mL solvent', '100 g solvent', '100 g solution']),
    /** g of product dissolved at a temperature; none: those of the built-in table. */
    points: z.array(z.strictObject({ celsius: Celsius, grams: z.number().check(z.gt(0), z.lte(1e5)) })).check(z.maxLength(50)),
    /** Where the solid under the solution changes, e.g. a hydrate loses its water. */
    changeCelsius: z.optional(Celsius),
    /** Hot solvent over the least that dissolves the product. */
    excessPercent: z.optional(z.number().check(z.gt(0), z.lte(1000))),
    hotCelsius: Celsius,
    coldCelsius: Celsius,
    /** Cold solvent for the washings per g of product, in mL or g as the solubility is counted. */
    washPerGram: z.optional(Positive),
    source: z.optional(ShortText),
  })
  .check(
    z.refine((one) => one.per !== '100 g solution' || one.points.every((point) => point.grams < 100), {
      error: 'a solubility per 100 g of solution needs to be below 100 g',
      path: ['points'],
    }),
  );
export type Recrystallise = z.infer<typeof Recrystallise>;

const KilojoulesPerMole = z.number().check(z.gte(-1e6), z.lte(1e6));

/**
 * Heat of the reaction, from the first of these that is given: entered, a trial, heats of formation, a typical value.
 * None of them: not known, which is never none.
 */
const StepHeat = z.strictObject({
  /** Given off, kJ per mol of `per`. */
  kilojoulesPerMole: z.optional(Positive),
  /** The material of the equation that the heat, the trial and the typical value are per mole of; the basis where it is not given. */
  per: z.optional(Key),
  /** A trial: so many mol of `per` warmed so many grams of mixture by so many kelvin, with nothing lost. */
  trial: z.optional(
    z.strictObject({
      moles: Positive,
      grams: Positive,
      riseKelvin: z.number().check(z.gte(-1000), z.lte(1000)),
      joulesPerGramKelvin: z.number().check(z.gt(0), z.lte(20)),
    }),
  ),
  /** Heats of formation of everything in the equation, kJ/mol. */
  formation: z.optional(z.record(Key, KilojoulesPerMole)),
  /** A row of the table of typical heats, by its name. */
  typical: z.optional(ShortText),
  /** Longest the addition that frees it may take, min. */
  longestMinutes: z.optional(Positive),
  source: z.optional(ShortText),
  /** Largest part of the heat that is held back while the last reactant is added, %; all of it where it is not given. */
  accumulationPercent: z.optional(Percent),
  /** Highest temperature for technical reasons: boiling, or what the vessel stands, °C. */
  highestCelsius: z.optional(Celsius),
  /** Temperature at which the decomposition takes a day to run away, °C. */
  dayToRunawayCelsius: z.optional(Celsius),
});
export type StepHeat = z.infer<typeof StepHeat>;

export const Step = z.strictObject({
  id: Key,
  title: ShortText,
  equation: z.strictObject({
    uses: z.array(Term).check(z.minLength(1), z.maxLength(20)),
    makes: z.array(Term).check(z.minLength(1), z.maxLength(20)),
  }),
  basis: Key,
  product: Key,
  yieldPercent: StepYield,
  yieldSource: z.optional(ShortText),
  /** A later step whose yield covers this one too; this step's own is then 100. */
  yieldCountedIn: z.optional(Key),
  /** The product goes on as it is, crude or in solution. */
  carriedWith: z.optional(CarriedSolvent),
  /** % w/w of the product as isolated; taken as 100 where it is not given. */
  productAssayPercent: z.optional(z.number().check(z.gt(0), z.lte(100))),
  /** How long the product keeps until it goes on; not known where it is not given. */
  keeps: z.optional(Keeps),
  recovers: z.optional(z.array(Recovery).check(z.maxLength(20))),
  operations: z.array(Operation).check(z.minLength(1), z.maxLength(600)),
  stages: z.optional(z.partialRecord(Stage, StageSetting)),
  /** The person's own limit for one batch, g of contained basis, with the reason. */
  batchLimit: z.optional(z.strictObject({ grams: Positive, reason: ShortText })),
  /** Product that stays behind in every batch, g contained: the film in the flask. Beside the yield, which is proportional. */
  lossPerBatch: z.optional(z.strictObject({ grams: Positive, reason: ShortText })),
  heat: z.optional(StepHeat),
  recrystallise: z.optional(Recrystallise),
  conditions: z.optional(LongText),
  protection: z.optional(z.array(ShortText).check(z.maxLength(20))),
  /** What to do with what is spilt, and for who is hurt; printed at the head of every sheet. */
  spill: z.optional(LongText),
  firstAid: z.optional(LongText),
  note: z.optional(LongText),
  source: z.optional(ShortText),
  /** What the procedure prints of the product: "35–37 g", and of the yield: "91–96 %". */
  printed: z.optional(z.strictObject({ product: z.optional(ShortText), yield: z.optional(ShortText) })),
});
export type Step = z.infer<typeof Step>;

/** A route file: the whole synthesis with the materials it names. Documented in resources/schema. */
export const Route = z.strictObject({
  backweigh: z.literal('route'),
  version: z.literal(1),
  name: ShortText,
  note: z.optional(LongText),
  materials: z.record(Key, Material),
  steps: z.array(Step).check(z.minLength(1), z.maxLength(200)),
});
export type Route = z.infer<typeof Route>;
