import { noteRoute, renameRoute } from '../../../core/route/edit-steps.ts';
import type { RouteRevision } from '../../../core/port/workbook.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { routesWords } from '../../../core/words/routes-words.ts';
import { editRoute, routeTrouble, saveRouteAgain, takeSavedRoute } from '../../state/route-edits.ts';
import { openRoute } from '../../state/open-route.ts';
import { revisionsOpen } from '../../state/route-view.ts';
import { branchRoute, exportRoute, planRoute, putRouteAway } from '../../state/routes-store.ts';
import { routeList } from '../../state/workbook.ts';
import { EntryField } from './entry-field.tsx';

const words = routeEditorWords.head;

/** What can be done with a route as a whole. */
export function RouteActs() {
  const open = openRoute.value;
  const away = (routeList.value ?? []).some((one) => one.hidden && open.at === 'open' && one.id === open.id);
  return (
    <div class="route-acts">
      <button type="button" class="button button-strong" onClick={() => void planRoute()}>
        {routesWords.planThis}
      </button>
      <button type="button" class="button" onClick={() => void branchRoute()}>
        {words.branch}
      </button>
      <button
        type="button"
        class="button"
        aria-expanded={revisionsOpen.value}
        onClick={() => {
          revisionsOpen.value = !revisionsOpen.value;
        }}
      >
        {words.history}
      </button>
      <button type="button" class="button" onClick={() => void exportRoute()}>
        {routesWords.export}
      </button>
      <button type="button" class="button" onClick={() => void putRouteAway()}>
        {away ? routesWords.putAway.back : routesWords.putAway.do}
      </button>
    </div>
  );
}

/** Name and note of the route, typed where they are read. */
export function RouteNames({ revision }: { readonly revision: RouteRevision }) {
  const { route } = revision;
  return (
    <div class="route-names">
      <EntryField
        keep="name"
        label={words.name}
        value={route.name}
        wide
        onCommit={(text) => editRoute(routeEditorWords.edits.name, (now) => renameRoute(now, text))}
      />
      <EntryField
        keep="note"
        label={words.note}
        kind="lines"
        placeholder={words.noteExample}
        value={route.note ?? ''}
        onCommit={(text) => editRoute(routeEditorWords.edits.note, (now) => noteRoute(now, text))}
      />
    </div>
  );
}

/** A save that failed: what is on screen is not kept yet, and two ways out of it. */
export function SaveTrouble() {
  const trouble = routeTrouble.value;
  if (!trouble) return null;
  const said = routeEditorWords.trouble;
  return (
    <section class="route-trouble" role="alert">
      <p>
        <strong>{said.title}.</strong> {trouble.words}
      </p>
      <p class="route-acts">
        <button type="button" class="button button-strong" onClick={() => void saveRouteAgain()}>
          {trouble.conflict ? said.keep : said.again}
        </button>
        <button type="button" class="button" onClick={() => void takeSavedRoute()}>
          {said.take}
        </button>
      </p>
    </section>
  );
}
