// Acts on a shelf, chosen by a seed, and what they should come to: told by a second bookkeeping in whole micrograms that
// knows nothing of ledgers.
import type { ProcedureInput, ProcedureName } from '../../src/core/port/port.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import { answer } from '../../src/main/procedures/index.ts';
import type { Context } from '../../src/main/procedures/context.ts';
import { seeded } from '../bench/large-shelf.ts';
import { FileActs } from './file-acts.ts';

/** What is left in each bottle, µg. */
export type Amounts = ReadonlyMap<string, number>;

export interface Done {
  readonly act: string;
  readonly ok: boolean;
  readonly amounts: Amounts;
}

const MICRO = 1e6;

/** Runs acts one after the other and gives after each what every bottle should hold. A refused act changes nothing. */
export async function* shelfActs(context: Context, seed: number): AsyncGenerator<Done> {
  const chance = seeded(seed);
  const amounts = new Map<string, number>(await amountsNow(context));
  const pick = <T>(list: readonly T[]): T | undefined => list[Math.floor(chance() * list.length)];
  const files = new FileActs(context, chance, amounts);
  const edits = new Map<number, readonly string[]>();
  const grams = (): number => Math.ceil(chance() ** 2 * 20 * MICRO) / MICRO;
  for (;;) {
    const act = amounts.size < 3 ? 'add' : (pick(ACTS) ?? 'add');
    const id = pick([...amounts.keys()]) ?? '';
    const ok = await perform(context, act, { id, grams: grams(), chance, amounts, files, edits });
    yield { act, ok, amounts: new Map(amounts) };
  }
}

export const ACTS = [
  'add',
  'used',
  'received',
  'made',
  'adjusted',
  'discarded',
  'weigh',
  'split',
  'correct',
  'undo',
  'undo',
  'change',
  'test',
  'undo change',
  'import',
  'import',
  'turn',
  'turn',
] as const;

interface Acting {
  readonly id: string;
  readonly grams: number;
  readonly chance: () => number;
  readonly amounts: Map<string, number>;
  readonly files: FileActs;
  /** Changes of several bottles, with their labels. */
  readonly edits: Map<number, readonly string[]>;
}

const TARE = 50;
const bottle = (amount: number) =>
  ({ material: { name: 'benzil' }, form: { kind: 'neat' }, amount, unit: 'g', tare: TARE }) as const;

async function perform(context: Context, act: (typeof ACTS)[number], acting: Acting): Promise<boolean> {
  const { files, id } = acting;
  if (act === 'import') return files.takeIn();
  if (act === 'turn') return files.turn();
  const ok = await onBottle(context, act, acting);
  if (ok && act !== 'undo change' && act !== 'add') files.touch(id);
  return ok;
}

type OnBottle = Exclude<(typeof ACTS)[number], 'import' | 'turn'>;

async function onBottle(context: Context, act: OnBottle, acting: Acting): Promise<boolean> {
  const { id, grams, amounts } = acting;
  const micro = Math.round(grams * MICRO);
  const before = amounts.get(id) ?? 0;
  const call = <N extends ProcedureName>(name: N, input: ProcedureInput<N>) =>
    answer(context, name, input) as Promise<PortResult<{ id: string; left: number }>>;
  switch (act) {
    case 'add': {
      const added = await call('shelf.add', bottle(grams));
      if (added.ok) amounts.set(added.value.id, micro);
      return added.ok;
    }
    case 'weigh': {
      const weighed = await call('shelf.weigh', { id, gross: TARE + grams, reason: '' });
      if (weighed.ok) amounts.set(id, Math.round((TARE + grams - TARE) * MICRO));
      return weighed.ok;
    }
    case 'split': {
      const split = await call('shelf.split', { id, amount: grams });
      if (split.ok) amounts.set(id, before - micro).set(split.value.id, micro);
      return split.ok;
    }
    case 'correct': {
      const corrected = await call('shelf.correct', { id, bottle: bottle(grams) });
      if (corrected.ok) amounts.set(id, 0).set(corrected.value.id, micro);
      return corrected.ok;
    }
    case 'undo':
      return undo(context, acting);
    case 'test':
      return (await call('shelf.test', { id, done: 'tested', on: '2026-01-01', remark: '' })).ok;
    case 'undo change':
      return undoChange(context, acting);
    case 'change':
      return changeMany(context, acting);
    default: {
      const change = act === 'received' || act === 'made' ? grams : -grams;
      const moved = await call('shelf.move', { id, kind: act, change, reason: 'counted' });
      if (moved.ok) amounts.set(id, before + (change < 0 ? -micro : micro));
      return moved.ok;
    }
  }
}

