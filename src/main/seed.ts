import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod/mini';
import { PlanFile } from '../core/plan/ask.ts';
import { Settings } from '../core/plan/settings.ts';
import { Route } from '../core/route/route.ts';
import { Shelf } from '../core/shelf/shelf.ts';
import { mainWords } from '../core/words/main-words.ts';
import type { Clock } from './clock.ts';
import type { Database } from './store/database.ts';
import { putPlan } from './store/plans.ts';
import { putRoute } from './store/routes.ts';
import { putSettings } from './store/settings.ts';
import { takeInShelf } from './store/shelf-file.ts';

/** Fills a new workbook with the laboratory's usual settings and the ready example. Only inside a write. */
export function seedWorkbook(database: Database, resources: string, clock: Clock): void {
  const at = clock.now();
  putSettings(database, readAs(Settings, join(resources, 'tables', 'laboratory.json')), at);
  const demo = join(resources, 'demo');
  takeInShelf(database, readAs(Shelf, join(demo, 'prep-room.shelf.json')), mainWords.demonstration, at);
  const route = putRoute(database, readAs(Route, join(demo, 'practicals.route.json')), at);
  putPlan(database, route, readAs(PlanFile, join(demo, 'practicals.plan.json')).ask, at);
}

function readAs<T>(schema: z.ZodMiniType<T>, file: string): T {
  return z.parse(schema, JSON.parse(readFileSync(file, 'utf8')));
}
