import { BenchSession } from '../../../core/session/bench-session.ts';
import { sessionWords as words } from '../../../core/words/session-words.ts';
import type { ChosenBatch } from '../../../core/paper/context.ts';
import { parseNumberAlone } from '../../../core/quantity/parse.ts';

/** A session as it is typed. */
export interface SessionDraft {
  /** Of a session that is kept; 0 for one that is not. */
  readonly id: number;
  readonly name: string;
  readonly date: string;
  readonly starts: string;
  readonly hours: string;
}

export type SessionField = 'date' | 'starts' | 'hours';

export type SessionReading =
  | { readonly ok: true; readonly session: BenchSession }
  | { readonly ok: false; readonly problems: Readonly<Partial<Record<SessionField, string>>> };

/** Reads a session as it is typed; every field that needs another look is named. */
export function readSession(draft: SessionDraft, batches: readonly ChosenBatch[]): SessionReading {
  const time = /^\s*(\d{1,2})\s*[:.h]?\s*(\d{2})?\s*$/.exec(draft.starts);
  const starts = `${(time?.[1] ?? '').padStart(2, '0')}:${time?.[2] ?? '00'}`;
  const hours = parseNumberAlone(draft.hours.replace(/\s*h$/i, ''));
  const session = { name: draft.name.trim(), date: draft.date, starts, hours: hours.ok ? hours.value : 0, batches: [...batches] };
  const read = BenchSession.safeParse(session);
  if (read.success) return { ok: true, session: read.data };
  const wrong = new Set(read.error.issues.map((one) => String(one.path[0])));
  return {
    ok: false,
    problems: {
      ...(wrong.has('date') ? { date: words.badDate } : {}),
      ...(wrong.has('starts') ? { starts: words.badTime } : {}),
      ...(wrong.has('hours') ? { hours: words.badHours } : {}),
    },
  };
}

/** A kept session as it would be typed. */
export function draftOf(id: number, { name, date, starts, hours }: BenchSession): SessionDraft {
  return { id, name, date, starts, hours: String(hours) };
}

/** Only this window writes there; what could have come from an older version is still looked at. */
export function isSessionDraft(value: unknown): value is SessionDraft {
  if (value === null || typeof value !== 'object' || !('id' in value) || typeof value.id !== 'number') return false;
  const texts = value as Readonly<Record<string, unknown>>;
  return ['name', 'date', 'starts', 'hours'].every((field) => typeof texts[field] === 'string');
}
