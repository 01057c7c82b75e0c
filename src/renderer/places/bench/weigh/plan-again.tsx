import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Difference } from '../../../../core/plan/compare.ts';
import type { RunRecord } from '../../../../core/port/runs.ts';
import type { Figure } from '../../../../core/quantity/figure.ts';
import { formatAmount, formatSignificant } from '../../../../core/quantity/format.ts';
import { type PlanAgain as Again, planAgain, type Proposal } from '../../../../core/run/plan-again.ts';
import type { RunState } from '../../../../core/run/state.ts';
import { meritWords, changeText } from '../../../../core/words/merit-words.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import { Amount } from '../../../parts/amount.tsx';
import { decimalMark } from '../../../parts/locale.ts';
import { goTo } from '../../../state/place.ts';
import { planInput } from '../../../state/plan-result.ts';
import { commitEdit, draft, editPlan } from '../../../state/plan-store.ts';
import { openPlan, route } from '../../../state/plan-route.ts';
import { leaveRun, ownRuns } from '../../../state/run-store.ts';
import { runRows } from '../../../state/run-rows.ts';

const words = weighWords.again;

interface PlanAgainProps {
  readonly run: RunRecord;
  readonly state: RunState;
}

/** What the real amount means for the rest; each way to go on says what it changes, and nothing is changed unasked. */
export function PlanAgain({ run, state }: PlanAgainProps) {
  const found = useSignal<Again | 'working' | null>('working');
  const input = planInput.value;
  const left = batchesLeft(run);
  useEffect(() => {
    found.value = 'working';
    // After the picture: it takes longer than a frame.
    const wait = setTimeout(() => {
      found.value = input ? planAgain(input, run.start.sheet, state, left) : null;
    }, 50);
    return () => clearTimeout(wait);
  }, [input, state, left]);
  if (run.start.plan !== openPlan.value?.id) return <p class="weigh-more">{words.otherPlan}</p>;
  const product = run.start.sheet.sheet.product;
  const again = found.value;
  return (
    <section class="weigh-again" aria-labelledby="again-title">
      <h2 id="again-title">{words.title}</h2>
      {again === 'working' && <p role="status">{words.working}</p>}
      {again === null && <p>{words.unknown}</p>}
      {again !== null && again !== 'working' && (
        <>
          <p class="weigh-more">{offWords(again, product)}</p>
          {again.proposals.length > 1 && <p>{words.nothingChanged}</p>}
          <ol>
            {again.proposals.map((one) => (
              <ProposalView
                key={`${one.kind} ${one.draw ?? ''}`}
                proposal={one}
                product={product}
                planned={run.start.sheet.product.grams}
                surplus={again.difference.value > 0}
              />
            ))}
          </ol>
        </>
      )}
    </section>
  );
}

/** Batches of the step that this plan still has to run, after those that have given a product. */
function batchesLeft(run: RunRecord): number {
  const { step, sheet } = run.start.sheet;
  const done = runRows.value
    ? ownRuns().filter((one) => one.step === step && one.revision === run.start.revision && one.productGrams !== null)
    : [];
  return Math.max(0, sheet.batches - new Set(done.map((one) => one.batch)).add(run.start.sheet.batch).size);
}

/** Below this part of a gram nothing is worth a word. */
const NOTHING = 5e-4;

function offWords({ difference }: Again, product: string): string {
  if (Math.abs(difference.value) < NOTHING) return words.asPlanned(product);
  const amount = grams(Math.abs(difference.value));
  return difference.value < 0 ? words.short(amount, product) : words.surplus(amount, product);
}

interface About {
  readonly product: string;
  /** Contained product that the batch was planned to give, g. */
  readonly planned: number;
  readonly surplus: boolean;
}

/** From this percentage on three digits would say 100 %. */
const ALMOST_ALL = 99.5;
/** Below this part of a batch what lacks is about what a balance rounds. */
const LITTLE = 5e-3;

