import { formatAmount } from '../../../../core/quantity/format.ts';
import type { ChargeState } from '../../../../core/run/state.ts';
import { formWords } from '../../../../core/words/form-words.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { expired, fits } from '../../../state/weigh-bottles.ts';
import { bottleChoices } from '../../../state/weigh-source.ts';

const words = weighWords.from;

/** The bottles a charge could be taken from, each with the number that chooses it. */
export function SourceChoices({ charge, planned }: { readonly charge: ChargeState; readonly planned: string }) {
  const bottles = bottleChoices(charge);
  // What is planned from no bottle (a make-up, a dish) is not among them.
  const other = charge.charge.bottles.length === 0 && planned !== '' ? words.planned(planned) : '';
  if (bottles.length === 0) return <p class="weigh-from">{other === '' ? words.noneThere : other}</p>;
  return (
    <>
      {other !== '' && <p class="weigh-from">{other}</p>}
      <ol class="weigh-choices" aria-label={words.choices}>
        {bottles.map((bottle, at) => {
          const left = formatAmount({ value: bottle.left, unit: bottle.unit, digits: 4 }, decimalMark);
          const about = expired(bottle) ? words.pastDate : fits(charge.charge, bottle) ? '' : words.otherStrength;
          return (
            <li key={bottle.id}>
              <kbd>{at + 1}</kbd>{' '}
              {words.choice(
                bottle.id,
                formWords(bottle.form),
                bottle.lot ?? '',
                bottle.place ?? '',
                `${left.text}\u00a0${left.unit}`,
              )}
              {about !== '' && <b class="weigh-wrong"> {about}</b>}
            </li>
          );
        })}
      </ol>
    </>
  );
}
