// Acts on runs and on the bottles they weigh from, chosen by a seed: weighings, products, corrections, the same entry sent
// twice, another window's entry, a bottle emptied, thrown away or filled meanwhile. What each bottle should hold is told by
// a second bookkeeping in whole micrograms, from the acts that were acknowledged and nothing else.
import type { RunEntry } from '../../src/core/run/entry.ts';
import type { ProcedureInput, ProcedureName, ProcedureOutput } from '../../src/core/port/port.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import type { Context } from '../../src/main/procedures/context.ts';
import { answer } from '../../src/main/procedures/index.ts';
import { seeded } from '../bench/large-shelf.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';

const MICRO = 1e6;
const CHARGES = 12;
const MOST_PORTIONS = 1000;

/** A run of charges that never end by themselves, so that any number of portions can be weighed. */
const sheet = sheetOf(
  Array.from({ length: CHARGES }, (_none, at) =>
    charge({ id: `c${at}`, isBasis: at === 0, low: null, high: null, portions: MOST_PORTIONS }),
  ),
);

export interface RunAct {
  readonly act: string;
  readonly ok: boolean;
  /** µg in each bottle, and entries in the run, as they should be now. */
  readonly amounts: readonly (readonly [string, number])[];
  readonly run: number;
  readonly entries: number;
}

interface Weighed {
  readonly number: number;
  readonly charge: string;
  readonly portion: number;
  bottle: string;
  micro: number;
}

export async function* runActs(context: Context, seed: number): AsyncGenerator<RunAct> {
  const chance = seeded(seed);
  const call = <N extends ProcedureName>(name: N, input: ProcedureInput<N>) =>
    answer(context, name, input) as Promise<PortResult<ProcedureOutput<N>>>;
  const must = async <N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<ProcedureOutput<N>> => {
    const got = await call(name, input);
    if (!got.ok) throw new Error(got.detail);
    return got.value;
  };
  const amounts = new Map<string, number>();
  for (let i = 0; i < 3; i += 1) {
    const material = { name: `c${i}`, formula: 'C14H12O2' };
    const { id } = await must('shelf.add', { material, form: { kind: 'neat' }, amount: 60, unit: 'g' });
    amounts.set(id, 60 * MICRO);
  }
  // Each run is of a step of its own: none is in the way of another.
  const { id: run } = await must('runs.start', { planId: 1, state: 1, sheet: { ...sheet, step: `s${seed}` }, by });
  const weighed: Weighed[] = [];
  const portions = new Map<string, number>();
  let entries = 1;
  let crop = 0;
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] as T;
  const state = (act: string, ok: boolean): RunAct => ({ act, ok, amounts: [...amounts], run, entries });
  yield state('started', true);
  for (;;) {
    const act = pick([
      'charged',
      'charged',
      'charged',
      'twice',
      'correct',
      'take out',
      'product',
      'emptied',
      'discarded',
      'received',
    ]);
    const bottle = pick([...amounts.keys()]);
    const micro = Math.ceil(chance() ** 2 * 8 * MICRO);
    const left = amounts.get(bottle) ?? 0;
    const add = async (entry: RunEntry, adjust: boolean, after = entries): Promise<PortResult<ProcedureOutput<'runs.add'>>> => {
      const got = await call('runs.add', { id: run, after, entry, adjust });
      if (got.ok) entries = got.value.number;
      return got;
    };
    /** Takes so much out of a bottle; one that held less by its ledger is put right first. */
    const take = (code: string, amount: number): void => void amounts.set(code, Math.max(0, (amounts.get(code) ?? 0) - amount));
    if (act === 'charged' || act === 'twice') {
      const id = `c${Math.floor(chance() * CHARGES)}`;
      const portion = (portions.get(id) ?? 0) + 1;
      const grams = micro / MICRO;
      const entry = taken(id, grams, { portion, bottle, taken: grams, moles: grams / 212.248, complete: false });
      const adjust = chance() < 0.5;
      const after = entries;
      const sent =
        act === 'twice'
          ? await Promise.all([add(entry, adjust), call('runs.add', { id: run, after, entry, adjust })])
          : [await add(entry, adjust)];
      const done = sent.filter((one) => one.ok).length;
      if (done > 1) throw new Error('the same entry was written twice');
      if (done !== (micro <= left || adjust ? 1 : 0)) throw new Error(JSON.stringify(sent));
      if (done === 1) {
        entries = after + 1;
        portions.set(id, portion);
        take(bottle, micro);
        weighed.push({ number: entries, charge: id, portion, bottle, micro });
      }
      yield state(act, done === 1);
    } else if ((act === 'correct' || act === 'take out') && weighed.length > 0) {
      // Only the newest weighing of its bottle and charge: what was measured or thrown away since is another test's.
      const last = weighed.at(-1) as Weighed;
      const grams = micro / MICRO;
      const back = (amounts.get(last.bottle) ?? 0) + last.micro;
      if (act === 'correct' && micro > back) continue;
      const instead = taken(last.charge, grams, {
        portion: last.portion,
        bottle: last.bottle,
        taken: grams,
        moles: null,
        complete: false,
      });
      const correction = {
        kind: 'correction',
        by,
        of: last.number,
        reason: 'misread',
        instead: act === 'correct' ? instead : null,
      };
      const got = await add(correction as RunEntry, false);
      if (!got.ok) throw new Error(got.detail);
      weighed.pop();
      amounts.set(last.bottle, back - (act === 'correct' ? micro : 0));
      if (act === 'take out') portions.set(last.charge, (portions.get(last.charge) ?? 1) - 1);
      yield state(act, true);
    } else if (act === 'product' && crop < 20 && chance() < 0.2) {
      crop += 1;
      const grams = micro / MICRO;
      const place = { place: '', text: '', bottle: null };
      const got = await add({ kind: 'product', by, crop, grams, wet: false, assayPercent: null, ...place }, false);
      if (!got.ok || got.value.bottle === null) throw new Error('a product goes to the shelf');
      amounts.set(got.value.bottle, micro);
      yield state(act, true);
    } else if ((act === 'emptied' || act === 'discarded') && left > 0 && chance() < 0.3) {
      const kind = act === 'emptied' ? 'used' : 'discarded';
      const got = await call('shelf.move', { id: bottle, kind, change: -left / MICRO, reason: 'meanwhile' });
      if (!got.ok) throw new Error(got.detail);
      amounts.set(bottle, 0);
      weighed.length = 0;
      yield state(act, true);
    } else if (act === 'received') {
      const got = await call('shelf.move', { id: bottle, kind: 'received', change: 20, reason: '' });
      if (!got.ok) throw new Error(got.detail);
      amounts.set(bottle, left + 20 * MICRO);
      yield state(act, true);
    }
  }
}