function ProposalView({ proposal, ...about }: About & { readonly proposal: Proposal }) {
  const title = titleOf(proposal, about);
  return (
    <li class="weigh-proposal">
      <h3>{title}</h3>
      {proposal.ask === null ? (
        <p class="weigh-stays">{proposal.again.value > 0 ? words.nothingToTakeAgain : words.nothingToTake}</p>
      ) : (
        <button type="button" class="button" aria-label={words.takeOne(title)} onClick={() => take(proposal, title)}>
          {words.take}
        </button>
      )}
      <Changes changes={proposal.changes} />
    </li>
  );
}

function titleOf({ kind, draw, ask, again }: Proposal, { product, planned, surplus }: About): string {
  if (kind === 'keep') {
    if (again.value > 0 && again.value < LITTLE * planned) return words.keepLittle(grams(again.value), product);
    if (again.value > 0) return words.keepWith(grams(again.value), product);
    return surplus ? words.surplusStays : words.keep;
  }
  const was = draft.value?.draws.find((one) => one.id === (draw ?? one.id));
  const then = ask?.draws.find((one) => one.id === was?.id);
  if (!was || !then) return words.keep;
  if (kind === 'scale') {
    const changed = ask?.draws.find((one) => draft.value?.draws.some((each) => each.id === one.id && each.amount !== one.amount));
    const before = draft.value?.draws.find((one) => one.id === changed?.id);
    const part = changed && before ? (100 * changed.amount) / before.amount : 100;
    return words.scale(`${formatSignificant(part, part < ALMOST_ALL ? 3 : 4, decimalMark)} %`);
  }
  const name = [route.value?.materials[was.material]?.name ?? was.material, was.purpose].filter(Boolean).join(', ');
  const amount = (value: number): string => {
    const { text, unit } = formatAmount({ value, unit: was.unit, digits: 4 }, decimalMark);
    return `${text} ${unit}`;
  };
  return words[kind](name, amount(was.amount), amount(then.amount));
}

function take({ ask }: Proposal, title: string): void {
  if (!ask) return;
  editPlan(words.edit(title), () => ask);
  commitEdit();
  leaveRun();
  goTo('plan');
}

/** What an eye takes in at once; the rest is counted, and stands in the Plan place when it is taken. */
const MOST_LINES = 8;
/** Less than this, %, shows in no figure of three or four digits: it is rounding, and no line. */
const LEAST_CHANGE = 0.05;
const SHOWN = new Set(['draws', 'starts', 'batches', 'to buy']);

function Changes({ changes }: { readonly changes: readonly Difference[] }) {
  const seen = changes.filter((one) => one.change === null || Math.abs(one.change) >= LEAST_CHANGE);
  const telling = seen.filter((one) => SHOWN.has(one.section));
  if (telling.length === 0) return <p class="soft">{words.none}</p>;
  const hidden = seen.length - Math.min(telling.length, MOST_LINES);
  return (
    <>
      <table class="weigh-changes" aria-label={words.changes}>
        <thead>
          <tr>
            <th scope="col">{words.changes}</th>
            <th scope="col">{words.planned}</th>
            <th scope="col">{words.afterwards}</th>
            <th scope="col">{meritWords.compare.change}</th>
          </tr>
        </thead>
        <tbody>
          {telling.slice(0, MOST_LINES).map((line) => (
            <tr key={`${line.section} ${line.of.join()}`}>
              <th scope="row">
                <span class="soft">{meritWords.compare.sections[line.section]}</span> {line.of.join(' · ')}
              </th>
              <td>
                <Side of={line.one} section={line.section} />
              </td>
              <td>
                <Side of={line.other} section={line.section} />
              </td>
              <td>{changeText(line.change).replace('.', decimalMark)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {hidden > 0 && <p class="soft small">{words.more(hidden)}</p>}
    </>
  );
}

function Side({ of, section }: { readonly of: Figure | null; readonly section: Difference['section'] }) {
  if (!of) return <>{meritWords.compare.missing}</>;
  return section === 'batches' ? <Amount figure={of} text={of.value.toFixed(0)} /> : <Amount figure={of} />;
}

function grams(value: number): string {
  const { text, unit } = formatAmount({ value, unit: 'g', digits: 4 }, decimalMark);
  return `${text} ${unit}`;
}
