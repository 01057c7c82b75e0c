import type { Form } from '../matter/form.ts';
import { formWords } from '../words/form-words.ts';
import type { Bottle } from './shelf.ts';

/** A usable bottle as it stands on the shelf, with what lines before have left of it. */
export interface StandingBottle {
  readonly bottle: string;
  readonly lot: string;
  readonly left: number;
  readonly unit: 'g' | 'mL';
  /** Its assay or strength in words, where that is another than the line's; else empty. */
  readonly form: string;
}

/**
 * What stands there bottle by bottle, where one of them is not in the line's own form and unit; else nothing.
 * @param left what is in each before the line takes of it, in its own unit.
 */
export function standing(
  serving: readonly Bottle[],
  left: ReadonlyMap<string, number>,
  form: Form,
  unit: 'g' | 'mL',
): { readonly stands?: readonly StandingBottle[] } {
  const own = formWords(form);
  const stands = serving.flatMap((bottle) => {
    const { id, lot = '' } = bottle;
    const there = left.get(id) ?? 0;
    const its = formWords(bottle.form);
    return there > 0 ? [{ bottle: id, lot, left: there, unit: bottle.unit, form: its === own ? '' : its }] : [];
  });
  return stands.some((one) => one.form !== '' || one.unit !== unit) ? { stands } : {};
}
