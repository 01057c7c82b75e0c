import { compareRoutes } from '../../../core/route/compare-routes.ts';
import { routeEditorWords } from '../../../core/words/route-editor-words.ts';
import { importPreview, leavePreviewed, takeInPreviewed, doubtsOf } from '../../state/routes-store.ts';
import { Differences } from './revisions.tsx';

const words = routeEditorWords.preview;

/** A file whose name a route has already: what it would change, before anything is written. */
export function ImportPreview() {
  const one = importPreview.value;
  if (!one) return null;
  const { name } = one.route;
  const differences = compareRoutes(one.same.route, one.route);
  const doubts = doubtsOf(one.route);
  return (
    <section class="refused" aria-labelledby="preview-title">
      <h1 id="preview-title">{words.title(one.file)}</h1>
      <p>{differences.length === 0 ? words.identical(name, one.same.revision) : words.same(name, one.same.revision)}</p>
      {doubts !== '' && <p class="tone-accent">{doubts}</p>}
      {differences.length > 0 && <Differences differences={differences} />}
      <p class="route-acts">
        {differences.length > 0 && (
          <button type="button" class="button button-strong" onClick={() => void takeInPreviewed('next')}>
            {words.asNext(one.same.revision + 1)}
          </button>
        )}
        <button type="button" class="button" onClick={() => void takeInPreviewed('new')}>
          {words.asNew}
        </button>
        <button type="button" class="button" onClick={leavePreviewed}>
          {words.leave}
        </button>
      </p>
    </section>
  );
}
