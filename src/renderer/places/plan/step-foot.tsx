import type { PlanResult, StageVolume, StepPlan } from '../../../core/plan/result.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import { labWords } from '../../../core/words/lab-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { showLab } from '../../state/lab-store.ts';
import { setBatches } from './edits.ts';
import { Flask } from './flask.tsx';
import { StepUse } from './use-of-material.tsx';

/** Under the operations: batches with the flask, what is known of the heat, the gases that come off. */
export function StepFoot({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const fullest = step.batches.stages.toSorted((a, b) => (b.fill ?? 0) - (a.fill ?? 0))[0];
  return (
    <div class="step-foot">
      <Flask fill={fullest?.fill ?? null} most={fullest?.most ?? 1} />
      <section>
        <div class="batch-count">
          <h2>
            {planWords.batches.count(step.batches.count)}
            <span class="step-foot-of"> {planWords.batches.of} </span>
            <Amount figure={step.batches.basisGrams} />
          </h2>
          <BatchChoice step={step} />
        </div>
        <BatchReason step={step} />
        {step.batches.lostGrams && (
          <p>
            <Amount figure={step.batches.lostGrams} /> {planWords.batches.stays}
          </p>
        )}
        {step.batches.stages.map((stage) => (
          <p key={stage.stage}>{stageWords(stage)}</p>
        ))}
        <button type="button" class="text-button small" onClick={showLab}>
          {labWords.open}
        </button>
      </section>
      <section>
        {step.batches.shortestAddition && (
          <p>
            <Amount figure={step.batches.shortestAddition} /> {planWords.batches.addition}
          </p>
        )}
        {step.batches.heat ? (
          <p>
            <Amount figure={step.batches.heat} /> {planWords.batches.heatOfBatch}
          </p>
        ) : (
          <>
            <h2>{planWords.batches.heatUnknown}</h2>
            <p>{planWords.batches.heatText}</p>
          </>
        )}
        {step.gases.map((gas) => (
          <div key={gas.material}>
            <h2>
              <Amount figure={gas.grams} /> {result.materials[gas.material]?.name ?? gas.material}
            </h2>
            <p>{planWords.batches.gas(shown(gas.litres))}</p>
          </div>
        ))}
      </section>
      <StepUse step={step} />
    </div>
  );
}

/** The number of batches, one fewer or one more by hand. */
function BatchChoice({ step }: { readonly step: StepPlan }) {
  const words = planWords.batches;
  const { count } = step.batches;
  return (
    <span class="batch-choice">
      <button
        type="button"
        class="step-button"
        aria-label={words.fewer}
        title={words.fewer}
        disabled={count === 1}
        onClick={() => setBatches(step.id, step.title, count - 1)}
      >
        −
      </button>
      <button
        type="button"
        class="step-button"
        aria-label={words.more}
        title={words.more}
        disabled={count >= 1000}
        onClick={() => setBatches(step.id, step.title, count + 1)}
      >
        +
      </button>
    </span>
  );
}

/** Why there are so many, and the way back from a number chosen by hand. */
function BatchReason({ step }: { readonly step: StepPlan }) {
  const words = planWords.batches;
  const { why, reason } = step.batches;
  return (
    <p>
      {reason || words.why[why]}{' '}
      {why === 'by hand' && (
        <button type="button" class="text-button" onClick={() => setBatches(step.id, step.title, null)}>
          {words.workOut}
        </button>
      )}
    </p>
  );
}

function stageWords(stage: StageVolume): string {
  const name = planWords.step.stages[stage.stage];
  if (stage.volume.value === 0) return `${name}: ${planWords.batches.volumeUnknown}`;
  if (!stage.vessel || stage.fill === null) return `${name}: ${planWords.batches.noVessel(shown(stage.volume))}`;
  const filled = planWords.batches.filled(stage.vessel.name, Math.round(stage.fill * 100), Math.round(stage.most * 100));
  return `${name}: ${filled}`;
}

function shown(figure: Parameters<typeof formatAmount>[0]): string {
  const { text, unit } = formatAmount(figure, decimalMark);
  return `${text} ${unit}`;
}
