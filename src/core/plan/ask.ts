import * as z from 'zod/mini';
import { Key, LongText, ShortText } from '../matter/material.ts';
import { StepYield } from '../route/route.ts';

/** One intended use of a product: contained mass or moles. */
export const Draw = z.strictObject({
  id: Key,
  material: Key,
  amount: z.number().check(z.gte(0), z.lte(1e9)),
  unit: z.enum(['g', 'mol']),
  /** The unit as typed, so that what was typed is shown again. */
  shownIn: z.optional(z.enum(['µg', 'mg', 'g', 'kg', 't', 'µmol', 'mmol', 'mol', 'kmol'])),
  purpose: z.optional(ShortText),
  /** Something to keep rather than to use. */
  kept: z.optional(z.boolean()),
  leastAssayPercent: z.optional(z.number().check(z.gte(0), z.lte(100))),
  date: z.optional(z.iso.date()),
});
export type Draw = z.infer<typeof Draw>;

/** The start chosen: by the chance that all draws are met, or as a multiple of the plan at the likeliest yields. */
export const StartChoice = z.union([
  z.strictObject({ chancePercent: z.number().check(z.gte(1), z.lte(99.9)) }),
  z.strictObject({ multiplier: z.number().check(z.gte(0.01), z.lte(100)) }),
]);
export type StartChoice = z.infer<typeof StartChoice>;

/** A run that a plan's yield was learned from: what it yielded, % of theory, and how much it counts; 0 leaves it out. */
const LearnedRun = z.strictObject({
  run: z.int().check(z.gte(1), z.lte(2_000_000_000)),
  percent: z.number().check(z.gte(0), z.lte(1000)),
  weight: z.number().check(z.gte(0), z.lte(10)),
});
export type LearnedRun = z.infer<typeof LearnedRun>;

/** What is asked of a route: the draws and every choice the person made for this plan. */
export const Ask = z.strictObject({
  name: ShortText,
  note: z.optional(LongText),
  draws: z.array(Draw).check(z.maxLength(200)),
  /** Yields frozen for this plan, by step id; the route's own where a step is not named. */
  yields: z.optional(z.record(Key, StepYield)),
  /** Runs that a step's yield was learned from, frozen with the plan, by step id; its entered yield is the prior. */
  learned: z.optional(z.record(Key, z.array(LearnedRun).check(z.minLength(1), z.maxLength(1000)))),
  /** Number of batches chosen by hand, by step id; worked out where a step is not named. */
  batches: z.optional(z.record(Key, z.int().check(z.gte(1), z.lte(1000)))),
  /** Bottles not to be used for this plan. */
  holdBack: z.optional(z.array(z.string().check(z.maxLength(80))).check(z.maxLength(1000))),
  /** Bottles to be used before any other of their material, first to expire or not. */
  useFirst: z.optional(z.array(z.string().check(z.maxLength(80))).check(z.maxLength(1000))),
  /** Steps not to run; what only they make is bought. */
  leaveOut: z.optional(z.array(Key).check(z.maxLength(200))),
  /** Whether stock of intermediates and products is counted; true where it is not given. */
  useStock: z.optional(z.boolean()),
  /** How much to start with: for a chance of enough, or so many times the likeliest plan; that plan where not given. */
  start: z.optional(StartChoice),
});
export type Ask = z.infer<typeof Ask>;

/** A plan file: an ask kept beside its route. */
export const PlanFile = z.strictObject({ backweigh: z.literal('plan'), version: z.literal(1), ask: Ask });
export type PlanFile = z.infer<typeof PlanFile>;
