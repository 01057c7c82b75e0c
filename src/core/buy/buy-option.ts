import type { Form } from '../matter/form.ts';
import type { Replacement } from '../matter/replace-strength.ts';
import type { Pack } from '../shelf/pack.ts';
import type { Cover } from './cover.ts';
import type { PackService } from './pack-service.ts';

/** Packs of one form that would cover a line. */
export interface BuyOption {
  readonly service: PackService;
  readonly form: Form;
  readonly formWords: string;
  readonly unit: 'g' | 'mL';
  /** What is to be bought, in this form and unit. */
  readonly need: number;
  readonly packs: readonly Pack[];
  /** Null where the packs have no common measure coarse enough: nothing is said to be the least then. */
  readonly cover: Cover | null;
  /** The longest wait among the packs taken, days; null where one of them gives none. */
  readonly leadDays: number | null;
  /** Packs without a price, left out because others have one. */
  readonly unpriced: number;
  /** What another strength changes; null for what is as asked. */
  readonly change: Replacement | null;
  /** Packs of several assays or units together: each says its own. What is to be bought is in the line's form and unit. */
  readonly mixed: boolean;
}

/** The option the list proposes: the best of those as asked; null where there is none, or another line's order covers it. */
export function chosenOption(line: { readonly options: readonly BuyOption[]; readonly coveredBy: unknown }): BuyOption | null {
  return line.coveredBy ? null : bestAsAsked(line.options);
}

/** The best of the options as asked. */
export function bestAsAsked(options: readonly BuyOption[]): BuyOption | null {
  return options.find((one) => one.service === 'as asked' && one.cover !== null) ?? null;
}

/** The longest wait among the packs taken, days; null where one of them gives none. */
export function longestWait(packs: readonly Pack[], cover: Cover | null): number | null {
  const days = packs.flatMap((pack, at) => ((cover?.counts[at] ?? 0) > 0 ? [pack.leadDays ?? null] : []));
  return days.length === 0 || days.includes(null) ? null : Math.max(...days.map(Number));
}
