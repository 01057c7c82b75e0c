import type { SolutionHeat } from '../../../core/matter/solution-heat.ts';
import { type Figure, marksOf } from '../../../core/quantity/figure.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { solutionWords } from '../../../core/words/solution-words.ts';
import { Amount } from '../../parts/amount.tsx';

const words = solutionWords.result;

/** Heat given off and the temperature it would reach, or why it is not known. Unknown is never shown as harmless. */
export function SolutionHeatPart({ heat }: { readonly heat: SolutionHeat }) {
  const { given, rise, reached } = heat;
  const marks = reached.ok ? marksOf(reached.figure) : [];
  return (
    <section class="solution-heat" aria-labelledby="solution-heat">
      <h2 id="solution-heat">{words.heat}</h2>
      {given.ok && rise.ok && reached.ok ? (
        <>
          <p>
            {given.figure.value < 0 ? words.takenUp : words.given} <Amount figure={positive(given.figure)} /> · {words.reached}{' '}
            <Amount
              figure={reached.figure}
              text={String(Math.round(reached.figure.value)).replace('-', '−')}
              unit="°C"
              size="large"
            />
            {heat.boils === true && <strong class="tone-accent"> {words.boils}</strong>}
          </p>
          <p class="soft small">
            {words.heatNote} {marks.length > 0 && words.marks(marks)}
          </p>
        </>
      ) : (
        <p>
          <strong>{words.heatUnknown}</strong> {[given, rise, reached].flatMap((one) => (one.ok ? [] : [sentence(one.why)]))[0]}
        </p>
      )}
    </section>
  );
}

/** The word beside it says whether it is given off or taken up. */
function positive(figure: Figure<'kJ'>): Figure<'kJ'> {
  return figure.value < 0 ? { ...figure, label: words.takenUpLabel, value: -figure.value } : figure;
}
