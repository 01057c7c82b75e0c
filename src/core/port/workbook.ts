import * as z from 'zod/mini';
import { ShortText } from '../matter/material.ts';
import { Ask } from '../plan/ask.ts';
import { Settings } from '../plan/settings.ts';
import type { Route } from '../route/route.ts';

const Id = z.int().check(z.gte(1), z.lte(2_000_000_000));

export interface RouteEntry {
  readonly id: number;
  readonly name: string;
  readonly steps: number;
  readonly revision: number;
  readonly changed: string;
  /** Put away: not among the routes in use. Its plans and papers stay as they are. */
  readonly hidden: boolean;
}

export interface RouteRevision {
  readonly id: number;
  readonly revision: number;
  readonly route: Route;
}

/** A saved state of a route, as it is listed. */
export interface RevisionEntry {
  readonly revision: number;
  readonly name: string;
  readonly steps: number;
  readonly saved: string;
}

/** A route file before it is taken in: what is in it, and the route of the same name that is there already. */
export interface RoutePreview {
  readonly route: Route;
  readonly same: RouteRevision | null;
}

export interface PlanEntry {
  readonly id: number;
  readonly name: string;
  readonly routeId: number;
  readonly changed: string;
}

/** A plan as it stands: the newest saved state and its number. */
export interface PlanState {
  readonly id: number;
  readonly routeId: number;
  readonly routeRevision: number;
  readonly ask: Ask;
  /** Number of the saved state; grows with every save. */
  readonly state: number;
  /** Newest revision number, 0 where none was needed yet. */
  readonly revision: number;
  readonly saved: string;
}

export interface IssuedPaper {
  readonly id: number;
  readonly kind: string;
  readonly title: string;
  /** Null where the paper belongs to none. */
  readonly plan: number | null;
  /** Of the plan; 0 where the paper belongs to none. */
  readonly revision: number;
  readonly issued: string;
  /** The paper's data exactly as issued (core/paper). */
  readonly paper: unknown;
}

/** A paper as it is listed. */
export interface PaperEntry extends Omit<IssuedPaper, 'paper'> {
  /** True where the plan has been changed since: it was issued from an earlier plan. */
  readonly earlier: boolean;
}

export const workbookInputs = {
  'routes.list': z.strictObject({}),
  /** How each route was used: last, its largest run, its mean overall yield. */
  'routes.use': z.strictObject({}),
  /** Materials of the routes that the built-in table does not have. */
  'routes.materials': z.strictObject({}),
  /** The newest revision, or an earlier one by its number. */
  'routes.read': z.strictObject({ id: Id, revision: z.optional(z.int().check(z.gte(1), z.lte(2_000_000_000))) }),
  /** Every revision of a route, the newest first. */
  'routes.revisions': z.strictObject({ id: Id }),
  /** What a route file would come in as: read and checked, nothing written. */
  'routes.preview': z.strictObject({ text: z.string().check(z.maxLength(20_000_000)) }),
  /** Text of a route file; every problem is reported, nothing is written unless it is right. */
  'routes.import': z.strictObject({ text: z.string().check(z.maxLength(20_000_000)) }),
  /** The text of the route as changed becomes its next revision; refused where `after` is no longer the newest. */
  'routes.save': z.strictObject({ id: Id, after: z.int().check(z.gte(1)), text: z.string().check(z.maxLength(20_000_000)) }),
  /** Puts a route away, or takes it out again. */
  'routes.hide': z.strictObject({ id: Id, hidden: z.boolean() }),
  'routes.export': z.strictObject({ id: Id }),
  'plans.list': z.strictObject({}),
  'plans.read': z.strictObject({ id: Id }),
  'plans.create': z.strictObject({ routeId: Id, ask: Ask }),
  /** Appends a state. `words` says what the edit was; refused where `after` is no longer the newest state. */
  'plans.save': z.strictObject({ id: Id, after: z.int().check(z.gte(0)), ask: Ask, words: ShortText }),
  'plans.states': z.strictObject({ id: Id }),
  'settings.read': z.strictObject({}),
  'settings.save': z.strictObject({ settings: Settings }),
  /** Gives the plan a revision number and keeps the paper's data for ever. Plan and state are null for no plan. */
  'papers.issue': z
    .strictObject({
      planId: z.nullable(Id),
      state: z.nullable(z.int().check(z.gte(1))),
      /** The plan's revision that the paper belongs to, instead of its newest: the report of a run. */
      revision: z.optional(z.int().check(z.gte(1))),
      kind: ShortText,
      title: ShortText,
      paper: z.unknown(),
    })
    .check(
      z.refine((one) => (one.planId === null) === (one.state === null), {
        error: 'a paper needs a plan and its state, or neither',
        path: ['state'],
      }),
    ),
  'papers.read': z.strictObject({ id: Id }),
  /** Papers of a plan, or with null those of no plan. */
  'papers.list': z.strictObject({ planId: z.nullable(Id) }),
  /** Prints an issued paper to a PDF and gives back its bytes as base64. */
  'papers.pdf': z.strictObject({ id: Id }),
  /** Hands an issued paper to the printer through the host's own dialog. */
  'papers.print': z.strictObject({ id: Id }),
  'reference.read': z.strictObject({}),
} as const;
