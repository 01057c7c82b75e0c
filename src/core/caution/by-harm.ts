import { CAUTION_SENTENCES } from '../words/caution-sentences.ts';
import type { Notice } from '../words/notice.ts';

/**
 * Cautions by the harm of missing them, the worst first: what stops the work, what explodes, what poisons, what comes off
 * or boils up, what meets violently, how it is added, what it does to skin and lungs. Our own order; no source ranks them.
 * What only points back to something said before comes last.
 */
const WORST_FIRST: readonly (readonly string[])[] = [
  [
    'energetic charged',
    'energetic formed',
    'azide meets chlorinated solvent',
    'acid frees hydrazoic acid',
    'peroxides: overdue',
    'peroxides: concentrated',
  ],
  [
    'acid frees hydrogen cyanide',
    'acid frees hydrogen sulfide',
    'acid frees chlorine',
    'chloramines',
    'acid frees nitrous gases',
    'acid frees a poison',
    'poisons',
  ],
  [
    'gas freed',
    'frees',
    'reacts with water',
    'acid frees carbon dioxide',
    'catalyst ignites',
    'boils',
    'extra boils',
    'burns',
    'scrubber for acid',
    'scrubber for base',
    'suffocates',
    'no closed vessel',
    'not taken up',
  ],
  [
    'acid-free, new vessel',
    'acid-free first',
    'oxidiser meets organic',
    'oxidiser meets reducing agent',
    'chart: water-reactive',
    'chart: apart',
    'chart: watched',
    'reaction itself',
    'scale: jump',
    'waste must not meet',
    'oxidiser in organic waste',
    'oxidising waste',
  ],
  ['acid into water', 'base slowly into acid', 'acid slowly into water', 'dissolves hot', 'base slowly into water'],
  ['hazards', 'formed', 'peroxides: date not known', 'peroxides: no bottle', 'peroxides: in date'],
];
const LAST: ReadonlySet<string> = new Set(['hazards as before', 'reacts as before', 'meets as before', 'no structure']);

type Ranked = Pick<Notice, 'level' | 'code'>;

/**
 * Rank of a caution among those of one operation, 0 the worst: what must not meet before all, what no list names before what
 * points back. An error that only keeps an amount from being known is no caution, and stands behind them.
 */
export function harmOf({ level, code }: Ranked): number {
  if (level === 'error' && Object.hasOwn(CAUTION_SENTENCES, code)) return 0;
  const rank = WORST_FIRST.findIndex((codes) => codes.includes(code));
  if (rank >= 0) return rank + 1;
  return WORST_FIRST.length + (LAST.has(code) ? 2 : 1);
}

const LOUDEST_FIRST: readonly Notice['level'][] = ['caution', 'short', 'assumption', 'note'];

/** Notices before one operation: the loudest first, among those the worst; alike in both, as they were found. */
export function worstFirst<T extends Ranked>(notices: readonly T[]): readonly T[] {
  const loudness = (one: T): number =>
    LOUDEST_FIRST.indexOf(harmOf(one) === 0 ? 'caution' : one.level === 'error' ? 'short' : one.level);
  return [...notices].sort((one, other) => loudness(one) - loudness(other) || harmOf(one) - harmOf(other));
}

/** Meetings of one material that read alike but for whom it meets are one, which names them all. */
export function alikeTogether(notices: readonly Notice[]): readonly Notice[] {
  // Only what the sentence says beside whom it meets: by which equation each frees its gas is not in it.
  const keyOf = ({ level, code, values: { material, other, statements, spent } }: Notice): string | null =>
    MERGED.has(code) && other !== undefined ? JSON.stringify([level, code, material, statements, spent]) : null;
  const done = new Set<string>();
  return notices.flatMap((notice) => {
    const key = keyOf(notice);
    if (key === null) return [notice];
    if (done.has(key)) return [];
    done.add(key);
    const others = notices.flatMap((one) => (keyOf(one) === key ? String(one.values.other).split('|') : []));
    return [{ ...notice, values: { ...notice.values, other: [...new Set(others)].join('|') } }];
  });
}

/** Those whose sentence only lists whom it meets. */
const MERGED: ReadonlySet<string> = new Set([
  'acid frees carbon dioxide',
  'neutralisation heat',
  'acid frees nitrous gases',
  'meets as before',
]);
