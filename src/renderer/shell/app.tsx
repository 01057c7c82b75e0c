import { shellWords } from '../../core/words/shell-words.ts';
import { Weighing } from '../places/bench/weigh/weighing.tsx';
import { EmptyState } from '../parts/empty-state.tsx';
import { Explain } from '../parts/explain.tsx';
import { placeViews } from '../places/places.tsx';
import { place } from '../state/place.ts';
import { weighing } from '../state/run-store.ts';
import { openWorkbook, start } from '../state/workbook.ts';
import { Banners } from './banners.tsx';
import { Bar } from './bar.tsx';
import { CommandList } from './command-list.tsx';

/** The window: bar, what must be said at once, and the place the person is in. */
export function App() {
  if (weighing.value) {
    return (
      <div class="window">
        <Weighing />
        <CommandList />
        <Explain />
      </div>
    );
  }
  return (
    <div class="window">
      <Bar />
      <Banners />
      <main id="work" class="work" tabIndex={-1} aria-label={shellWords.places[place.value]}>
        <Work />
      </main>
      <CommandList />
      <Explain />
    </div>
  );
}

function Work() {
  const state = start.value;
  if (state.at === 'opening') return <EmptyState busy title={shellWords.loading} />;
  if (state.at === 'failed') {
    return (
      <EmptyState title={shellWords.cannotStart.title} text={state.words}>
        <button type="button" class="button" onClick={() => void openWorkbook()}>
          {shellWords.cannotStart.retry}
        </button>
      </EmptyState>
    );
  }
  const View = placeViews[place.value];
  return <View />;
}
