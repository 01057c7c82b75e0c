import type { FetchLine, MakeUp, PlanResult } from '../../../core/plan/result.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { Amount } from '../../parts/amount.tsx';
import { pointAt } from '../../state/plan-view.ts';

const words = planWords.fetch;

interface DetailsProps {
  readonly id: string;
  readonly line: FetchLine;
  readonly result: PlanResult;
}

/** An open line: what is on hand, its bottles and why others were passed over, how to make it up, which charges use it. */
export function FetchDetails({ id, line, result }: DetailsProps) {
  const makeUp = result.makeUps.find((one) => one.id === line.makeUp);
  const stored = line.status !== 'tap' && line.status !== 'from a step';
  return (
    <div id={id} class="fetch-details">
      <dl>
        {stored && <Entry name={words.onHand} figure={line.onHand} />}
        {line.peak.value > line.need.value && <Entry name={words.net} figure={line.need} />}
        {line.short && <Entry name={words.short} figure={line.short} />}
      </dl>
      <ul>
        {line.bottles.map((share) => (
          <li key={share.bottle}>{words.lot(share.lot)}</li>
        ))}
        {line.passedOver.map((bottle) => (
          <li key={bottle.bottle} class="tone-accent">
            {words.lot(bottle.lot)}: {words.passedOver[bottle.why]}
          </li>
        ))}
      </ul>
      {makeUp && <MakeUpLines makeUp={makeUp} />}
      <ul>
        {line.uses.map((use) => {
          const step = result.steps.find((one) => one.id === use.step);
          return (
            <li key={`${use.step} ${use.operation}`}>
              <button type="button" class="text-button" onClick={() => pointAt({ step: use.step, operation: use.operation })}>
                {words.usedBy(step?.number ?? 0, step?.title ?? use.step)}
              </button>
            </li>
          );
        })}
      </ul>
    </div>
  );
}

function Entry({ name, figure }: { readonly name: string; readonly figure: Figure }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <Amount figure={figure} size="small" />
      </dd>
    </div>
  );
}

function MakeUpLines({ makeUp }: { readonly makeUp: MakeUp }) {
  return (
    <>
      <p>{words.makeUp(makeUp.fromWords, makeUp.from.lot)}</p>
      {makeUp.before.map((notice) => (
        <p key={notice.code} class="tone-accent">
          {sentence(notice)}
        </p>
      ))}
      <dl>
        <Entry name={words.take} figure={makeUp.takeGrams} />
        <Entry name={words.water} figure={makeUp.waterGrams} />
        <Entry name={words.gives} figure={makeUp.millilitres ?? makeUp.grams} />
      </dl>
    </>
  );
}
