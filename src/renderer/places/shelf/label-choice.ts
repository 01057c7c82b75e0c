import { signal } from '@preact/signals';
import type { LabelSize } from '../../../core/reference-rows.ts';

/** The labels chosen last, by name, and the first free place on their sheet as typed; kept while the window is open. */
export const labelSize = signal('');
export const labelStart = signal('1');

/** The size of that name; the first of the table where none is chosen yet. */
export function sizeNamed(sizes: readonly LabelSize[], name: string): LabelSize | undefined {
  return sizes.find((one) => one.name === name) ?? sizes[0];
}
