import type { Form } from '../../../core/matter/form.ts';
import type { BottleTest } from '../../../core/shelf/shelf.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { testWords as words } from '../../../core/words/test-words.ts';
import { dayText } from '../../parts/day-text.ts';

/** Every test of a bottle, newest first, with what the bottle was taken for before. */
export function TestHistory({ tests }: { readonly tests: readonly BottleTest[] }) {
  if (tests.length === 0) return null;
  const day = (date: string | undefined): string => (date === undefined ? shelfWords.noDate : dayText(date));
  return (
    <section aria-labelledby="tests-title">
      <h2 id="tests-title">{words.history}</h2>
      <ul class="bottle-tests">
        {tests.toReversed().map((test, index) => (
          <li key={tests.length - index}>
            <time dateTime={test.on}>{dayText(test.on)}</time>
            <span>
              {words.line(words.kinds[test.done], formOf(test.form, test.on), formOf(test.before, ''))}
              <small class="soft">{words.lineUseBy(day(test.useBy), day(test.useByBefore))}</small>
              {test.remark !== undefined && <small class="soft">{test.remark}</small>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The form in words; the day of a titration is not said twice in its own line. */
function formOf(form: Form, day: string): string {
  if (form.kind !== 'solution' || form.strength.titrated !== day) return formWords(form);
  const { titrated: _said, ...strength } = form.strength;
  return formWords({ ...form, strength });
}
