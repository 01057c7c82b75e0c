import * as z from 'zod/mini';
import { Acknowledgement } from '../caution/acknowledgement.ts';

const Id = z.int().check(z.gte(1), z.lte(2_000_000_000));

export const cautionInputs = {
  /** Keeps for ever that a person has read a caution of a plan; nothing is hidden by it. */
  'cautions.acknowledge': z.strictObject({ planId: Id, acknowledgement: Acknowledgement }),
  /** Everything that was acknowledged of a plan, oldest first. */
  'cautions.acknowledged': z.strictObject({ planId: Id }),
} as const;
