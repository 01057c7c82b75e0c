import { computed } from '../quantity/figure.ts';
import { runBalanceWords as words } from '../words/run-balance-words.ts';
import { known, type Maybe } from '../words/why.ts';
import type { MassBalance } from './outcome.ts';

/** A line of a run's mass balance, as its report and the screen after a run say it. */
export interface BalanceLine {
  readonly label: string;
  readonly value: Maybe<'g'>;
}

/** The mass balance of a run, g, to be read downwards: charged in all, of that the product and the basis got back as weighed, the difference. */
export function runBalanceLines({ in: charged, product, back, rest }: MassBalance): readonly BalanceLine[] {
  const over = rest.ok && rest.figure.value < 0;
  const last = over
    ? { label: words.over, value: known(computed(words.over, -rest.figure.value, 'g', 'product − charged', [rest.figure])) }
    : { label: words.rest, value: rest };
  return [
    { label: words.charged, value: charged },
    { label: words.product, value: product },
    ...(back === null ? [] : [{ label: words.back, value: known(back) }]),
    last,
  ];
}
