import { signal } from '@preact/signals';
import type { Ask } from '../../core/plan/ask.ts';

/** A field of a plan that a text can be typed into: a draw's amount, or a step's yield. */
export type FieldOfPlan = { readonly draw: string } | { readonly step: string };

export interface RefusedText {
  readonly plan: number;
  readonly field: FieldOfPlan;
  readonly text: string;
  /** How many edits undo could take back when it was typed: later ones are taken back before it. */
  readonly after: number;
}

/**
 * Texts that could not be taken, as typed, the last one last. Kept outside their fields, so that going to another place
 * and back loses nothing; the plan stands without them.
 */
export const refusedTexts = signal<readonly RefusedText[]>([]);

const isAt = (plan: number, field: FieldOfPlan) => (one: RefusedText) =>
  one.plan === plan &&
  ('draw' in field ? 'draw' in one.field && one.field.draw === field.draw : 'step' in one.field && one.field.step === field.step);

/** What stands refused in a field; null where nothing does. */
export function refusedText(plan: number, field: FieldOfPlan): string | null {
  return refusedTexts.value.find(isAt(plan, field))?.text ?? null;
}

/** Keeps a refused text with its field, in place of the one before. */
export function keepRefused(one: RefusedText): void {
  const at = isAt(one.plan, one.field);
  refusedTexts.value = [...refusedTexts.peek().filter((other) => !at(other)), one];
}

/** The field's text was mended or taken back. */
export function forgetRefused(plan: number, field: FieldOfPlan): void {
  const at = isAt(plan, field);
  if (refusedTexts.peek().some(at)) refusedTexts.value = refusedTexts.peek().filter((one) => !at(one));
}

/** The refused texts of a plan, whose fields are still there, typed since the last of so many edits. */
export function refusedSince(plan: number | null, ask: Ask | null, edits: number): readonly RefusedText[] {
  const draws = new Set(ask?.draws.map((draw) => draw.id));
  return refusedTexts.value.filter(
    ({ plan: of, field, after }) => of === plan && after >= edits && ('step' in field || draws.has(field.draw)),
  );
}
