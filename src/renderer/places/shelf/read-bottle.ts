import { type Signal, useSignal, useSignalEffect } from '@preact/signals';
import { useRef } from 'preact/hooks';
import type { BottleEdit, BottleRow, LedgerLine } from '../../../core/port/shelf.ts';
import type { BottleTest } from '../../../core/shelf/shelf.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { inOrder } from '../../state/in-order.ts';
import { shelfChanges } from '../../state/workbook.ts';

export interface ReadBottle {
  readonly bottle: BottleRow;
  readonly ledger: readonly LedgerLine[];
  readonly tests: readonly BottleTest[];
  readonly edits: readonly BottleEdit[];
}

/** A bottle with its ledger, read again whenever the shelf changes. What was read stays when reading again fails. */
export function useBottle(id: string): {
  readonly read: Signal<ReadBottle | null>;
  readonly failed: Signal<string>;
  readonly load: () => Promise<void>;
} {
  const read = useSignal<ReadBottle | null>(null);
  const failed = useSignal('');
  const inTurn = useRef(inOrder());
  const load = async (): Promise<void> => {
    const answer = await inTurn.current(call('shelf.bottle', { id }));
    if (!answer) return;
    failed.value = answer.ok ? '' : troubleWords(answer);
    if (answer.ok) read.value = answer.value;
  };
  useSignalEffect(() => {
    void shelfChanges.value;
    void load();
  });
  return { read, failed, load };
}
