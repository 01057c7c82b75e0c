import * as z from 'zod/mini';
import { Key, ShortText } from '../matter/material.ts';
import type { StepPlan } from '../plan/result.ts';
import { Initials } from '../run/initials.ts';

/** A sentence as it stood on screen or paper. */
export const CautionWords = z.string().check(z.minLength(1), z.maxLength(4000));

/** What a caution was read for: the scale of one batch, and what is charged at which strength. */
const ReadFor = z.strictObject({
  /** Basis of one batch; null where it is not known. */
  basisGrams: z.nullable(z.number().check(z.gte(0))),
  /** Every charge with its form, in order. */
  charges: z.string().check(z.maxLength(20_000)),
});
export type ReadFor = z.infer<typeof ReadFor>;

/** That a person has read one caution of a plan, as it stood then. It never hides the caution, from nobody. */
export const Acknowledgement = z.strictObject({
  step: Key,
  operation: Key,
  /** Of the caution; "procedure" for what the route itself says. */
  code: ShortText,
  words: CautionWords,
  /** Acknowledgements kept from before have none: for what they were given is not known. */
  of: z.optional(ReadFor),
  by: Initials,
});
export type Acknowledgement = z.infer<typeof Acknowledgement>;

/** As it is kept, for ever. */
export interface Acknowledged extends Acknowledgement {
  readonly id: number;
  /** ISO moment in UTC. */
  readonly at: string;
}

/** A caution as it is said now. */
export type SaidNow = Pick<Acknowledgement, 'step' | 'operation' | 'code' | 'words'> & { readonly of: ReadFor };

/** Read for one batch, a caution stands as read up to so many times that basis. Common practice, no source. */
const SAME_SCALE = 2;
const ROUNDING = 1e-9;

/** What the cautions of a step are read for, as it is planned now. */
export function readFor({ batches, operations }: StepPlan): ReadFor {
  const grams = batches.basisGrams.value;
  const charges = operations.flatMap((one) => (one.kind === 'charge' ? [`${one.material} ${one.formWords}`.trim()] : []));
  return { basisGrams: Number.isFinite(grams) ? grams : null, charges: charges.join('; ').slice(0, 20_000) };
}

/** Why an acknowledgement does not hold for a caution as it stands now; null where it holds. */
export type Ended = 'wording' | 'scale' | 'charges' | 'not known';

function whyEnded(one: Acknowledgement, now: SaidNow): Ended | null {
  if (one.words !== now.words) return 'wording';
  if (!one.of) return 'not known';
  if (one.of.charges !== now.of.charges) return 'charges';
  const [then, grams] = [one.of.basisGrams, now.of.basisGrams];
  if (then === null || grams === null) return then === grams ? null : 'scale';
  return grams <= then * SAME_SCALE * (1 + ROUNDING) ? null : 'scale';
}

/**
 * Who has read a caution as it stands now, and who read it when it said something else, at a smaller scale or with other
 * strengths. Oldest first. @param here words of everything said before the same operation: another caution of the same
 * kind is no earlier wording of this one.
 */
export function readBy(
  caution: SaidNow,
  all: readonly Acknowledged[],
  here: readonly string[] = [],
): { readonly now: readonly Acknowledged[]; readonly earlier: readonly (Acknowledged & { readonly ended: Ended })[] } {
  const others = new Set(here.filter((words) => words !== caution.words));
  const own = all.filter(
    ({ step, operation, code, words }) =>
      step === caution.step && operation === caution.operation && code === caution.code && !others.has(words),
  );
  const judged = own.map((one) => ({ one, ended: whyEnded(one, caution) }));
  return {
    now: judged.flatMap(({ one, ended }) => (ended === null ? [one] : [])),
    earlier: judged.flatMap(({ one, ended }) => (ended === null ? [] : [{ ...one, ended }])),
  };
}
