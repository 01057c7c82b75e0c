import { amountText } from '../../../core/paper/amounts.ts';
import type { BottleShare, ChargePlan, PlanResult } from '../../../core/plan/result.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { Status } from '../../parts/status.tsx';
import { chooseStep, openFetchLine } from '../../state/plan-view.ts';
import { MakeCharge } from './make-charge.tsx';

const words = planWords.step;

/** Where a charge comes from: its bottles, a solution to be made up, an earlier step, the tap; or that it is short. */
export function From(props: { readonly charge: ChargePlan; readonly result: PlanResult }) {
  return (
    <>
      <Supplied {...props} />
      <MakeCharge {...props} />
    </>
  );
}

function Supplied({ charge, result }: { readonly charge: ChargePlan; readonly result: PlanResult }) {
  const { supply } = charge;
  if (supply.kind === 'utility') return <span class="soft">{words.tap}</span>;
  if (supply.kind === 'short') {
    return (
      <>
        <Bottles shares={supply.bottles} amounts />
        <Status status={supply.status} words={planWords.status[supply.status]} />
      </>
    );
  }
  if (supply.kind === 'bottles')
    return <Bottles shares={supply.bottles} amounts={supply.bottles.length > 1 || charge.returns > 0} />;
  if (supply.kind === 'make up') {
    return (
      <>
        <Bottles shares={supply.bottles} amounts />
        <MakeUpLink id={supply.makeUp} result={result} />
      </>
    );
  }
  const number = result.steps.find((step) => step.id === supply.step)?.number ?? 0;
  return (
    <>
      <button type="button" class="text-button" onClick={() => chooseStep(supply.step)}>
        {words.fromStep(number)}
      </button>
      <Bottles shares={supply.bottles} amounts />
    </>
  );
}

/** Lots and places; with the amount of each where it is not simply all of the charge. */
function Bottles({ shares, amounts }: { readonly shares: readonly BottleShare[]; readonly amounts: boolean }) {
  return (
    <>
      {shares.map((share) => (
        <span key={share.bottle} class="op-bottle">
          {planWords.fetch.lot(share.lot)}
          {amounts && ` ${amountText({ value: share.amount, unit: share.unit, digits: 3 }, decimalMark)}`}
          {share.place !== '' && <span class="soft"> · {share.place}</span>}
        </span>
      ))}
    </>
  );
}

function MakeUpLink({ id, result }: { readonly id: string; readonly result: PlanResult }) {
  const line = result.fetch.find((one) => one.makeUp === id);
  return (
    <button
      type="button"
      class="text-button"
      onClick={() => {
        openFetchLine.value = line?.id ?? null;
      }}
    >
      {words.makeUp}
    </button>
  );
}
