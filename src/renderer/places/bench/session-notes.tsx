import { dayNotes } from '../../../core/paper/session-day-lines.ts';
import { sessionDay } from '../../../core/session/session-day.ts';
import { sessionWords as words } from '../../../core/words/session-words.ts';
import { result } from '../../state/plan-result.ts';
import { today } from '../../state/workbook.ts';
import { chosenBatches } from './bench-store.ts';
import { sessionReading } from './session-store.ts';

/** What does not go together with the day that is typed, said beside it: it has gone by, or its hours are too few. */
export function SessionNotes() {
  const read = sessionReading.value;
  if (!read.ok) return null;
  const { date, starts, hours } = read.session;
  const plan = result.value;
  const day = plan?.solved ? sessionDay(plan, chosenBatches(plan)) : null;
  const notes = [
    ...(date < today.value ? [words.pastDay] : []),
    ...(day && day.ends > hours * 60 ? dayNotes(day, hours, starts).slice(0, 1) : []),
  ];
  return (
    <div class="session-notes small" role="status">
      {notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
    </div>
  );
}
