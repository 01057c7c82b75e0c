import './routes.css';
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { RouteEntry } from '../../../core/port/workbook.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { EmptyState } from '../../parts/empty-state.tsx';
import { clockTime } from '../../parts/day-text.ts';
import { openRoute, routesSaid } from '../../state/open-route.ts';
import { newStepAt } from '../../state/route-view.ts';
import { chooseAndImport, importPreview, openRouteById, refusedFile } from '../../state/routes-store.ts';
import { readRouteUses } from '../../state/route-uses.ts';
import { routeList } from '../../state/workbook.ts';
import { ImportPreview } from './import-preview.tsx';
import { NewStepForm } from './new-step.tsx';
import { RefusedFile } from './refused-file.tsx';
import { RouteUseLines } from './route-use-lines.tsx';
import { RouteView } from './route-view.tsx';

/** Shorter lists need no search. */
const SEARCH_FROM = 8;

/** All routes at the left, the chosen one to read at the right. */
export function RoutesPlace() {
  const routes = routeList.value;
  useEffect(() => {
    const first = routes?.find((one) => !one.hidden) ?? routes?.[0];
    if (first && openRoute.peek().at === 'none') void openRouteById(first.id);
  }, [routes]);
  useEffect(() => {
    if (routes !== null) void readRouteUses();
  }, [routes]);
  if (routes === null) return <EmptyState busy title={routesWords.loading} />;
  return (
    <div class="routes">
      <section class="routes-list" aria-labelledby="routes-title">
        <header class="part-head">
          <h2 id="routes-title">{routesWords.title}</h2>
          <span class="part-note">{routesWords.count(routes.length)}</span>
        </header>
        <p class="route-acts">
          <button
            type="button"
            class="button button-strong"
            onClick={() => {
              newStepAt.value = { at: 'route' };
            }}
          >
            {routeEditorWords.newRoute.open}
          </button>
          <button type="button" class="button" onClick={() => void chooseAndImport()}>
            {routesWords.import}
          </button>
        </p>
        <p class="routes-said small soft" role="status">
          {routesSaid.value}
        </p>
        <RouteList routes={routes} />
      </section>
      <div class="routes-open">
        <Right empty={routes.length === 0} />
      </div>
    </div>
  );
}

function Right({ empty }: { readonly empty: boolean }) {
  if (newStepAt.value?.at === 'route') return <NewStepForm where={newStepAt.value} route={null} />;
  if (refusedFile.value) return <RefusedFile file={refusedFile.value} />;
  if (importPreview.value) return <ImportPreview />;
  return <Opened empty={empty} />;
}

function RouteList({ routes }: { readonly routes: readonly RouteEntry[] }) {
  const typed = useSignal('');
  const wanted = typed.value.trim().toLowerCase();
  const found = routes.filter((route) => route.name.toLowerCase().includes(wanted));
  return (
    <>
      {routes.length >= SEARCH_FROM && (
        <input
          type="search"
          class="routes-search"
          aria-label={routesWords.search}
          placeholder={routesWords.search}
          value={typed.value}
          onInput={(event) => {
            typed.value = event.currentTarget.value;
          }}
        />
      )}
      {found.length === 0 && routes.length > 0 && <p class="soft small">{routesWords.noneFound}</p>}
      <Lines routes={found.filter((route) => !route.hidden)} />
      <PutAway routes={found.filter((route) => route.hidden)} />
    </>
  );
}

function Lines({ routes }: { readonly routes: readonly RouteEntry[] }) {
  return (
    <ul>
      {routes.map((route) => (
        <li key={route.id}>
          <RouteLine route={route} />
        </li>
      ))}
    </ul>
  );
}

/** Routes that are not in use now; nothing of them is lost. */
function PutAway({ routes }: { readonly routes: readonly RouteEntry[] }) {
  if (routes.length === 0) return null;
  return (
    <details class="fold">
      <summary>{routesWords.putAway.list(routes.length)}</summary>
      <Lines routes={routes} />
    </details>
  );
}

function RouteLine({ route }: { readonly route: RouteEntry }) {
  const open = openRoute.value;
  const current = open.at !== 'none' && open.id === route.id;
  return (
    <button
      type="button"
      class="route-line"
      aria-current={current ? 'true' : undefined}
      onClick={() => {
        newStepAt.value = null;
        void openRouteById(route.id);
      }}
    >
      <span class="route-line-name">{route.name}</span>
      <span class="small soft">
        {routesWords.steps(route.steps)} · {routesWords.changed(clockTime(route.changed))}
      </span>
      <RouteUseLines id={route.id} />
    </button>
  );
}

function Opened({ empty }: { readonly empty: boolean }) {
  const open = openRoute.value;
  if (empty) return <EmptyState title={routesWords.empty.title} text={routesWords.empty.text} />;
  if (open.at === 'none') return <EmptyState title={routesWords.choose} />;
  if (open.at === 'loading') return <EmptyState busy title={routesWords.opening} />;
  if (open.at === 'open') return <RouteView revision={open.revision} />;
  return (
    <EmptyState title={routesWords.failed} text={open.words}>
      <button type="button" class="button" onClick={() => void openRouteById(open.id)}>
        {routesWords.retry}
      </button>
    </EmptyState>
  );
}
