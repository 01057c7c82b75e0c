import * as z from 'zod/mini';
import { Key, ShortText } from '../matter/material.ts';
import { Initials } from '../run/initials.ts';

/** A sentence as it stood on screen or paper. */
export const CautionWords = z.string().check(z.minLength(1), z.maxLength(4000));

/** That a person has read one caution of a plan, as it stood then. It never hides the caution, from nobody. */
export const Acknowledgement = z.strictObject({
  step: Key,
  operation: Key,
  /** Of the caution; "procedure" for what the route itself says. */
  code: ShortText,
  words: CautionWords,
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
export type SaidNow = Pick<Acknowledgement, 'step' | 'operation' | 'code' | 'words'>;

/** Who has read a caution as it stands now, and who read it when it said something else. Oldest first. */
export function readBy(
  caution: SaidNow,
  all: readonly Acknowledged[],
): { readonly now: readonly Acknowledged[]; readonly earlier: readonly Acknowledged[] } {
  const here = all.filter(
    ({ step, operation, code }) => step === caution.step && operation === caution.operation && code === caution.code,
  );
  const now = here.filter(({ words }) => words === caution.words);
  return { now, earlier: here.filter(({ words }) => words !== caution.words) };
}
