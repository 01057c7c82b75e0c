// Files that are taken onto a shelf, taken back and brought back, among the other acts of shelf-acts.ts.
import { indexReference } from '../../src/core/reference.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import { FileSession } from '../../src/main/files/file-session.ts';
import { UNWATCHED } from '../../src/main/files/limits.ts';
import { answer } from '../../src/main/procedures/index.ts';
import type { Context } from '../../src/main/procedures/context.ts';
import { readReferenceRows } from '../../src/main/tables.ts';

const MICRO = 1e6;
/** Few, so that files meet bottles of one another. */
const LABELS = 12;
export const MOST_ROWS = 3;

const reference = indexReference(readReferenceRows());

/** What the second bookkeeping knows of the files that were taken in. */
export class FileActs {
  /** The file each bottle that is there came with. */
  readonly #owner = new Map<string, number>();
  /** Bottles something was done to since their file was taken in or brought back. */
  readonly #touched = new Set<string>();
  /** What was in the bottles of a file when it was taken back, by file. */
  readonly #gone = new Map<number, Map<string, number>>();
  readonly #context: Context;
  readonly #chance: () => number;
  readonly #amounts: Map<string, number>;

  constructor(context: Context, chance: () => number, amounts: Map<string, number>) {
    this.#context = context;
    this.#chance = chance;
    this.#amounts = amounts;
  }

  touch(id: string): void {
    this.#touched.add(id);
  }

  /** A file of some rows: a label that is there is updated, any other comes. */
  async takeIn(): Promise<boolean> {
    const labels = new Set(Array.from({ length: MOST_ROWS }, () => `L${Math.floor(this.#chance() * LABELS)}`));
    const rows = [...labels].map((label) => [label, Math.ceil(this.#chance() * 1e7) / MICRO] as const);
    const text = ['bottle,material,left,place', ...rows.map(([label, left]) => `${label},benzil,${left} g,${this.#chance()}`)];
    const database = this.#context.keeper.database();
    const session = new FileSession('acts.csv', Buffer.from(text.join('\n')), reference, this.#context.clock);
    const preview = await session.preview({}, database, { reading: UNWATCHED, judging: UNWATCHED });
    if (preview.at !== 'table' || preview.counts.refused > 0) throw new Error('the file of the test is not as it should be');
    const { intake } = session.write(preview.preview, database);
    for (const [label, left] of rows) {
      if (this.#amounts.has(label)) this.touch(label);
      else {
        this.#owner.set(label, intake);
        this.#touched.delete(label);
      }
      this.#amounts.set(label, Math.round(left * MICRO));
    }
    this.#gone.set(intake, new Map());
    return true;
  }

  /** Takes one of the files of this run back, or brings it back. */
  async turn(): Promise<boolean> {
    const intakes = [...this.#gone.keys()];
    const intake = intakes[Math.floor(this.#chance() * intakes.length)];
    if (intake === undefined) return false;
    const before = await this.#ledgers();
    const name = this.#chance() < 0.5 ? 'files.takeBack' : 'files.bringBack';
    const turned = (await answer(this.#context, name, { intake })) as PortResult<{ bottles: number }>;
    if (!turned.ok) return false;
    const moved = name === 'files.takeBack' ? this.#takenBack(intake) : this.#broughtBack(intake);
    if (moved !== turned.value.bottles) throw new Error(`${name}: ${moved} bottles expected, got ${turned.value.bottles}`);
    await this.#followUpdates(before);
    return true;
  }

  #takenBack(intake: number): number {
    const own = [...this.#owner].filter(([label, of]) => of === intake && !this.#touched.has(label)).map(([label]) => label);
    for (const label of own) {
      this.#gone.get(intake)?.set(label, this.#amounts.get(label) ?? 0);
      this.#amounts.delete(label);
      this.#owner.delete(label);
    }
    return own.length;
  }

  #broughtBack(intake: number): number {
    const gone = this.#gone.get(intake) ?? new Map<string, number>();
    const back = [...gone].filter(([label]) => !this.#amounts.has(label));
    for (const [label, micro] of back) {
      gone.delete(label);
      this.#amounts.set(label, micro);
      this.#owner.set(label, intake);
      this.#touched.delete(label);
    }
    return back.length;
  }

  /** Bottles that were there before the file: what its lines came to is told by the lines written now. */
  async #followUpdates(before: ReadonlyMap<string, number>): Promise<void> {
    for (const [label, count] of before) {
      if (!this.#amounts.has(label)) continue;
      const { ledger, edits } = await this.#read(label);
      const lines = ledger.slice(count % 1000);
      const change = lines.reduce((sum, line) => sum + Math.round(line.change * MICRO), 0);
      if (change !== 0) this.#amounts.set(label, (this.#amounts.get(label) ?? 0) + change);
      if (lines.length > 0 || edits.length !== Math.floor(count / 1000)) this.touch(label);
    }
  }

  /** Lines and changes of every bottle with a label of these, in one number. */
  async #ledgers(): Promise<ReadonlyMap<string, number>> {
    const found = new Map<string, number>();
    for (const label of this.#amounts.keys()) {
      if (!label.startsWith('L')) continue;
      const { ledger, edits } = await this.#read(label);
      found.set(label, ledger.length + 1000 * edits.length);
    }
    return found;
  }

  async #read(id: string): Promise<{ ledger: readonly { change: number }[]; edits: readonly unknown[] }> {
    const read = (await answer(this.#context, 'shelf.bottle', { id })) as PortResult<{
      ledger: readonly { change: number }[];
      edits: readonly unknown[];
    }>;
    return read.ok ? read.value : { ledger: [], edits: [] };
  }
}
