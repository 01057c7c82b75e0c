import { signal } from '@preact/signals';

/** Texts typed and not saved yet, by the field they stand in; a reload finds them again. */
export const typedTexts = signal<Readonly<Record<string, string>>>({});

/** What was typed into a field and not saved; null where nothing was. */
export function typedText(field: string): string | null {
  return typedTexts.value[field] ?? null;
}

/** Keeps what is typed; null once it is saved or taken back. */
export function keepTyped(field: string, text: string | null): void {
  const { [field]: _before, ...rest } = typedTexts.peek();
  if (text !== null) typedTexts.value = { ...rest, [field]: text };
  else if (_before !== undefined) typedTexts.value = rest;
}
