import { computed, signal } from '@preact/signals';
import type { ProcedureInput } from '../../../core/port/port.ts';
import { filter, search, total } from './shelf-store.ts';

type Bottles = ProcedureInput<'shelf.changeMany'>['bottles'];

const NOBODY: ReadonlySet<string> = new Set();
/** Labels of the bottles chosen one by one. */
const ids = signal(NOBODY);
/** The search all of whose bottles are chosen; null where they are chosen one by one. */
const found = signal<Extract<Bottles, { readonly total: number }> | null>(null);

/** How many bottles are chosen. */
export const chosenCount = computed(() => (stands() ? (found.value?.total ?? 0) : ids.value.size));

/** All that was found stays chosen as long as the same is found. */
function stands(): boolean {
  const all = found.value;
  if (all === null) return false;
  return all.search === search.value && all.filter === filter.value && all.total === total.value;
}

export const allChosen = computed(stands);

export function isChosen(id: string): boolean {
  return stands() || ids.value.has(id);
}

/** Chooses a bottle, or no longer. Of all that was found, taking one out leaves none of the others chosen. */
export function toggle(id: string): void {
  const next = new Set(stands() ? [] : ids.value);
  if (!next.delete(id)) next.add(id);
  found.value = null;
  ids.value = next;
}

export function chooseAll(): void {
  if (total.value) found.value = { search: search.value, filter: filter.value, total: total.value };
}

export function chooseNone(): void {
  found.value = null;
  ids.value = NOBODY;
}

/** The bottles chosen, as they are named when they are changed. */
export function chosenBottles(): Bottles {
  return stands() && found.value ? found.value : { ids: [...ids.value] };
}
