import type { MakeUpEntry } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { Blank } from './blank.tsx';

/** Solutions that have a page of their own in these papers: made once, there; here only that they are ready. */
export function MakeUpPages({ makeUps }: { readonly makeUps: readonly MakeUpEntry[] }) {
  if (makeUps.length === 0) return null;
  const { makeUpPages } = words;
  return (
    <table class="operations make-up-pages">
      <colgroup>
        <col />
        <col class="col-uses" />
        <col class="col-blank" />
      </colgroup>
      <thead>
        <tr>
          <th colSpan={3}>{words.makeUpsFirst}</th>
        </tr>
      </thead>
      {makeUps.map((makeUp) => (
        <tbody key={makeUp.id}>
          <tr>
            <td>
              <p class="material">
                {makeUp.label} · {makeUp.title}
              </p>
              <p>{makeUp.page}</p>
            </td>
            <Blank label={makeUpPages.made} />
            <Blank label={words.columns.initials} />
          </tr>
        </tbody>
      ))}
    </table>
  );
}
