import { computed, signal } from '@preact/signals';

/** Least widths of a step in the cascade, px; in the smallest a step's circle still has 24 px to itself. */
const WIDTHS = [26, 40, 60, 92, 132, 184, 256] as const;
/** The width that leaves room for a step's words. */
const USUAL = WIDTHS.indexOf(132);

const at = signal(USUAL);

/** Least width of a step in the cascade, px. */
export const stepWidth = computed(() => WIDTHS[at.value] ?? 132);
export const isUsual = computed(() => at.value === USUAL);
export const isNarrowest = computed(() => at.value === 0);
export const isWidest = computed(() => at.value === WIDTHS.length - 1);

/** One width further, wider (1) or narrower (−1). */
export function zoomCascade(by: 1 | -1): void {
  at.value = Math.min(WIDTHS.length - 1, Math.max(0, at.value + by));
}

/** As many steps at once as can be told apart, or back to the usual width. */
export function showAllSteps(): void {
  at.value = at.value === 0 ? USUAL : 0;
}
