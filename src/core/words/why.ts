import type { Figure, Unit } from '../quantity/figure.ts';

/** Why something cannot be computed: a code with its values; the sentence is made in sentences.ts. */
export interface Why {
  readonly code: string;
  readonly values: Readonly<Record<string, string | number>>;
}

/** A figure, or why there is none. Trouble is part of the result, so that the rest can still be shown. */
export type Maybe<U extends Unit> = { readonly ok: true; readonly figure: Figure<U> } | { readonly ok: false; readonly why: Why };

export function known<U extends Unit>(figure: Figure<U>): Maybe<U> {
  return { ok: true, figure };
}

export function unknown(
  code: string,
  values: Readonly<Record<string, string | number>> = {},
): { readonly ok: false; readonly why: Why } {
  return { ok: false, why: { code, values } };
}
