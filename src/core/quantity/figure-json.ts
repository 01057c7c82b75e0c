import type { Figure } from './figure.ts';

/**
 * Writes a value that contains figures as plain JSON. Figures share ancestors, so each is written once, in a list
 * at the end, and refers to what it was computed from by its number there.
 */
export function withFigureList(value: unknown): { readonly result: unknown; readonly figures: readonly unknown[] } {
  const numbers = new Map<Figure, number>();
  const figures: unknown[] = [];

  const list = (figure: Figure): number => {
    const known = numbers.get(figure);
    if (known !== undefined) return known;
    const of = figure.from.kind === 'computed' ? figure.from.of.map(list) : undefined;
    const id = figures.length;
    numbers.set(figure, id);
    figures.push({
      id,
      label: figure.label,
      value: figure.value,
      unit: figure.unit,
      from: figure.from.kind === 'computed' ? { kind: 'computed', how: figure.from.how, of } : figure.from,
    });
    return id;
  };

  const copy = (one: unknown): unknown => {
    if (isFigure(one)) return { value: one.value, unit: one.unit, digits: one.digits, figure: list(one) };
    if (Array.isArray(one)) return one.map(copy);
    if (one !== null && typeof one === 'object') {
      return Object.fromEntries(Object.entries(one).map(([key, inner]) => [key, copy(inner)]));
    }
    return one;
  };

  const result = copy(value);
  return { result, figures };
}

function isFigure(value: unknown): value is Figure {
  return value !== null && typeof value === 'object' && 'from' in value && 'digits' in value && 'unit' in value;
}
