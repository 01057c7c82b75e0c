import { signal } from '@preact/signals';
import type { Acknowledged, SaidNow } from '../../core/caution/acknowledgement.ts';
import { Initials } from '../../core/run/initials.ts';
import { cautionWords as words } from '../../core/words/caution-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { call } from './connection.ts';
import { inOrder } from './in-order.ts';
import { openPlan } from './plan-route.ts';
import { who } from './who.ts';

/** What was read of the open plan's cautions, oldest first; main's own record. */
export const acknowledged = signal<readonly Acknowledged[]>([]);
/** Plan the record belongs to. */
let of = 0;
const inTurn = inOrder();

/** Reads the record of the open plan anew. */
export async function readAcknowledged(): Promise<void> {
  const plan = openPlan.value?.id;
  if (plan === undefined) return;
  if (of !== plan) acknowledged.value = [];
  of = plan;
  const answer = await inTurn(call('cautions.acknowledged', { planId: plan }));
  if (answer?.ok && openPlan.value?.id === plan) acknowledged.value = answer.value;
}

/** Writes that a person has read a caution; gives the words of what is wrong, empty where it is written. */
export async function acknowledge(caution: SaidNow, by: string): Promise<string> {
  const plan = openPlan.value?.id;
  if (!Initials.safeParse(by).success) return words.badInitials;
  if (plan === undefined) return words.notWritten('');
  const answer = await call('cautions.acknowledge', { planId: plan, acknowledgement: { ...caution, by } });
  if (!answer.ok) return words.notWritten(troubleWords(answer));
  who.value = by;
  if (openPlan.value?.id === plan && !acknowledged.value.some((one) => one.id === answer.value.id)) {
    acknowledged.value = [...acknowledged.value, answer.value];
  }
  return '';
}
