import { useLayoutEffect, useRef } from 'preact/hooks';
import { formWords } from '../../../core/words/form-words.ts';
import { labelWords } from '../../../core/words/label-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { EmptyState } from '../../parts/empty-state.tsx';
import { takesText } from '../../state/command.ts';
import { today } from '../../state/workbook.ts';
import { BottleClaims } from './bottle-claims.tsx';
import { BottleActs } from './bottle-acts.tsx';
import { BottleFacts } from './bottle-facts.tsx';
import { BottleFields } from './bottle-fields.tsx';
import { bottleState } from '../../../core/shelf/bottle-state.ts';
import { BottleStateMark } from './bottle-state.tsx';
import { CloseButton } from './close-button.tsx';
import { EditHistory } from './edit-history.tsx';
import { LabelForm } from './label-form.tsx';
import { LedgerTable } from './ledger-table.tsx';
import { MoveForm } from './move-form.tsx';
import { type ReadBottle, useBottle } from './read-bottle.ts';
import { SplitForm } from './split-form.tsx';
import { TestForm } from './test-form.tsx';
import { TestHistory } from './test-history.tsx';
import { WeighForm } from './weigh-form.tsx';
import { ledgerNumber, shown } from './shown-amount.ts';

const words = shelfWords.bottle;

/** One bottle: what is left, what can be recorded, what is written on it, and every movement it ever had. */
export function BottlePage({ id }: { readonly id: string }) {
  const { read, failed, load } = useBottle(id);
  const heading = useRef<HTMLHeadingElement>(null);
  const known = read.value !== null;
  const from = useRef(document.activeElement);
  useLayoutEffect(() => {
    const now = document.activeElement;
    // Read late: who types elsewhere by then goes on typing there.
    if (known && (now === from.current || !takesText(now))) heading.current?.focus();
  }, [known]);
  if (!read.value) {
    if (failed.value === '') return <EmptyState busy title={shelfWords.loading} />;
    return (
      <EmptyState title={words.gone} text={failed.value}>
        <button type="button" class="button" onClick={() => void load()}>
          {shelfWords.retry}
        </button>
      </EmptyState>
    );
  }
  const { bottle, ledger, tests, edits } = read.value;
  return (
    <section class="bottle" aria-labelledby="bottle-title">
      <header class="panel-head">
        <div>
          <h1 id="bottle-title" ref={heading} tabIndex={-1}>
            {bottle.material.name}
          </h1>
          <p class="soft">
            {formWords(bottle.form)} · {words.label(bottle.id)}
          </p>
        </div>
        <CloseButton />
      </header>
      <Left bottle={bottle} ledger={ledger} />
      <BottleClaims bottle={bottle} />
      {failed.value !== '' && <p class="shelf-trouble">{failed.value}</p>}
      <BottleActs bottle={bottle} />
      <MoveForm bottle={bottle} onRecorded={() => void load()} />
      <WeighForm bottle={bottle} onRecorded={load} />
      <SplitForm bottle={bottle} onRecorded={load} />
      <TestForm bottle={bottle} onRecorded={load} />
      <BottleFields bottle={bottle} onSaved={load} />
      <details class="bottle-test">
        <summary>{labelWords.form.title}</summary>
        <LabelForm bottles={async () => [bottle]} />
      </details>
      <BottleFacts bottle={bottle} />
      <TestHistory tests={tests} />
      <LedgerTable bottle={bottle} ledger={ledger} onUndone={() => void load()} />
      <EditHistory edits={edits} onUndone={load} />
    </section>
  );
}

function Left({ bottle, ledger }: Pick<ReadBottle, 'bottle' | 'ledger'>) {
  const received = ledger.reduce((sum, line) => (line.kind === 'received' && !line.undone ? sum + line.change : sum), 0);
  const part = received > 0 ? Math.min(1, bottle.left / received) : 0;
  return (
    <div class="bottle-now">
      <Amount figure={null} text={ledgerNumber(bottle.left)} unit={bottle.unit} size="large" />
      <span class="soft">
        {words.left}
        {received > 0 && `, ${words.ofReceived(shown(received, bottle.unit))}`}
      </span>
      <BottleStateMark state={bottleState(bottle, today.value)} />
      <span class="bottle-level" aria-hidden="true">
        <span style={{ width: `${part * 100}%` }} />
      </span>
    </div>
  );
}
