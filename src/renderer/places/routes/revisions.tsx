import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { RevisionEntry, RouteRevision } from '../../../core/port/workbook.ts';
import { compareRoutes, type Difference } from '../../../core/route/compare-routes.ts';
import { checked } from '../../../core/route/edited.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { clockTime } from '../../parts/day-text.ts';
import { call } from '../../state/connection.ts';
import { inOrder } from '../../state/in-order.ts';
import { openRoute, routesSaid } from '../../state/open-route.ts';
import { editRoute } from '../../state/route-edits.ts';
import { revisionsOpen } from '../../state/route-view.ts';

const words = routeEditorWords.history;

/** Every saved state of the route: what each changed, and the way back to it. */
export function Revisions({ revision }: { readonly revision: RouteRevision }) {
  const list = useSignal<readonly RevisionEntry[] | null>(null);
  const compared = useSignal<{ readonly revision: number; readonly differences: readonly Difference[] | null } | null>(null);
  useEffect(() => {
    const read = async (): Promise<void> => {
      const answer = await call('routes.revisions', { id: revision.id });
      if (answer.ok) list.value = answer.value;
      else routesSaid.value = troubleWords(answer);
    };
    void read();
  }, [revision.id, revision.revision]);
  const compare = async (number: number): Promise<void> => {
    if (compared.value?.revision === number) {
      compared.value = null;
      return;
    }
    const [now, before] = await Promise.all([
      call('routes.read', { id: revision.id, revision: number }),
      number > 1 ? call('routes.read', { id: revision.id, revision: number - 1 }) : null,
    ]);
    if (!now.ok) routesSaid.value = troubleWords(now);
    else if (before && !before.ok) routesSaid.value = troubleWords(before);
    else
      compared.value = {
        revision: number,
        differences: before ? compareRoutes(before.value.route, now.value.route) : null,
      };
  };
  const restore = async (number: number): Promise<void> => {
    const answer = await call('routes.read', { id: revision.id, revision: number });
    const open = openRoute.value;
    // Another route is open meanwhile: it must not become this one.
    if (open.at !== 'open' || open.id !== revision.id) return;
    if (!answer.ok) {
      routesSaid.value = troubleWords(answer);
      return;
    }
    const edited = editRoute(routeEditorWords.edits.restored(number), () => checked(answer.value.route));
    if (!edited.ok) routesSaid.value = edited.problems.map((one) => one.words).join('; ');
  };
  return (
    <section class="revisions" aria-labelledby="revisions-title">
      <header class="part-head">
        <h2 id="revisions-title">{words.title}</h2>
        <button
          type="button"
          class="text-button"
          onClick={() => {
            revisionsOpen.value = false;
          }}
        >
          {words.close}
        </button>
      </header>
      {list.value === null && <p class="soft">{words.loading}</p>}
      {list.value && list.value.length > 1 && <AnyTwo revisions={list.value} id={revision.id} />}
      <ol>
        {(list.value ?? []).map((one) => (
          <li key={one.revision}>
            <div class="revision-line">
              <span>{words.revision(one.revision)}</span>
              <span class="soft">{one.revision === revision.revision ? words.current : clockTime(one.saved)}</span>
              <button
                type="button"
                class="text-button"
                aria-label={words.compare(one.revision)}
                aria-expanded={compared.value?.revision === one.revision}
                onClick={() => void compare(one.revision)}
              >
                {words.compareShort}
              </button>
              {one.revision !== revision.revision && (
                <button
                  type="button"
                  class="text-button"
                  aria-label={words.restore(one.revision)}
                  onClick={() => void restore(one.revision)}
                >
                  {words.restoreShort}
                </button>
              )}
            </div>
            {compared.value?.revision === one.revision && <Differences differences={compared.value.differences} />}
          </li>
        ))}
      </ol>
    </section>
  );
}

interface AnyTwoProps {
  readonly revisions: readonly RevisionEntry[];
  readonly id: number;
}

/** Any two revisions against each other; at first the newest against the one before it. */
function AnyTwo({ revisions, id }: AnyTwoProps) {
  const [newest, last] = revisions;
  const from = useSignal(last?.revision ?? 1);
  const to = useSignal(newest?.revision ?? 1);
  const found = useSignal<readonly Difference[] | null>(null);
  const inTurn = useRef(inOrder());
  const compare = async (): Promise<void> => {
    const read = (revision: number) => call('routes.read', { id, revision });
    const both = await inTurn.current(Promise.all([read(from.peek()), read(to.peek())]));
    if (!both) return;
    const [before, after] = both;
    if (!before.ok) routesSaid.value = troubleWords(before);
    else if (!after.ok) routesSaid.value = troubleWords(after);
    else found.value = compareRoutes(before.value.route, after.value.route);
  };
  const choose = (of: typeof from, label: string) => (
    <label>
      {label}{' '}
      <select
        class="choice"
        value={String(of.value)}
        onChange={(event) => {
          of.value = Number(event.currentTarget.value);
          if (found.value) void compare();
        }}
      >
        {revisions.map((one) => (
          <option key={one.revision} value={String(one.revision)}>
            {words.revision(one.revision)}
          </option>
        ))}
      </select>
    </label>
  );
  return (
    <div class="any-two" role="group" aria-label={words.anyTwo}>
      {choose(from, words.from)}
      {choose(to, words.to)}
      <button type="button" class="text-button" onClick={() => void compare()}>
        {words.compareTwo}
      </button>
      {found.value && <Differences differences={found.value} />}
    </div>
  );
}

/** What differs between two routes, a line each. Null: there is nothing to compare with. */
export function Differences({ differences }: { readonly differences: readonly Difference[] | null }) {
  if (differences === null) return <p class="soft small">{words.first}</p>;
  if (differences.length === 0) return <p class="soft small">{words.same}</p>;
  return (
    <table class="differences">
      <thead>
        <tr>
          <th scope="col">{words.heads.where}</th>
          <th scope="col">{words.heads.what}</th>
          <th scope="col">{words.heads.before}</th>
          <th scope="col">{words.heads.after}</th>
        </tr>
      </thead>
      <tbody>
        {differences.map((one, index) => (
          <tr key={index}>
            <th scope="row">
              {[one.step ?? (one.of === null ? words.wholeRoute : null), one.of].filter((part) => part !== null).join(' · ')}
            </th>
            <td>{one.what}</td>
            <td class={one.before === null ? 'soft' : undefined}>{one.before ?? words.nothing}</td>
            <td class={one.after === null ? 'soft' : undefined}>{one.after ?? words.nothing}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
