import { foldLabel } from '../../core/code/label-meant.ts';
import { type HeldBottle, likeness, type ShelfView } from '../../core/shelf/import/fate.ts';
import type { ReadRow } from '../../core/shelf/import/read-row.ts';
import { heldBottles } from '../store/bottle-from-file.ts';
import type { Database } from '../store/database.ts';

/** The shelf as it is now, looked up by label; and by what a bottle reads like, where some row has no label. */
export function shelfView(database: Database, rows: readonly ReadRow[], today: string): ShelfView {
  const byLabel = new Map<string, HeldBottle>();
  const alike = new Map<string, string[]>();
  const folded = new Map<string, string[]>();
  const unlabelled = rows.some((row) => row.label === undefined);
  for (const bottle of heldBottles(database)) {
    byLabel.set(bottle.id, bottle);
    push(folded, foldLabel(bottle.id), bottle.id);
    if (!unlabelled) continue;
    push(alike, likeness(bottle), bottle.id);
  }
  return {
    bottle: (label) => byLabel.get(label) ?? null,
    labelsLike: (label) => folded.get(foldLabel(label)) ?? [],
    like: (key) => alike.get(key) ?? [],
    today,
  };
}

function push(groups: Map<string, string[]>, key: string, label: string): void {
  const labels = groups.get(key);
  if (labels) labels.push(label);
  else groups.set(key, [label]);
}
