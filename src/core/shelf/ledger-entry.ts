import * as z from 'zod/mini';
import type { FileProblem } from '../port/result.ts';
import { pointer } from '../words/file-problems.ts';
import { shelfFileWords as words } from '../words/shelf-file-words.ts';
import type { Bottle } from './shelf.ts';

/** Another bottle of the file that what a line took went into, and by which act. */
const LedgerTie = z.strictObject({
  act: z.enum(['made', 'split', 'correction']),
  bottle: z.string().check(z.minLength(1), z.maxLength(80)),
});
export type LedgerTie = z.infer<typeof LedgerTie>;

/** One movement of a bottle as a shelf file holds it, so that where everything went is not lost with the file. */
export const LedgerEntry = z.strictObject({
  kind: z.enum(['received', 'used', 'made', 'adjusted', 'discarded', 'undone']),
  /** Signed, in the bottle's unit. */
  change: z.number().check(z.gte(-1e9), z.lte(1e9)),
  reason: z.string().check(z.maxLength(5000)),
  /** Moment in UTC. */
  at: z.iso.datetime({ precision: 3 }),
  /** For an undone line: which line of this ledger it takes back, counted from 0. */
  undoes: z.optional(z.int().check(z.gte(0))),
  /** For what was made, split off or put right: the bottle of this file that it came into, as the first line of that. */
  into: z.optional(LedgerTie),
});
export type LedgerEntry = z.infer<typeof LedgerEntry>;

/** Amounts are kept to a millionth of a gram or millilitre. */
const GRAINS = 1e6;
const grains = (amount: number): number => Math.round(amount * GRAINS);

const SIGN: Partial<Record<LedgerEntry['kind'], 1 | -1>> = { received: 1, made: 1, used: -1, discarded: -1 };

/** What is wrong with the ledgers of a file's bottles, each at its place: they must add up to what is left, and never fall below zero. */
export function ledgerProblems(bottles: readonly Bottle[]): readonly FileProblem[] {
  return [...bottles.flatMap((bottle, index) => problemsOf(bottle, index)), ...tieProblems(bottles)];
}

/** The kind of line each act writes on the bottle it takes from. */
const TAKES = { made: 'used', split: 'used', correction: 'adjusted' } as const satisfies Record<LedgerTie['act'], string>;

/** A tie leads from what was taken out to another bottle of the file that something came into; two halves are a pair of their own. */
function tieProblems(bottles: readonly Bottle[]): readonly FileProblem[] {
  const filled = new Set(bottles.flatMap(({ id, left, ledger }) => ((ledger?.length ?? left) > 0 ? [id] : [])));
  const halves = new Set<string>();
  return bottles.flatMap(({ id, ledger = [] }, bottle) =>
    ledger.flatMap(({ into, kind, change }, line): readonly FileProblem[] => {
      if (!into) return [];
      const half = `${into.act} ${into.bottle}`;
      const fits = kind === TAKES[into.act] && change < 0 && into.bottle !== id && filled.has(into.bottle) && !halves.has(half);
      if (into.act !== 'made') halves.add(half);
      return fits ? [] : [{ at: pointer(['bottles', bottle, 'ledger', line, 'into']), words: words.into(into.bottle) }];
    }),
  );
}

function problemsOf({ ledger, left }: Bottle, bottle: number): readonly FileProblem[] {
  if (!ledger) return [];
  const say = (said: string, ...at: readonly (number | string)[]): FileProblem => ({
    at: pointer(['bottles', bottle, 'ledger', ...at]),
    words: said,
  });
  const undone = new Set<number>();
  let sum = 0;
  for (const [index, entry] of ledger.entries()) {
    const change = grains(entry.change);
    const sign = SIGN[entry.kind];
    if (change === 0 || (sign !== undefined && Math.sign(change) !== sign)) return [say(words.sign(entry.kind), index, 'change')];
    if ((entry.kind === 'undone') !== (entry.undoes !== undefined)) return [say(words.undoneOnly, index, 'undoes')];
    if (entry.undoes !== undefined) {
      const taken = entry.undoes < index ? ledger[entry.undoes] : undefined;
      if (!taken || undone.has(entry.undoes) || grains(taken.change) !== -change) return [say(words.undoes, index, 'undoes')];
      undone.add(entry.undoes);
    }
    sum += change;
    if (sum < 0) return [say(words.belowZero, index, 'change')];
  }
  return sum === grains(left) ? [] : [say(words.sum(left, sum / GRAINS))];
}
