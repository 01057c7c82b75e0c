import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { FateRow } from '../../../../core/port/files.ts';
import type { FateKind } from '../../../../core/shelf/import/fate.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { useVirtualRows } from '../../../parts/virtual-rows.ts';
import { rowId, useRowKeys } from '../row-keys.ts';
import { FateDetail } from './fate-detail.tsx';
import { FateMark } from './fate-mark.tsx';
import { fateRowAt, rowArrivals, showFate, shownFate } from './import-rows-store.ts';
import { asking, saveRefused, takeDuplicates, type TablePreview } from './import-store.ts';

const words = importScreenWords.rows;
const KINDS: readonly FateKind[] = ['new', 'update', 'duplicate', 'refused'];
const ROW_HEIGHT = 48;

/** Every row of the file with what becomes of it. */
export function FateList({ preview }: { readonly preview: TablePreview }) {
  const { counts, unlabelled, takeDuplicates: taken } = preview;
  const total = KINDS.reduce((sum, kind) => sum + counts[kind], 0);
  const shown = shownFate.value === 'all' ? total : counts[shownFate.value];
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
      {shown === 0 ? <p class="import-none">{words.none}</p> : <Rows key={shownFate.value} count={shown} />}
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
  const scroller = useRef<HTMLDivElement>(null);
  const { rows, height, scrollTo } = useVirtualRows(scroller, count, ROW_HEIGHT);
  const open = useSignal<number | null>(null);
  const { at, onKeyDown } = useRowKeys(count, scrollTo, {
    open: (index) => {
      open.value = open.value === index ? null : index;
    },
  });
  useEffect(() => {
    open.value = null;
  }, [count, open]);
  void rowArrivals.value;
  const opened = open.value === null ? null : fateRowAt(open.value);
  return (
    <>
      <div
        ref={scroller}
        class="import-list"
        role="grid"
        tabIndex={0}
        aria-label={words.list}
        aria-rowcount={count + 1}
        aria-activedescendant={rowId(at.value)}
        onKeyDown={onKeyDown}
      >
        <Head />
        <div class="import-all" role="presentation" style={{ height: `${height}px` }}>
          {rows.map((row) => (
            <Row
              key={row.index}
              index={row.index}
              top={row.start}
              at={row.index === at.value}
              open={row.index === open.value}
              onOpen={() => {
                at.value = row.index;
                open.value = open.value === row.index ? null : row.index;
              }}
            />
          ))}
        </div>
      </div>
      {opened && (
        <FateDetail
          row={opened}
          close={() => {
            open.value = null;
            scroller.current?.focus();
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

interface RowProps {
  readonly index: number;
  readonly top: number;
  readonly at: boolean;
  readonly open: boolean;
  readonly onOpen: () => void;
}

function Row({ index, top, at, open, onOpen }: RowProps) {
  const row = fateRowAt(index);
  return (
    <div
      id={rowId(index)}
      class={`import-row${at ? ' at' : ''}`}
      role="row"
      aria-rowindex={index + 2}
      aria-selected={open}
      style={{ transform: `translateY(${top}px)` }}
      onClick={onOpen}
    >
      {row ? <Cells row={row} /> : <span role="gridcell" />}
    </div>
  );
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
      <span role="gridcell" class="import-row-why">
        {whyWords(row)}
      </span>
    </>
  );
}

/** The first thing to say of a row, and how much more there is. */
function whyWords({ problems, says }: FateRow): string {
  const all = [
    ...problems.map(({ column, words: said }) => (column === '' ? said : `${column}: ${said}`)),
    ...says.map((one) => one),
  ];
  const [first = '', ...rest] = all;
  return rest.length === 0 ? first : `${first}; ${words.more(rest.length)}`;
}
