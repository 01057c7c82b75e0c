import type { BottleShare, ChargePlan, PlanResult } from '../../../core/plan/result.ts';
import { planWords } from '../../../core/words/plan-words.ts';
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
        <Bottles shares={supply.bottles} />
        <Status status={supply.status} words={planWords.status[supply.status]} />
      </>
    );
  }
  if (supply.kind === 'bottles') return <Bottles shares={supply.bottles} />;
  if (supply.kind === 'make up') return <MakeUpLink id={supply.makeUp} result={result} />;
  const number = result.steps.find((step) => step.id === supply.step)?.number ?? 0;
  return (
    <>
      <button type="button" class="text-button" onClick={() => chooseStep(supply.step)}>
        {words.fromStep(number)}
      </button>
      <Bottles shares={supply.bottles} />
    </>
  );
}

function Bottles({ shares }: { readonly shares: readonly BottleShare[] }) {
  return (
    <>
      {shares.map((share) => (
        <span key={share.bottle} class="op-bottle">
          {planWords.fetch.lot(share.lot)}
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
