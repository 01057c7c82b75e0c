import * as z from 'zod/mini';
import { BenchSession } from '../session/bench-session.ts';

const Id = z.int().check(z.gte(1), z.lte(2_000_000_000));

/** A session at its newest state. */
export interface SessionState {
  readonly id: number;
  readonly plan: number;
  readonly state: number;
  readonly archived: boolean;
  readonly saved: string;
  readonly session: BenchSession;
}

export const sessionInputs = {
  /** Sessions of a plan, the newest day first; archived ones too. */
  'sessions.list': z.strictObject({ planId: Id }),
  'sessions.create': z.strictObject({ planId: Id, session: BenchSession }),
  /** Appends a state; refused where `after` is no longer the newest. */
  'sessions.save': z.strictObject({
    id: Id,
    after: z.int().check(z.gte(1)),
    session: BenchSession,
    archived: z.boolean(),
  }),
} as const;