/** Any line that may be undone: what it comes to is told by its change, and by that of its other half. */
async function undo(context: Context, acting: Acting): Promise<boolean> {
  const { id, chance, amounts } = acting;
  const read = await ledgerOf(context, id);
  const open = read.filter((line) => !line.undone);
  const line = open[Math.floor(chance() * open.length)];
  if (!line) return false;
  const other = line.half?.other;
  const answered = await answer(context, 'shelf.undo', { id, line: line.id });
  if (!answered.ok) return false;
  amounts.set(id, (amounts.get(id) ?? 0) - Math.round(line.change * MICRO));
  // The half in the other bottle is told by the ledger there: its newest line is what was written now.
  if (other !== undefined) {
    acting.files.touch(other);
    const newest = (await ledgerOf(context, other)).at(-1);
    amounts.set(other, (amounts.get(other) ?? 0) + Math.round((newest?.change ?? 0) * MICRO));
  }
  return true;
}

/** The place of two bottles at once. */
async function changeMany(context: Context, { id, amounts, chance, files, edits }: Acting): Promise<boolean> {
  const other = [...amounts.keys()][Math.floor(chance() * amounts.size)] ?? id;
  const ids = [...new Set([id, other])];
  const change = { place: `${chance()}`, opened: chance() < 0.5 ? null : '2026-01-01' };
  const changed = (await answer(context, 'shelf.changeMany', { bottles: { ids }, change })) as PortResult<{
    edit: number | null;
  }>;
  if (!changed.ok || changed.value.edit === null) return false;
  edits.set(changed.value.edit, ids);
  for (const one of ids) files.touch(one);
  return true;
}

/** A change of two bottles is put back on both, where neither was changed since. */
async function undoChange(context: Context, { chance, edits, files }: Acting): Promise<boolean> {
  const known = [...edits];
  const [edit, ids] = known[Math.floor(chance() * known.length)] ?? [];
  if (edit === undefined || ids === undefined) return false;
  const undone = (await answer(context, 'shelf.undoChange', { edit })) as PortResult<{ left: readonly string[] }>;
  if (!undone.ok) return false;
  edits.delete(edit);
  for (const one of ids) if (!undone.value.left.includes(one)) files.touch(one);
  return true;
}

interface Line {
  readonly id: number;
  readonly change: number;
  readonly undone: boolean;
  readonly half?: { readonly other: string };
}

async function ledgerOf(context: Context, id: string): Promise<readonly Line[]> {
  const read = (await answer(context, 'shelf.bottle', { id })) as PortResult<{ ledger: readonly Line[] }>;
  return read.ok ? read.value.ledger : [];
}

/** What the list says every bottle holds. */
export async function amountsNow(context: Context): Promise<Amounts> {
  const found: [string, number][] = [];
  for (let from = 0; ; from += 500) {
    const input = { search: '', from, count: 500, sort: 'name' };
    const page = (await answer(context, 'shelf.list', input)) as PortResult<{ rows: { id: string; left: number }[] }>;
    if (!page.ok || page.value.rows.length === 0) return new Map(found);
    found.push(...page.value.rows.map(({ id, left }): [string, number] => [id, Math.round(left * MICRO)]));
  }
}
