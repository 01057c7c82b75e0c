import './shelf.css';
import './rows.css';
import './bottle-list.css';
import './bottle.css';
import './new-bottle.css';
import { useSignalEffect } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { readCode } from '../../../core/code/code.ts';
import { labelWords } from '../../../core/words/label-words.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { act } from '../../state/scan.ts';
import { shelfChanges } from '../../state/workbook.ts';
import { BottleList } from './bottle-list.tsx';
import { BottlePage } from './bottle-page.tsx';
import { FileProblems } from './shelf-files.tsx';
import { LabelPanel } from './label-panel.tsx';
import { FileMenu } from './import/file-menu.tsx';
import { IntakesPanel } from './import/intakes-panel.tsx';
import { ImportPlace } from './import/import-place.tsx';
import { MakeSolution } from './make-solution.tsx';
import { NewBottle } from './new-bottle.tsx';
import { ChosenBar } from './chosen-bar.tsx';
import { ManyForm } from './many-form.tsx';
import { ShelfFilters } from './shelf-filters.tsx';
import {
  closePanel,
  down,
  filter,
  foundFor,
  narrowed,
  nearly,
  panel,
  readAgain,
  said,
  search,
  showEverything,
  sort,
  total,
  trouble,
} from './shelf-store.ts';

/** A pause this long after a key, in milliseconds, and the shelf is asked. */
const TYPING_PAUSE = 120;

/** Every bottle, one search over all of it, and beside it the bottle that is open. */
export function ShelfPlace() {
  const first = useRef(true);
  useSignalEffect(() => {
    void search.value;
    void sort.value;
    void down.value;
    void filter.value;
    void shelfChanges.value;
    const wait = first.current ? 0 : TYPING_PAUSE;
    first.current = false;
    const timer = setTimeout(() => void readAgain(), wait);
    return () => clearTimeout(timer);
  });
  const open = panel.value.show !== 'nothing';
  useFocusBack(open);
  if (panel.value.show === 'import') {
    return (
      <div class="shelf shelf-making">
        <ImportPlace />
      </div>
    );
  }
  if (panel.value.show === 'solution') {
    return (
      <div class="shelf shelf-making">
        <MakeSolution />
      </div>
    );
  }
  return (
    <div class={open ? 'shelf shelf-open' : 'shelf'}>
      <section class="shelf-main" aria-label={shelfWords.listLabel}>
        <ShelfHead />
        <ShelfFilters />
        <ShelfBody />
        <ChosenBar />
      </section>
      {open && (
        <aside class="shelf-panel" onKeyDown={(event) => event.key === 'Escape' && closePanel()}>
          <PanelContent />
        </aside>
      )}
    </div>
  );
}

/** When the panel closes, the keys are in the list again. */
function useFocusBack(open: boolean): void {
  const wasOpen = useRef(false);
  useLayoutEffect(() => {
    if (wasOpen.current && !open) document.querySelector<HTMLElement>('.bottle-list')?.focus();
    wasOpen.current = open;
  }, [open]);
}

function ShelfHead() {
  return (
    <header class="shelf-head">
      <h1 class="unseen">{shelfWords.title}</h1>
      <span class="shelf-search">
        <input
          type="search"
          aria-label={shelfWords.search}
          placeholder={shelfWords.search}
          value={search.value}
          autocomplete="off"
          spellcheck={false}
          onKeyDown={(event) => {
            const code = event.key === 'Enter' ? readCode(search.value) : null;
            if (code) void act(code);
          }}
          onInput={(event) => {
            search.value = event.currentTarget.value;
            said.value = '';
          }}
        />
      </span>
      <p class="soft small" role="status">
        {said.value !== '' ? said.value : countWords()}
      </p>
      <FileMenu />
      <button
        type="button"
        class="text-button"
        disabled={!total.value}
        onClick={() => {
          panel.value = { show: 'labels' };
        }}
      >
        {labelWords.form.labels}
      </button>
      <button
        type="button"
        class="button button-first"
        onClick={() => {
          panel.value = { show: 'new' };
        }}
      >
        {shelfWords.add}
      </button>
    </header>
  );
}

function countWords(): string {
  if (total.value === null) return '';
  if (nearly.value.length > 0) return shelfActWords.nearly(nearly.value, total.value);
  return foundFor.value === '' && !narrowed.value ? shelfWords.count(total.value) : shelfWords.found(total.value);
}

function ShelfBody() {
  if (trouble.value !== '' && total.value === null) {
    return (
      <EmptyState title={shelfWords.failed} text={trouble.value}>
        <button type="button" class="button" onClick={() => void readAgain()}>
          {shelfWords.retry}
        </button>
      </EmptyState>
    );
  }
  if (total.value === null) return <EmptyState busy title={shelfWords.loading} />;
  if (total.value === 0) {
    if (narrowed.value) return <NothingSo />;
    const words = shelfWords.nothingFound;
    if (foundFor.value !== '') return <EmptyState title={words.title} text={words.text(foundFor.value)} />;
    return <EmptyState title={shelfWords.empty.title} text={shelfWords.empty.text} />;
  }
  return <BottleList count={total.value} />;
}

function NothingSo() {
  const { title, text } = shelfActWords.filters.nothing;
  return (
    <EmptyState title={title} text={text}>
      <button type="button" class="button" onClick={showEverything}>
        {shelfActWords.filters.none}
      </button>
    </EmptyState>
  );
}

function PanelContent() {
  const shown = panel.value;
  switch (shown.show) {
    case 'bottle':
      return <BottlePage key={shown.id} id={shown.id} />;
    case 'new':
      return <NewBottle />;
    case 'many':
      return <ManyForm />;
    case 'labels':
      return <LabelPanel />;
    case 'intakes':
      return <IntakesPanel />;
    case 'problems':
      return <FileProblems file={shown.file} problems={shown.problems} />;
    case 'import':
    case 'solution':
    case 'nothing':
      return null;
  }
}
