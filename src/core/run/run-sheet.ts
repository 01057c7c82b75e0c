import * as z from 'zod/mini';
import { Key, Material, ShortText } from '../matter/material.ts';
import { WeighingSheet } from '../paper/sheet.ts';
import { Keeps } from '../route/route.ts';

/**
 * What a run was started with, kept for ever: the sheet of the batch in words, and the numbers that targets, yields and
 * balances of mass are reckoned from. Amounts are of one batch.
 */

const Amount = z.number().check(z.gte(0), z.lte(1e9));
const Positive = z.number().check(z.gt(0), z.lte(1e9));
const Percent = z.number().check(z.gte(0), z.lte(100));
const Words = z.string().check(z.maxLength(300));

/** What a charge takes of one bottle, by the plan. */
const PlannedShare = z.strictObject({
  bottle: z.string().check(z.minLength(1), z.maxLength(80)),
  lot: Words,
  place: Words,
  amount: Amount,
  unit: z.enum(['g', 'mL']),
});

/** The numbers of one charge. */
export const RunCharge = z.strictObject({
  id: Key,
  material: Key,
  name: ShortText,
  isBasis: z.boolean(),
  by: z.enum(['mass', 'volume', 'unknown']),
  unit: z.enum(['g', 'mL']),
  decimals: z.int().check(z.gte(0), z.lte(12)),
  /** Unrounded; null where it is not known. */
  exact: z.nullable(Amount),
  target: z.nullable(Amount),
  low: z.nullable(Amount),
  high: z.nullable(Amount),
  portions: z.int().check(z.gte(1), z.lte(1000)),
  /** What its device is set to: the last digit of a balance, the lines of a measure; records kept from before do not say. */
  line: z.optional(Positive),
  /** Follows the basis; false for a fixed amount in every batch. */
  scales: z.boolean(),
  /** Of the charge as the plan takes it. */
  gramsPerMillilitre: z.nullable(Positive),
  /** mol of the active material per g or mL, as the plan takes it. */
  molesPerUnit: z.nullable(Positive),
  /** The same of what comes from no bottle, where the plan takes a part from bottles of another assay or strength. */
  restMolesPerUnit: z.optional(Positive),
  /** It is too little to be weighed: what is weighed is so much of a stock solution, which the amounts here are of. */
  asStock: z.optional(z.literal(true)),
  /** What was dissolved for it, g; not known of runs begun before it was written down. */
  dissolves: z.optional(Positive),
  /** Where all that an earlier step makes goes in here, after what bottles give: how much that is, as planned. */
  wholeDish: z.optional(Positive),
  bottles: z.array(PlannedShare).check(z.maxLength(1000)),
});
export type RunCharge = z.infer<typeof RunCharge>;

const Celsius = z.number().check(z.gte(-200), z.lte(1000));
/** The temperature of one operation; never a default, only what the procedure says. */
export const RunTemperature = z.strictObject({
  operation: Key,
  window: z.nullable(z.strictObject({ from: Celsius, to: Celsius })),
  limit: z.nullable(z.strictObject({ celsius: Celsius, side: z.enum(['above', 'below']), action: ShortText })),
});
export type RunTemperature = z.infer<typeof RunTemperature>;

export const RunSheet = z.strictObject({
  backweigh: z.literal('run'),
  version: z.literal(1),
  plan: ShortText,
  route: ShortText,
  /** Id of the route's step, and which of its batches, 1 … batches. */
  step: Key,
  batch: z.int().check(z.gte(1), z.lte(1000)),
  asOf: z.iso.date(),
  /** Whether a second person's initials are wanted for each weighing. */
  secondCheck: z.boolean(),
  sheet: WeighingSheet,
  charges: z.array(RunCharge).check(z.maxLength(600)),
  /** Windows and limits of operations, as the procedure gives them; records kept from before have none. */
  temperatures: z.optional(z.array(RunTemperature).check(z.maxLength(600))),
  basis: z.strictObject({
    material: Key,
    name: ShortText,
    /** Contained, as planned. */
    moles: Positive,
    grams: Positive,
    /** As what is got back of it goes to the shelf; records kept from before do not say. */
    holds: z.optional(Material),
  }),
  product: z.strictObject({
    material: Key,
    /** As it goes to the shelf. */
    holds: Material,
    molarMass: z.nullable(Positive),
    /** ν(product) ÷ ν(basis). */
    ratio: Positive,
    /** Contained, as planned. */
    grams: Amount,
    yieldPercent: Percent,
    /** How long it keeps; the route does not always say. */
    keeps: z.optional(Keeps),
    /** Goes on as it is, crude or in solution: nothing is isolated. Records kept from before do not say. */
    carried: z.optional(z.boolean()),
  }),
});
export type RunSheet = z.infer<typeof RunSheet>;
