import type { PlanResult, StepPlan } from '../../../core/plan/result.ts';
import { nameOf } from '../../../core/paper/context.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { benchWords } from '../../../core/words/bench-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { WeighBatch } from './runs.tsx';
import { Laboratory } from './laboratory.tsx';
import { SessionBar } from './session-bar.tsx';
import { batchKey, chosen, everyBatch } from './bench-store.ts';

const words = benchWords.batches;

/** The plan's steps in working order, each with its batches to choose from. */
export function BatchPicker({ result }: { readonly result: PlanResult }) {
  const all = everyBatch(result).map(({ step, batch }) => batchKey(step, batch));
  return (
    <section class="bench-batches" aria-labelledby="batches-title">
      <SessionBar />
      <header class="part-head">
        <h1 id="batches-title">{words.title}</h1>
        <span class="part-note">{words.note}</span>
        <span class="bench-choose small" role="group" aria-label={words.choose}>
          <button type="button" class="text-button" aria-label={words.chooseAll} onClick={() => choose(all)}>
            {words.all}
          </button>{' '}
          <button type="button" class="text-button" aria-label={words.chooseNone} onClick={() => choose([])}>
            {words.none}
          </button>
        </span>
      </header>
      {result.steps.map((step) => (
        <StepBatches key={step.id} step={step} result={result} />
      ))}
      <Laboratory />
    </section>
  );
}

function choose(keys: readonly string[]): void {
  chosen.value = new Set(keys);
}

function toggle(key: string): void {
  const next = new Set(chosen.value);
  if (!next.delete(key)) next.add(key);
  chosen.value = next;
}

function StepBatches({ step, result }: { readonly step: StepPlan; readonly result: PlanResult }) {
  const { batches } = step;
  return (
    <fieldset class="bench-step">
      <legend>{words.step(step.number, step.title)}</legend>
      {!step.active && <p class="soft">{words.covered}</p>}
      {step.active && (
        <>
          <p class="soft small">
            {batches.count === 1 ? words.one : words.several(batches.count, batches.reason || planWords.batches.why[batches.why])}{' '}
            · {vesselWords(step)}
          </p>
          {Array.from({ length: batches.count }, (_, at) => at + 1).map((batch) => {
            const key = batchKey(step.id, batch);
            return (
              <div key={key} class="bench-batch-line">
                <label class="bench-batch">
                  <input type="checkbox" checked={chosen.value.has(key)} onChange={() => toggle(key)} />
                  <span>
                    <b>{words.batch(batch, batches.count)}</b>
                    <span class="soft small">{givesWords(step, result)}</span>
                  </span>
                </label>
                <WeighBatch step={step} batch={batch} />
              </div>
            );
          })}
        </>
      )}
    </fieldset>
  );
}

function givesWords(step: StepPlan, result: PlanResult): string {
  const { basisGrams, productGrams } = step.batches;
  const basis = nameOf(result, step.basis.material);
  return words.gives(shown(basisGrams), basis, shown(productGrams), nameOf(result, step.product.material));
}

function vesselWords(step: StepPlan): string {
  const { stages } = step.batches;
  if (stages.every((one) => one.volume.value === 0)) return words.volumeUnknown;
  if (stages.some((one) => !one.vessel)) return words.noVessel;
  // The stage nearest to its largest fill is what the number of batches comes from.
  const part = ({ fill, most }: (typeof stages)[number]): number => (fill ?? 0) / most;
  const fullest = stages.reduce((full, one) => (part(one) > part(full) ? one : full));
  const { vessel, fill, most, stage } = fullest;
  return words.vessel(vessel?.name ?? '', Math.round((fill ?? 0) * 100), Math.round(most * 100), stage);
}

function shown(figure: Figure): string {
  const { text, unit } = formatAmount(figure, decimalMark);
  return `${text} ${unit}`;
}
