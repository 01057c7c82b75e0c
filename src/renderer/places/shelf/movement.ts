import type { ProcedureInput } from '../../../core/port/port.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { parseQuantity } from '../../../core/quantity/parse.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { shown } from './shown-amount.ts';

const words = shelfWords.move;

export type MoveKind = ProcedureInput<'shelf.move'>['kind'];
export const MOVE_KINDS: readonly MoveKind[] = ['used', 'received', 'made', 'adjusted', 'discarded'];

/** What is wrong with a typed movement, by field; `at` points at the character. */
export interface MoveProblems {
  readonly amount?: { readonly at: number; readonly words: string };
  readonly reason?: { readonly at: number; readonly words: string };
}

export type Movement =
  | { readonly ok: true; readonly change: number; readonly left: number }
  | { readonly ok: false; readonly problems: MoveProblems };

/**
 * Reads a movement as typed: an amount in the bottle's own dimension and a reason. "Adjust" takes what is really there
 * and works out the change; the other three take the amount that moved.
 */
export function readMovement(kind: MoveKind, amount: string, reason: string, bottle: Pick<BottleRow, 'left' | 'unit'>): Movement {
  const read = readAmount(kind, amount, bottle);
  const reasonProblem = needsReason(kind) && reason.trim() === '' ? { reason: { at: 0, words: words.needsReason } } : {};
  if (!read.ok) return { ok: false, problems: { amount: read, ...reasonProblem } };
  if (reasonProblem.reason) return { ok: false, problems: reasonProblem };
  return { ok: true, change: read.change, left: bottle.left + read.change };
}

export function needsReason(kind: MoveKind): boolean {
  return kind === 'adjusted' || kind === 'discarded';
}

type ReadAmount =
  | { readonly ok: true; readonly change: number }
  | { readonly ok: false; readonly at: number; readonly words: string };

function readAmount(kind: MoveKind, typed: string, { left, unit }: Pick<BottleRow, 'left' | 'unit'>): ReadAmount {
  const wrong = (words: string, at = 0): ReadAmount => ({ ok: false, at, words });
  if (typed.trim() === '') return wrong(words.needsAmount(unit));
  const read = parseQuantity(typed);
  if (!read.ok) return read;
  const dimension = unit === 'g' ? 'mass' : 'volume';
  if (read.entry.dimension !== dimension) return wrong(words.needsUnit(unit, read.unit), Math.max(0, typed.search(/[^\d\s.,]/)));
  const amount = read.base * read.portions;
  if (kind === 'adjusted')
    return amount === left ? wrong(words.noChange(shown(left, unit))) : { ok: true, change: amount - left };
  if (amount === 0) return wrong(words.above);
  if (kind === 'received' || kind === 'made') return { ok: true, change: amount };
  return amount > left ? wrong(words.tooMuch(shown(left, unit))) : { ok: true, change: -amount };
}
