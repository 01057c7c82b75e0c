import type { MakeUpEntry } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { Blank, BlankPair } from './blank.tsx';
import { MakeUpPages } from './make-up-pages.tsx';
import { WarningRows } from './warnings.tsx';

const COLUMNS = 7;

/** Solutions to be made before anything else, each with its parts in the order they go in. */
export function MakeUpTable({ makeUps }: { readonly makeUps: readonly MakeUpEntry[] }) {
  const here = makeUps.filter((makeUp) => makeUp.page === undefined);
  return (
    <>
      <MakeUpPages makeUps={makeUps.filter((makeUp) => makeUp.page !== undefined)} />
      {here.length > 0 && (
        <table class="operations make-ups">
          <MakeUpHead first={words.makeUpsFirst} />
          {here.map((makeUp) => (
            <MakeUpBody key={makeUp.id} makeUp={makeUp} />
          ))}
        </table>
      )}
    </>
  );
}

function MakeUpBody({ makeUp }: { readonly makeUp: MakeUpEntry }) {
  return (
    <tbody>
      <tr class="stage">
        <td colSpan={COLUMNS}>
          <strong>
            {makeUp.label} · {makeUp.title}
          </strong>
          {`, ${makeUp.gives}`}
          {makeUp.uses !== '' && `; ${makeUp.uses}`}
        </td>
      </tr>
      <WarningRows warnings={makeUp.before} lead={words.before.makeUp} columns={COLUMNS} />
      {makeUp.parts.map((part, at) => (
        <tr key={`${part.material} ${part.source}`} class="charge">
          <td class="number">{at + 1}</td>
          <td class="what">
            <p class="material">{part.material}</p>
            {part.source !== '' && <p>{part.source}</p>}
            {at > 0 && <p>{words.intoIt}</p>}
          </td>
          <td class="target">
            <p class="target-number">{part.target}</p>
            {part.or !== '' && <p>{part.or}</p>}
          </td>
          <Blank label="g" />
          <Blank label="g" />
          <Blank label="g" />
          <BlankPair />
        </tr>
      ))}
    </tbody>
  );
}

/** The columns of weighing a solution together: what, how much, and blanks for what was weighed. */
export function MakeUpHead({ first }: { readonly first: string }) {
  return (
    <>
      <colgroup>
        <col class="col-number" />
        <col />
        <col class="col-wide" />
        <col class="col-blank" />
        <col class="col-blank" />
        <col class="col-blank" />
        <col class="col-blank" />
      </colgroup>
      <thead>
        <tr>
          <th colSpan={2}>{first}</th>
          <th>{words.columns.take}</th>
          <th>{words.columns.tare}</th>
          <th>{words.columns.gross}</th>
          <th>{words.columns.net}</th>
          <th>
            <div>{words.columns.time}</div>
            <div>{words.columns.initials}</div>
          </th>
        </tr>
      </thead>
    </>
  );
}
