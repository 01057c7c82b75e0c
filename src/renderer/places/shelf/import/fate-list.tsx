import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { FateRow } from '../../../../core/port/files.ts';
import type { FateKind } from '../../../../core/shelf/import/fate.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { RowList } from '../row-list.tsx';
import { FateDetail } from './fate-detail.tsx';
import { FateMark } from './fate-mark.tsx';
import { fateRowAt, rowArrivals, showFate, shownFate, shownReason } from './import-rows-store.ts';
import { RefusalList } from './refusal-list.tsx';
import { asking, saveRefused, takeDuplicates, type TablePreview } from './import-store.ts';

const words = importScreenWords.rows;
const KINDS: readonly FateKind[] = ['new', 'update', 'duplicate', 'refused'];

/** Every row of the file with what becomes of it. */
export function FateList({ preview }: { readonly preview: TablePreview }) {
  const { counts, reasons, unlabelled, takeDuplicates: taken } = preview;
  const total = KINDS.reduce((sum, kind) => sum + counts[kind], 0);
  const reason = reasons[shownReason.value ?? -1];
  const shown = reason?.rows ?? (shownFate.value === 'all' ? total : counts[shownFate.value]);
  return (
    <section
      class={asking.value ? 'import-rows import-asking' : 'import-rows'}
      aria-labelledby="import-rows-title"
      aria-busy={asking.value}
    >
      <header class="import-rows-head">
        <h2 id="import-rows-title">{words.title}</h2>
        <FateFilter counts={counts} total={total} />
        {counts.refused > 0 && (
          <button type="button" class="text-button" onClick={() => void saveRefused()}>
            {words.saveRefused}
          </button>
        )}
        {(unlabelled > 0 || taken) && (
          <label class="import-take">
            <input type="checkbox" checked={taken} onChange={(event) => takeDuplicates(event.currentTarget.checked)} />
            {words.takeDuplicates}
          </label>
        )}
      </header>
      {shownFate.value === 'refused' && <RefusalList reasons={reasons} />}
      {shown === 0 ? (
        <p class="import-none">{total === 0 ? words.noRows : words.none}</p>
      ) : (
        <Rows key={`${shownFate.value} ${shownReason.value}`} count={shown} />
      )}
    </section>
  );
}

function FateFilter({ counts, total }: { readonly counts: TablePreview['counts']; readonly total: number }) {
  return (
    <div class="import-filter" role="group" aria-label={words.title}>
      {(['all', ...KINDS] as const).map((kind) => (
        <button
          key={kind}
          type="button"
          class={`import-count${kind === shownFate.value ? ' current' : ''}`}
          aria-pressed={kind === shownFate.value}
          disabled={kind !== 'all' && counts[kind] === 0}
          onClick={() => showFate(kind)}
        >
          {kind === 'all' ? words.all : <FateMark fate={kind} />}
          <b>{(kind === 'all' ? total : counts[kind]).toLocaleString('en')}</b>
        </button>
      ))}
    </div>
  );
}

function Rows({ count }: { readonly count: number }) {
  const list = useRef<HTMLDivElement>(null);
  const open = useSignal<number | null>(null);
  useLayoutEffect(() => {
    open.value = null;
  }, [count, open]);
  void rowArrivals.value;
  const opened = open.value === null ? null : fateRowAt(open.value);
  return (
    <>
      <RowList
        list={list}
        kind="import"
        label={words.list}
        count={count}
        head={<Head />}
        cells={cellsAt}
        isOpen={(index) => index === open.value}
        open={(index) => {
          open.value = open.value === index ? null : index;
        }}
      />
      {opened && (
        <FateDetail
          row={opened}
          close={() => {
            open.value = null;
            list.current?.focus();
          }}
        />
      )}
    </>
  );
}

function Head() {
  return (
    <div class="import-row-head" role="row" aria-rowindex={1}>
      {Object.entries(words.columns).map(([name, heading]) => (
        <span key={name} role="columnheader" class={`import-column-${name}`}>
          {heading}
        </span>
      ))}
    </div>
  );
}

function cellsAt(index: number) {
  const row = fateRowAt(index);
  return row ? <Cells row={row} /> : <span role="gridcell" />;
}

function Cells({ row }: { readonly row: FateRow }) {
  return (
    <>
      <span role="gridcell" class="import-row-number">
        {row.number}
      </span>
      <span role="gridcell">
        <FateMark fate={row.fate} />
      </span>
      <span role="gridcell" class="import-row-what">
        <b>{row.name}</b>
        <small>{[row.label, row.form].filter((one) => one !== '').join(' · ')}</small>
      </span>
      <span role="gridcell" class="import-row-left">
        {row.left}
      </span>
      <span role="gridcell" class="import-row-place">
        {row.place}
      </span>
      <Why row={row} />
    </>
  );
}

/** The first thing to say of a row, and on a line of its own, which is never cut, how much more there is. */
function Why({ row: { problems, says } }: { readonly row: FateRow }) {
  const all = [...problems.map(({ column, words: said }) => (column === '' ? said : `${column}: ${said}`)), ...says];
  const [first = '', ...rest] = all;
  return (
    <span role="gridcell" class={`import-row-why${rest.length > 0 ? ' import-row-why-more' : ''}`} title={all.join('\n')}>
      <span>{first}</span>
      {rest.length > 0 && <small>{words.more(rest.length)}</small>}
    </span>
  );
}
