import { foldName } from '../matter/facts.ts';
import type { Draw } from '../plan/ask.ts';
import { parseQuantity } from '../quantity/parse.ts';
import type { Route } from './route.ts';

/** As in the plan file's schema. */
const LARGEST = 1e9;

/**
 * Reads a draw as it is written: "25 g of benzil", "0.2 mol of benzil". The material may be named by its key, its
 * name, a synonym or its CAS number.
 */
export function readDraw(
  text: string,
  id: string,
  route: Route,
): { readonly ok: true; readonly draw: Draw } | { readonly ok: false; readonly words: string } {
  const found = /^(.*?)\s+of\s+(.+)$/s.exec(text.trim());
  if (!found) return { ok: false, words: 'a draw needs an amount and a material, such as "25 g of benzil"' };
  const quantity = parseQuantity(found[1] ?? '');
  if (!quantity.ok) return { ok: false, words: `${quantity.words} (at character ${quantity.at + 1})` };
  const unit = quantity.entry.base;
  if (unit !== 'g' && unit !== 'mol') return { ok: false, words: `a draw needs grams or moles (got ${quantity.unit})` };
  const amount = quantity.base * quantity.portions;
  if (amount > LARGEST) return { ok: false, words: `a draw needs to be at most ${LARGEST} g or mol` };
  const material = materialNamed(found[2] ?? '', route);
  if (material === null)
    return { ok: false, words: `"${found[2]}" is not among the materials of the route: ${namesMade(route)}` };
  return { ok: true, draw: { id, material, amount, unit } };
}

function materialNamed(written: string, route: Route): string | null {
  const wanted = foldName(written);
  const entries = Object.entries(route.materials);
  const by = (fits: (key: string, names: readonly string[]) => boolean): string | null =>
    entries.find(([key, one]) => fits(key, [one.name, ...(one.synonyms ?? []), one.cas ?? '']))?.[0] ?? null;
  return by((key) => key === written.trim()) ?? by((_, names) => names.some((name) => name !== '' && foldName(name) === wanted));
}

function namesMade(route: Route): string {
  return route.steps.map((step) => route.materials[step.product]?.name ?? step.product).join(', ');
}
