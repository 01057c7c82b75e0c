import { amountText } from '../../../core/paper/amounts.ts';
import type { FetchLine, LineUse, PlanResult } from '../../../core/plan/result.ts';
import type { MakeUp } from '../../../core/plan/make-up-result.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { makeUpExcess } from '../../../core/words/make-up-excess.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { Amount } from '../../parts/amount.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { OnHand } from '../../parts/on-hand.tsx';
import { lookThroughPlans } from '../../state/other-plans.ts';
import { planList, shelfChanges } from '../../state/workbook.ts';
import { ByHand } from './by-hand.tsx';
import { FetchBottles } from './fetch-bottles.tsx';
import { useEffect } from 'preact/hooks';
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
  const [plans, changes] = [planList.value, shelfChanges.value];
  // What other plans count on is told beside each bottle.
  useEffect(() => void lookThroughPlans(), [plans, changes]);
  return (
    <div id={id} class="fetch-details">
      <dl>
        {stored && (
          <div>
            <dt>{words.onHand}</dt>
            <dd>
              <OnHand line={line} size="small" />
            </dd>
          </div>
        )}
        {line.peak.value > line.need.value && <Entry name={line.dissolved ? words.goesIn : words.net} figure={line.need} />}
        {line.short && <Entry name={words.short} figure={line.short} />}
      </dl>
      {stored && <FetchBottles line={line} />}
      {makeUp && <MakeUpLines makeUp={makeUp} />}
      <ul>
        {[...usesOf(line, result)].map(([text, [use, ...alike]]) => (
          <li key={text}>
            <button
              type="button"
              class="text-button"
              onClick={() => use && pointAt({ step: use.step, operation: use.operation })}
            >
              {alike.length === 0 ? text : words.usedAgain(text, alike.length + 1)}
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** The charges that use a line, by their words; those that read alike (two equal washes of a step) are one entry. */
function usesOf(line: FetchLine, result: PlanResult): ReadonlyMap<string, readonly LineUse[]> {
  return Map.groupBy(line.uses, (use) => {
    const step = result.steps.find((one) => one.id === use.step);
    const amount = use.amount === null ? '' : amountText({ value: use.amount, unit: line.unit, digits: 3 }, decimalMark);
    return words.usedBy(step?.number ?? 0, step?.title ?? use.step, amount);
  });
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
      {makeUp.parts.map(({ from, fromWords }) => (
        <p key={from.bottle}>
          {words.makeUp(fromWords, from.lot)} <ByHand id={from.bottle} lot={words.lot(from.lot)} />
        </p>
      ))}
      {makeUp.before.map((notice) => (
        <p key={sentence(notice)} class="tone-accent">
          {sentence(notice)}
        </p>
      ))}
      <dl>
        {/* As on paper: what dilutes stands first, what is stronger goes into it. */}
        <Entry name={words.water} figure={makeUp.waterGrams} />
        {makeUp.parts.map(({ from, fromWords, takeGrams }) => (
          <Entry
            key={from.bottle}
            name={makeUp.parts.length === 1 ? words.take : words.takeOf(fromWords, from.lot)}
            figure={takeGrams}
          />
        ))}
        <Entry name={words.gives} figure={makeUp.millilitres ?? makeUp.grams} />
      </dl>
      <p class="soft">{makeUpExcess(makeUp.excessPercent)}</p>
    </>
  );
}
