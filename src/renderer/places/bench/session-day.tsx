import { amountText } from '../../../core/paper/amounts.ts';
import { sessionOf } from '../../../core/paper/session.ts';
import { batchLines, beforeLine, dayNotes } from '../../../core/paper/session-day-lines.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { dayBefore } from '../../../core/session/day-before.ts';
import { sessionDay } from '../../../core/session/session-day.ts';
import { sessionWords as words } from '../../../core/words/session-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { decimalMark } from '../../parts/locale.ts';
import { planInput } from '../../state/plan-result.ts';
import { batchKey, chosen, chosenBatches } from './bench-store.ts';
import { sessionReading } from './session-store.ts';

/** What must be done before the day, and the times of its batches against its hours. */
export function SessionDayView({ result }: { readonly result: PlanResult }) {
  const batches = chosenBatches(result);
  const read = sessionReading.value;
  if (batches.length === 0 || !read.ok) return null;
  const { date, starts, hours } = read.session;
  const day = sessionDay(result, batches);
  return (
    <>
      <Before result={result} date={date} />
      <section class="bench-day" aria-labelledby="day-title">
        <header class="part-head">
          <h2 id="day-title">{words.day.title}</h2>
          <span class="part-note">{words.day.note}</span>
        </header>
        {[...gone(result), ...dayNotes(day, hours, starts)].map((line) => (
          <p key={line} class={day.ends > hours * 60 && line.includes(' past ') ? 'day-over' : 'small'}>
            {line}
          </p>
        ))}
        <ol class="day-batches">
          {day.batches.map((one) => {
            const lines = batchLines(one, starts);
            return (
              <li key={`${one.step}/${one.batch}`}>
                <p>
                  <b>{lines.title}</b> <span class="soft small">{one.known === 0 ? lines.ends : words.day.ends(lines.ends)}</span>
                </p>
                {[lines.begins, ...lines.times].filter(Boolean).map((line, at) => (
                  <p key={at} class="small">
                    {line}
                  </p>
                ))}
                {lines.open.map((line, at) => (
                  <p key={at} class="small soft">
                    {line}
                  </p>
                ))}
              </li>
            );
          })}
        </ol>
      </section>
    </>
  );
}

/** Batches that are picked and that the plan no longer has. */
function gone(result: PlanResult): string[] {
  const there = new Set(chosenBatches(result).map(({ step, batch }) => batchKey(step, batch)));
  const missing = [...chosen.value].filter((key) => !there.has(key));
  return missing.length === 0 ? [] : [words.gone(missing.map((key) => key.replace('/', ' ')).join(', '))];
}

function Before({ result, date }: { readonly result: PlanResult; readonly date: string }) {
  const bottles = new Map((planInput.value?.shelf.bottles ?? []).map((one) => [one.id, one]));
  const list = dayBefore(result, sessionOf(result, chosenBatches(result)), bottles, date);
  return (
    <section class="bench-day" aria-labelledby="before-title">
      <header class="part-head">
        <h2 id="before-title">{words.before.title}</h2>
      </header>
      {list.length === 0 && <p class="soft">{words.before.none}</p>}
      <ul class="day-before">
        {list.map((one, at) => (
          <li key={at}>{beforeLine(one, (amount) => amountText(amount, decimalMark), dayText)}</li>
        ))}
      </ul>
    </section>
  );
}
