import { useEffect } from 'preact/hooks';
import { type Claim, claimsOf } from '../../../core/buy/claims.ts';
import { amountText } from '../../../core/paper/amounts.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { claims, lookThroughPlans } from '../../state/other-plans.ts';
import { openPlan } from '../../state/plan-route.ts';
import { result } from '../../state/plan-result.ts';
import { planList, shelfChanges } from '../../state/workbook.ts';
import type { ReadBottle } from './read-bottle.ts';

const words = shoppingWords.claims;

/** Which plans count on a bottle, the open one first: told, not held for them. */
export function BottleClaims({ bottle: { id, left, unit } }: Pick<ReadBottle, 'bottle'>) {
  const [plans, changes] = [planList.value, shelfChanges.value];
  useEffect(() => void lookThroughPlans(), [plans, changes]);
  const all = [...ofOpenPlan(id), ...(claims.value.get(id) ?? [])];
  if (all.length === 0) return null;
  const text = (value: number): string => amountText({ value, unit, digits: 3 }, decimalMark);
  const sum = all.reduce((total, one) => total + one.amount, 0);
  return (
    <p class="bottle-claims small soft" title={words.note}>
      {words.countedOn(all.map((one) => words.by(one.name, text(one.amount), one.atBench > 0 ? text(one.atBench) : '')))}
      {sum > left * (1 + 1e-9) && <span class="tone-accent">; {words.tooMuch(text(left))}</span>}
    </p>
  );
}

function ofOpenPlan(bottle: string): readonly Claim[] {
  const [open, worked] = [openPlan.value, result.value];
  return open && worked?.solved ? (claimsOf([{ id: open.id, name: worked.name, result: worked }]).get(bottle) ?? []) : [];
}
