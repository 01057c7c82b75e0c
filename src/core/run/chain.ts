import { canonicalJson } from '../canonical-json.ts';
import type { Recorded } from './entry.ts';

/** SHA-256 of a text in UTF-8, as hexadecimal digits; the machine's own, handed in. */
export type Hash = (text: string) => string;

/** What a run's chain begins with: everything it was started with. */
export type RunHead = Readonly<Record<string, unknown>>;

/**
 * The chain of a record: each link is the hash of the one before and of the entry itself, so that an entry changed,
 * taken out or put in afterwards breaks every link from there on.
 *
 *     link 0 = hash(head)        link n = hash(link n−1, entry n)
 */
export function firstLink(head: RunHead, hash: Hash): string {
  return hash(canonicalJson(head));
}

/** The link of an entry after the one before. */
export function nextLink(before: string, recorded: Recorded, hash: Hash): string {
  return hash(`${before}\n${canonicalJson(recorded)}`);
}

/** An entry with the link that was written beside it. */
export interface Linked {
  readonly recorded: Recorded;
  readonly link: string;
}

/** How long a record is and with which link it ends, kept beside its entries. */
export interface ChainEnd {
  readonly entries: number;
  readonly link: string;
}

/**
 * Where a record's end does not fit what is kept beside it: the number of the first entry that was cut off or put on;
 * null where it ends as it should. A record without an end beside it was tampered with as well.
 */
export function brokenEnd(entries: readonly Linked[], end: ChainEnd | null): number | null {
  if (!end) return entries.length + 1;
  if (entries.length !== end.entries) return Math.min(entries.length, end.entries) + 1;
  return entries.at(-1)?.link === end.link ? null : end.entries;
}

/**
 * Where a record was changed after it was written: the number of the first entry that does not fit, 0 for what it was
 * started with; null where everything fits.
 */
export function brokenLink(head: RunHead, headLink: string, entries: readonly Linked[], hash: Hash): number | null {
  let link = firstLink(head, hash);
  if (link !== headLink) return 0;
  for (const [at, one] of entries.entries()) {
    if (one.recorded.number !== at + 1) return at + 1;
    link = nextLink(link, one.recorded, hash);
    if (link !== one.link) return one.recorded.number;
  }
  return null;
}
