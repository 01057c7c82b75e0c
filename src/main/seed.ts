import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PlanFile } from '../core/plan/ask.ts';
import { Settings } from '../core/plan/settings.ts';
import { type FileReading, readFile } from '../core/route/read-file.ts';
import { readRoute } from '../core/route/read-route.ts';
import { readShelf } from '../core/shelf/read-shelf.ts';
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
  const read = (...path: string[]): string => readFileSync(join(resources, ...path), 'utf8');
  const noMore = () => [];
  putSettings(database, content(readFile(read('tables', 'laboratory.json'), Settings, noMore)), at);
  takeInShelf(database, content(readShelf(read('demo', 'prep-room.shelf.json'))), mainWords.demonstration, at);
  const route = putRoute(database, content(readRoute(read('demo', 'practicals.route.json'))), at);
  putPlan(database, route, content(readFile(read('demo', 'practicals.plan.json'), PlanFile, noMore)).ask, at);
}

/** The program's own files are right, or the program is not whole. */
function content<T>(reading: FileReading<T>): T {
  if (reading.ok) return reading.value;
  const [first] = reading.problems;
  throw new Error(`a file of the program needs to be whole (got ${first?.words ?? 'a problem'} at ${first?.at ?? ''})`);
}
