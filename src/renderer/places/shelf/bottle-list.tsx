import { batch } from '@preact/signals';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { formatAmount } from '../../../core/quantity/format.ts';
import { shownDensity } from '../../../core/shelf/shown-density.ts';
import { decimalMark } from '../../parts/locale.ts';
import { reference, today } from '../../state/workbook.ts';
import { bottleState } from '../../../core/shelf/bottle-state.ts';
import { BottleStateMark } from './bottle-state.tsx';
import { RowList } from './row-list.tsx';
import { smallDigits } from './formula-text.ts';
import { listNumber } from './shown-amount.ts';
import { dayText } from '../../parts/day-text.ts';
import { isChosen, toggle } from './chosen.ts';
import { arrivals, down, openBottle, panel, rowAt, type Sort, sort } from './shelf-store.ts';

const COLUMNS: readonly { readonly name: keyof typeof shelfWords.columns; readonly sort?: Sort }[] = [
  { name: 'name', sort: 'name' },
  { name: 'form' },
  { name: 'left', sort: 'left' },
  { name: 'place', sort: 'place' },
  { name: 'useBy', sort: 'useBy' },
  { name: 'state' },
];

/** The bottles, row by row. */
export function BottleList({ count }: { readonly count: number }) {
  void arrivals.value;
  return (
    <RowList
      kind="bottle"
      label={shelfWords.listLabel}
      count={count}
      head={<ListHead />}
      cells={cellsAt}
      isOpen={isOpenAt}
      open={openAt}
      choose={chooseAt}
    />
  );
}

function isOpenAt(index: number): boolean {
  const bottle = rowAt(index);
  return bottle !== null && panel.value.show === 'bottle' && panel.value.id === bottle.id;
}

function cellsAt(index: number) {
  const bottle = rowAt(index);
  return bottle ? <Cells bottle={bottle} /> : <span class="soft">{shelfWords.reading}</span>;
}

function openAt(index: number): void {
  const bottle = rowAt(index);
  if (bottle) openBottle(bottle.id);
}

function chooseAt(index: number): void {
  const bottle = rowAt(index);
  if (bottle) toggle(bottle.id);
}

function ListHead() {
  return (
    <div class="bottles-head" role="row" aria-rowindex={1}>
      <span role="columnheader">
        <span class="unseen">{shelfActWords.choose.column}</span>
      </span>
      {COLUMNS.map(({ name, sort: by }) => {
        const words = shelfWords.columns[name];
        const current = by !== undefined && sort.value === by;
        return (
          <span
            key={name}
            role="columnheader"
            class={`column-${name}`}
            aria-sort={current ? (down.value ? 'descending' : 'ascending') : undefined}
          >
            {name === 'form' ? <FormHead /> : by === undefined ? words : <SortButton by={by} words={words} current={current} />}
          </span>
        );
      })}
    </div>
  );
}

/** What it says of the density is there where the densities are. */
function FormHead() {
  return (
    <>
      {shelfWords.columns.form}
      <span class="density-head">{shelfWords.density.column}</span>
    </>
  );
}

function SortButton({ by, words, current }: { readonly by: Sort; readonly words: string; readonly current: boolean }) {
  return (
    <button
      type="button"
      class={current ? `column-sort current${down.value ? ' down' : ''}` : 'column-sort'}
      title={shelfWords.sortBy(words)}
      onClick={() => {
        // The same column again turns its order round.
        batch(() => {
          down.value = current && !down.peek();
          sort.value = by;
        });
      }}
    >
      {words}
      <svg viewBox="0 0 8 8" aria-hidden="true">
        <path d="M4 1v6M1.5 4.5 4 7l2.5-2.5" />
      </svg>
    </button>
  );
}

/** Chosen with the space bar, or here. */
function Choice({ id }: { readonly id: string }) {
  return (
    <span role="gridcell" class="bottle-choice" onClick={(event) => event.stopPropagation()}>
      <input
        type="checkbox"
        tabIndex={-1}
        aria-label={shelfActWords.choose.one(id)}
        checked={isChosen(id)}
        onChange={() => toggle(id)}
      />
    </span>
  );
}

/** Form and strength, and below it the density with where it comes from. */
function FormCell({ bottle: { material, form } }: { readonly bottle: BottleRow }) {
  const tables = reference.value;
  const density = tables ? shownDensity(material, form, tables) : null;
  const words = formWords(form);
  if (density === null) {
    return (
      <span role="gridcell" class="bottle-form">
        {words}
      </span>
    );
  }
  const { shown, none, from } = shelfWords.density;
  return (
    <span role="gridcell" class="bottle-form with-density">
      <span title={words}>{words}</span>
      {density === 'none' ? (
        <small>{none}</small>
      ) : (
        <small title={density.figure.from.kind === 'source' ? density.figure.from.source : undefined}>
          {shown(formatAmount(density.figure, decimalMark).text, from[density.from])}
        </small>
      )}
    </span>
  );
}

function Cells({ bottle }: { readonly bottle: BottleRow }) {
  return (
    <>
      <Choice id={bottle.id} />
      <span role="gridcell" class="bottle-name">
        <b>{bottle.material.name}</b>
        <small>
          {[smallDigits(bottle.material.formula ?? ''), bottle.material.cas].filter(Boolean).join(' · ') || bottle.id}
        </small>
      </span>
      <FormCell bottle={bottle} />
      <span role="gridcell" class="bottle-left">
        <Amount figure={null} text={listNumber(bottle.left)} unit={bottle.unit} aligned />
      </span>
      <span role="gridcell" class="bottle-place">
        <span title={bottle.place}>{bottle.place === '' ? shelfWords.noPlace : bottle.place}</span>
        <small>{bottle.lot === '' ? shelfWords.noLot : shelfWords.lot(bottle.lot)}</small>
      </span>
      <span role="gridcell">{bottle.useBy === null ? <span class="soft">{shelfWords.noDate}</span> : dayText(bottle.useBy)}</span>
      <span role="gridcell">
        <BottleStateMark state={bottleState(bottle, today.value)} />
      </span>
    </>
  );
}
