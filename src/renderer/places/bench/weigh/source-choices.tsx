import { formatAmount } from '../../../../core/quantity/format.ts';
import type { ChargeState } from '../../../../core/run/state.ts';
import { formWords } from '../../../../core/words/form-words.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { expired, fits } from '../../../state/weigh-bottles.ts';
import { bottleChoices } from '../../../state/weigh-source.ts';

const words = weighWords.from;

/** The bottles a charge could be taken from, each with the number that chooses it. */
export function SourceChoices({ charge }: { readonly charge: ChargeState }) {
  const bottles = bottleChoices(charge);
  if (bottles.length === 0) return <p class="weigh-from">{words.noneThere}</p>;
  return (
    <ol class="weigh-choices" aria-label={words.choices}>
      {bottles.map((bottle, at) => {
        const left = formatAmount({ value: bottle.left, unit: bottle.unit, digits: 4 }, decimalMark);
        const about = expired(bottle) ? words.pastDate : fits(charge.charge, bottle) ? '' : words.otherStrength;
        return (
          <li key={bottle.id}>
            <kbd>{at + 1}</kbd>{' '}
            {words.choice(bottle.id, formWords(bottle.form), bottle.lot ?? '', bottle.place ?? '', `${left.text} ${left.unit}`)}
            {about !== '' && <b class="weigh-wrong"> {about}</b>}
          </li>
        );
      })}
    </ol>
  );
}
