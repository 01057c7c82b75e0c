import { effect, type Signal } from '@preact/signals';

export type WindowStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/**
 * Keeps a signal's value in the window's own storage, so that a reload finds it again. `read` looks at what was kept,
 * which an older version may have written: null where it is not what it should be.
 */
export function keepInWindow<T>(store: WindowStore, name: string, one: Signal<T>, read: (kept: unknown) => T | null): () => void {
  const empty = one.peek();
  const text = store.getItem(name);
  const kept = text === null ? null : read(parsed(text));
  if (kept !== null) one.value = kept;
  return effect(() => {
    if (one.value === empty) store.removeItem(name);
    else store.setItem(name, JSON.stringify(one.value));
  });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** An object's fields where every one of them is a text; null where it is anything else. */
export function textsIn(value: unknown): Readonly<Record<string, string>> | null {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return null;
  const fields: [string, unknown][] = Object.entries(value);
  const texts = fields.filter((field): field is [string, string] => typeof field[1] === 'string');
  return texts.length === fields.length ? Object.fromEntries(texts) : null;
}
