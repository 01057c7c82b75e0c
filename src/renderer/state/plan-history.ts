import { signal } from '@preact/signals';
import type { Ask } from '../../core/plan/ask.ts';

/** What one undo takes back, with the words of the edit. */
export type Moment =
  | { readonly ask: Ask; readonly words: string }
  /** An edit seen in the plan but kept elsewhere, such as one of its route. False: it cannot be taken back any more. */
  | { readonly undo: () => boolean; readonly redo: () => boolean; readonly words: string };

export const past = signal<readonly Moment[]>([]);
export const future = signal<readonly Moment[]>([]);

/** An edit is done: undo takes it back first, and nothing is left to redo. */
export function remember(moment: Moment): void {
  past.value = [...past.value, moment];
  future.value = [];
}

/** The edit done last, taken off the ones that can be undone. */
export function takeLast(of: typeof past): Moment | undefined {
  const last = of.value.at(-1);
  if (last) of.value = of.value.slice(0, -1);
  return last;
}

/** Another plan is opened. */
export function forgetHistory(): void {
  past.value = [];
  future.value = [];
}
