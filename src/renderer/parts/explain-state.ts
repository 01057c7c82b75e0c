import { signal } from '@preact/signals';
import type { Figure } from '../../core/quantity/figure.ts';

/** The figure being explained and what was pressed to ask. */
export const explained = signal<{ readonly figure: Figure; readonly beside: HTMLElement } | null>(null);

/** Opens the explanation of a figure beside the element; pressing the same one again closes it. */
export function explain(figure: Figure, beside: HTMLElement): void {
  explained.value = explained.value?.beside === beside ? null : { figure, beside };
}

/** A figure in the chain with its depth. */
export interface ExplainLine {
  readonly figure: Figure;
  readonly depth: number;
  /** Shown in full above; not repeated. */
  readonly again: boolean;
}

const LONGEST_CHAIN = 80;

/** The chain of factors a figure was computed from, nearest first; each figure is opened once. */
export function explainLines(figure: Figure): readonly ExplainLine[] {
  const lines: ExplainLine[] = [];
  const seen = new Set<Figure>();
  const visit = (one: Figure, depth: number): void => {
    if (lines.length >= LONGEST_CHAIN) return;
    const again = seen.has(one);
    seen.add(one);
    lines.push({ figure: one, depth, again });
    if (!again && one.from.kind === 'computed') for (const factor of one.from.of) visit(factor, depth + 1);
  };
  visit(figure, 0);
  return lines;
}
