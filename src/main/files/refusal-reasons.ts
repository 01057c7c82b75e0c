import type { RefusalReason } from '../../core/port/files.ts';
import type { Fate } from '../../core/shelf/import/fate.ts';
import type { ReadRow } from '../../core/shelf/import/read-row.ts';
import { headingWords } from './fate-rows.ts';

/** More reasons than these are not listed; their rows are among all that are refused. */
const MOST_REASONS = 200;

export interface Refusals {
  /** The one of most rows first. */
  readonly reasons: readonly RefusalReason[];
  /** Indices of the rows of each. */
  readonly rows: readonly (readonly number[])[];
}

/**
 * Why rows are refused, each reason once: what is said of a column is one reason, whatever the row's own value, label, material
 * and numbers in it. A row with several counts for each.
 */
export function refusalsOf(rows: readonly ReadRow[], fates: readonly Fate[], headings: readonly string[]): Refusals {
  const found = new Map<string, { readonly column: string; readonly words: string; readonly rows: Set<number> }>();
  for (const [index, fate] of fates.entries()) {
    const row = rows[index];
    if (fate.kind !== 'refused' || !row) continue;
    for (const { column, value, words } of fate.problems) {
      const key = `${column} ${withoutOwn(words, [value, row.label ?? '', row.material?.name ?? ''])}`;
      const there = found.get(key);
      if (there) there.rows.add(index);
      else found.set(key, { column: headingWords(column, headings), words, rows: new Set([index]) });
    }
  }
  const sorted = [...found.values()].sort((one, other) => other.rows.size - one.rows.size).slice(0, MOST_REASONS);
  return {
    reasons: sorted.map(({ column, words, rows: of }) => ({ column, words, rows: of.size })),
    rows: sorted.map(({ rows: of }) => [...of]),
  };
}

function withoutOwn(words: string, own: readonly string[]): string {
  const plain = own.filter((one) => one !== '').reduce((text, one) => text.replaceAll(one, '…'), words);
  return plain.replaceAll(/[\d.,/−-]*\d[\d.,/−-]*/g, '#');
}
