import { type Figure, marksOf } from '../quantity/figure.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText } from './amounts.ts';

/**
 * "d 1.405 g/mL" and "table at 20 °C": the value used and where it came from, with every mark that says how far to trust
 * it ("from memory", "model"); both empty where no density was used.
 */
export function densityParts(
  density: Figure<'g/mL'> | null,
  mark: DecimalMark,
): { readonly density: string; readonly from: string } {
  if (!density) return { density: '', from: '' };
  const value = amountText({ value: density.value, unit: density.unit, digits: Math.min(density.digits, 4) }, mark);
  const from = [sourceOf(density), ...marksOf(density)].filter((part) => part !== '').join(', ');
  return { density: words.density(value), from };
}

function sourceOf(density: Figure): string {
  switch (density.from.kind) {
    case 'entered':
      return density.from.where;
    case 'source':
      return shortSource(density.from.source);
    case 'computed':
      return density.from.how;
  }
}

/** Table and temperature; how the table came by it is on the screen, where there is room. */
function shortSource(source: string): string {
  const [short = source] = source.split(/: | \(|; /);
  return short;
}
