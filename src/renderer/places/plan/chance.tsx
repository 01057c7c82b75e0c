import './chance.css';
import type { Confidence, Outlook } from '../../../core/confidence/confidence.ts';
import type { StartSlope } from '../../../core/confidence/start-slopes.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { signed } from '../../../core/words/confidence-text.ts';
import { confidenceWords as words } from '../../../core/words/confidence-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { confidence, confidenceIsCurrent } from '../../state/confidence.ts';
import { commitEdit } from '../../state/plan-store.ts';
import { ChanceChart } from './chance-chart.tsx';
import { setLimits, setStart } from './chance-edits.ts';
import { yieldOf } from './edits.ts';
import { writeYield } from './yield-text.ts';

/** How sure the plan is: the chance of enough against the start, the starts for usual chances, and where the risk is. */
export function ChanceOfEnough({ result }: { readonly result: PlanResult }) {
  const known = confidence.value;
  if (!known || known.kind === 'unknown') return null;
  const note = known.kind === 'chance' ? nameOf(result, known.first.material) : '';
  return (
    <section class="chance" aria-labelledby="chance-title" data-current={confidenceIsCurrent.value}>
      <header class="part-head">
        <h2 id="chance-title">{words.title}</h2>
        <span class="part-note" title={note}>
          {note}
        </span>
      </header>
      <ChanceBody known={known} result={result} />
    </section>
  );
}

function ChanceBody({
  known,
  result,
}: {
  readonly known: Exclude<Confidence, { kind: 'unknown' }>;
  readonly result: PlanResult;
}) {
  if (known.kind === 'nothing to start') return <p class="small">{words.nothing}</p>;
  if (known.kind === 'certain') {
    return (
      <>
        <p class="small">{words.certain}</p>
        {known.slopes.length > 0 && (
          <details class="fold chance-more">
            <summary>{words.slopes}</summary>
            <Risks risks={[]} slopes={known.slopes} result={result} />
          </details>
        )}
      </>
    );
  }
  return (
    <>
      <ChanceChart outlook={known} material={nameOf(result, known.first.material)} />
      <p class="small chance-says" aria-live="polite">
        {words.follows(result.start, known.chance.value)} {words.likeliest(known.atLikeliest.value)}
      </p>
      <Levels outlook={known} result={result} />
      <details class="fold chance-more">
        <summary>{words.more(unsettled(result))}</summary>
        <Limits result={result} />
        <Risks risks={known.risks} slopes={known.slopes} result={result} />
        <Products outlook={known} result={result} />
      </details>
    </>
  );
}

/** The start for each usual chance; choosing one makes every amount follow it. */
function Levels({ outlook, result }: { readonly outlook: Outlook; readonly result: PlanResult }) {
  const { start } = result;
  const choose = (chancePercent: number | null): void => {
    setStart(chancePercent === null ? null : { chancePercent });
    commitEdit();
  };
  const chosen = (percent: number): boolean => start.kind === 'chance' && start.chancePercent === percent;
  return (
    <ul class="chance-levels" aria-label={words.startFor}>
      <li>
        <button
          type="button"
          class="switch"
          aria-pressed={start.kind === 'likeliest'}
          aria-label={words.chooseLikeliestLong}
          onClick={() => choose(null)}
        >
          {words.chooseLikeliest}
        </button>
        <Amount figure={outlook.atLikeliest} text={words.percent(outlook.atLikeliest.value)} unit="%" size="small" />
      </li>
      {outlook.levels.map((level) => (
        <li key={level.percent}>
          <button
            type="button"
            class="switch"
            aria-pressed={chosen(level.percent)}
            aria-label={words.choose(level.percent)}
            disabled={level.multiplier === null}
            onClick={() => choose(level.percent)}
          >
            {level.percent} %
          </button>
          {level.multiplier === null ? (
            <span class="soft">{words.noStart}</span>
          ) : (
            <Amount figure={level.grams ?? level.multiplier} size="small" />
          )}
        </li>
      ))}
    </ul>
  );
}

/** Ranges whose limits have not been said to mean one thing or the other. */
function unsettled(result: PlanResult): number {
  return result.steps.filter((step) => step.active && step.yieldRange && !step.yieldRange.limits).length;
}

/** Asks of every range what its limits mean. */
function Limits({ result }: { readonly result: PlanResult }) {
  const ranges = result.steps.filter((step) => step.active && step.yieldRange);
  return (
    <>
      {ranges.map((step) => {
        const range = yieldOf(step.id);
        if (typeof range === 'number') return null;
        return (
          <div key={step.id} class="small chance-limits" role="group" aria-label={step.title}>
            <p class={range.limits ? 'soft' : ''}>{words.limits.ask(step.title, writeYield(range))}</p>
            {(['absolute', 'one in ten'] as const).map((limits) => (
              <button
                key={limits}
                type="button"
                class="switch"
                aria-pressed={range.limits === limits}
                onClick={() => setLimits(step.id, step.title, limits)}
              >
                {words.limits[limits]}
              </button>
            ))}
          </div>
        );
      })}
    </>
  );
}

/** Which step carries the risk, and how the start depends on each yield. */
function Risks({
  risks,
  slopes,
  result,
}: {
  readonly risks: Outlook['risks'];
  readonly slopes: readonly StartSlope[];
  readonly result: PlanResult;
}) {
  if (slopes.length === 0) return null;
  const shared = risks.length > 0;
  return (
    <table class="chance-table chance-risks">
      <thead>
        <tr>
          {words.riskHeads
            .filter((head) => shared || head !== words.riskHeads[1])
            .map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
        </tr>
      </thead>
      <tbody>
        {slopes.map(({ step, gramsPerPoint }) => {
          const plan = result.steps.find((one) => one.id === step);
          const share = risks.find((one) => one.step === step)?.share ?? null;
          const [number = '', unit = ''] = signed(gramsPerPoint, decimalMark).split(' ');
          return (
            <tr key={step}>
              <th scope="row">
                {plan?.number} · {plan?.title}
              </th>
              {shared && (
                <td>
                  {share ? (
                    <Amount figure={share} text={words.percent(share.value)} unit="%" />
                  ) : (
                    <span class="soft">{words.noRange}</span>
                  )}
                </td>
              )}
              <td>
                <Amount figure={gramsPerPoint} text={number} unit={unit} />
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** What each draw may get. */
function Products({ outlook, result }: { readonly outlook: Outlook; readonly result: PlanResult }) {
  return (
    <table class="chance-table chance-products">
      <caption class="small">{words.gets}</caption>
      <thead>
        <tr>
          {words.getsHeads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      {outlook.products.map((one) => (
        <tbody key={one.draw}>
          <tr>
            <th scope="rowgroup" colSpan={3}>
              {nameOf(result, one.material)}
            </th>
          </tr>
          <tr>
            {[one.p10, one.p50, one.p90].map((figure) => (
              <td key={figure.label}>
                <Amount figure={figure} />
              </td>
            ))}
          </tr>
        </tbody>
      ))}
    </table>
  );
}

function nameOf(result: PlanResult, key: string): string {
  return result.materials[key]?.name ?? key;
}
