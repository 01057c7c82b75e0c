import type { Reference } from '../reference.ts';
import type { Route } from '../route/route.ts';
import type { Shelf } from '../shelf/shelf.ts';
import type { Ask } from './ask.ts';
import type { Settings } from './settings.ts';

/** All that a plan depends on. The same input gives the same plan to the last digit. */
export interface PlanInput {
  readonly route: Route;
  readonly ask: Ask;
  readonly shelf: Shelf;
  readonly settings: Settings;
  readonly reference: Reference;
  /** The day the plan is for, ISO date. */
  readonly asOf: string;
}
