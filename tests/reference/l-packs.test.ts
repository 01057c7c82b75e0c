import { expect, test } from 'vitest';
import { leastCover } from '../../src/core/buy/cover.ts';
import { casesOf, type ReferenceCase } from './cases.ts';

const numbers = (one: ReferenceCase, name: string): readonly number[] => {
  const found = one.inputs[name];
  return Array.isArray(found) ? found.map(Number) : [];
};

/** What the product says to a case, by the names its source uses. */
function answers(one: ReferenceCase): Readonly<Record<string, unknown>> {
  const prices = numbers(one, 'prices');
  const packs = numbers(one, 'packs').map((amount, at) => ({ amount, price: prices[at] ?? null }));
  const { need } = one.inputs;
  if (need && typeof need === 'object' && 'value' in need) {
    const cover = leastCover(Number(need.value), packs);
    return { 'minimum cost': cover?.cost, counts: cover?.counts, 'quantity bought': cover?.quantity, packs: cover?.packs };
  }
  // Without a need: which quantities come out without anything left over.
  const exact = (amount: number): boolean => leastCover(amount, packs)?.leftOver === 0;
  const largest = Array.from({ length: 1000 }, (_, at) => 1000 - at).find((amount) => !exact(amount));
  const asked = one.outputs.flatMap(({ name }) => /^(\d+) buyable$/.exec(name)?.[1] ?? []);
  return {
    'largest quantity not exactly buyable': largest,
    ...Object.fromEntries(asked.map((amount) => [`${amount} buyable`, exact(Number(amount))])),
  };
}

test.each(casesOf('l').map((one) => [`${one.id} ${one.title}`, one] as const))('%s', (_, one) => {
  const found = answers(one);
  for (const { name, value, tolAbs } of one.outputs) {
    if (typeof value === 'number') expect(Math.abs(Number(found[name]) - value), name).toBeLessThanOrEqual(tolAbs);
    else expect(found[name], name).toEqual(value);
  }
});
