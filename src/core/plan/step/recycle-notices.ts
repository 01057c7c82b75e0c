import { grouped } from '../../grouped.ts';
import { partFromShelf } from '../../shelf/recycled.ts';
import type { Notice } from '../../words/notice.ts';
import type { OperationPlan } from '../result.ts';

/**
 * Where what comes back of one batch goes into the next: that the plan counts on it, what the shelf gives for the first
 * batch and for each following one, and what batches side by side would take.
 */
export function recycleNotices(
  step: string,
  operations: readonly OperationPlan[],
  batches: number,
  nameOf: (material: string) => string,
): readonly Notice[] {
  const charges = operations.flatMap((one) => (one.kind === 'charge' && one.returns > 0 ? [one] : []));
  return [...grouped(charges, (charge) => charge.material)].flatMap(([material, list]): readonly Notice[] => {
    const amounts = list.flatMap((charge) => charge.total.exact ?? []);
    const [first] = amounts;
    const returns = list[0]?.returns ?? 0;
    if (!first || amounts.length < list.length || amounts.some((one) => one.unit !== first.unit)) return [];
    const whole = amounts.reduce((sum, one) => sum + one.value, 0);
    const each = whole / batches;
    const values = {
      material: nameOf(material),
      unit: first.unit,
      each,
      later: each * (1 - returns),
      others: batches - 1,
      inHand: whole * partFromShelf({ returns, batches }),
      whole,
    };
    return [{ level: 'assumption', code: 'back into the next batch', values, at: { step, material } }];
  });
}
