import { useLayoutEffect } from 'preact/hooks';
import type { IntakeRow } from '../../../../core/port/files.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { dayAndTime } from '../../../parts/day-text.ts';
import { CloseButton } from '../close-button.tsx';
import { intakeBusy, intakes, intakeSaid, readIntakes, turnIntake } from './intakes-store.ts';

const words = importScreenWords.intakes;

/** Every file that was taken onto the shelf, each taken back or brought back as one. */
export function IntakesPanel() {
  useLayoutEffect(() => {
    intakeSaid.value = '';
    void readIntakes();
  }, []);
  const rows = intakes.value;
  return (
    <section aria-labelledby="intakes-title">
      <header class="panel-head">
        <h1 id="intakes-title">{words.title}</h1>
        <CloseButton />
      </header>
      <p class="soft small panel-hint">{words.hint}</p>
      <p class="intake-said" role="status">
        {intakeSaid.value}
      </p>
      {rows?.length === 0 && <p class="soft">{words.none}</p>}
      <ul class="intakes">
        {rows?.map((row) => (
          <Intake key={row.id} row={row} />
        ))}
      </ul>
    </section>
  );
}

function Intake({ row }: { readonly row: IntakeRow }) {
  const { id, file, at, added, updated, isIn, lastAt } = row;
  return (
    <li class={isIn ? 'intake' : 'intake intake-back'}>
      <b class="intake-file">{file}</b>
      <span>
        {words.came(added, updated)}
        <small class="soft">
          {words.takenIn} <time dateTime={at}>{dayAndTime(at)}</time>
          {!isIn && (
            <>
              {' · '}
              {words.backOn} <time dateTime={lastAt}>{dayAndTime(lastAt)}</time>
            </>
          )}
        </small>
      </span>
      <button
        type="button"
        class="text-button"
        disabled={intakeBusy.value !== null}
        aria-label={`${isIn ? words.takeBack : words.bringBack}: ${file}`}
        onClick={() => void turnIntake(id, isIn)}
      >
        {isIn ? words.takeBack : words.bringBack}
      </button>
    </li>
  );
}
