import { grouped } from '../../grouped.ts';
import type { Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import { coolingNeed, MOST_BATCHES, type RunIn, stirrableCount } from './batches.ts';
import type { BatchPlan } from '../result.ts';
import type { StepInput } from '../step/run-step.ts';
import type { Settings } from '../settings.ts';

interface VesselInput {
  readonly input: StepInput;
  readonly runIn: RunIn;
  readonly settings: Settings;
}

/** What a step's batches break: too full, too empty to stir, more heat than cooling, over the person's own limit. */
export function vesselNotices({ input, runIn, settings }: VesselInput, batches: BatchPlan): readonly Notice[] {
  const { step } = input;
  const full = batches.stages.filter((stage) => stage.fill !== null && stage.fill > stage.most * (1 + 1e-9));
  const notices: Notice[] = full.map((stage) => ({
    level: 'caution',
    code: 'too full',
    values: {
      stage: stage.stage,
      vessel: stage.vessel?.name ?? '',
      percent: (stage.fill ?? 0) * 100,
      most: stage.most * 100,
      ...mostBatches(batches),
    },
    at: { step: step.id },
  }));
  notices.push(...stirringNotices(input.step, runIn, settings, batches), ...coolingNotices(input, settings, batches));
  const limit = step.batchLimit;
  if (limit && !Number.isFinite(batches.basisGrams.value)) {
    notices.push({
      level: 'caution',
      code: 'limit not checked',
      values: { grams: limit.grams, reason: limit.reason },
      at: { step: step.id },
    });
  }
  if (limit && batches.basisGrams.value > limit.grams * (1 + 1e-9)) {
    notices.push({
      level: 'caution',
      code: 'over own limit',
      values: { grams: limit.grams, reason: limit.reason, ...mostBatches(batches) },
      at: { step: step.id },
    });
  }
  return notices;
}

/** Where the program stopped adding batches, that is said: more of them would fit. */
function mostBatches({ count, why }: BatchPlan): { readonly batches?: number } {
  return count >= MOST_BATCHES && why !== 'by hand' ? { batches: count } : {};
}

/** What is stirred must reach the stirrer: where one vessel is too small for the most and too large for the least, that is said. */
function stirringNotices(step: Step, runIn: RunIn, settings: Settings, batches: BatchPlan): readonly Notice[] {
  const poor = batches.stages.filter(
    ({ stirred, vessel, least }) => stirred && vessel && stirred.value < least * vessel.nominal * (1 - 1e-9),
  );
  if (poor.length === 0) return [];
  const better = stirrableCount(step, runIn, batches.count, settings) ?? 0;
  // One vessel is told of once, with every stage that hardly reaches the stirrer.
  return [...grouped(poor, ({ vessel }) => vessel?.name ?? '')].flatMap(([name, stages]): readonly Notice[] => {
    const [first] = stages;
    if (!first?.stirred || !first.vessel) return [];
    const further = stages.slice(1).map(({ stage, stirred }) => `${stage}=${stirred?.value ?? ''}`);
    const filled = { percent: (first.stirred.value / first.vessel.nominal) * 100, least: first.least * 100 };
    const own = { stage: first.stage, vessel: name, amount: first.stirred.value, unit: 'mL', ...filled, better };
    const values = further.length === 0 ? own : { ...own, further: further.join('|') };
    return [{ level: 'caution', code: 'too little to stir', values, at: { step: step.id } }];
  });
}

/** More heat in a batch than the bath takes away during the longest addition. */
function coolingNotices(input: StepInput, settings: Settings, batches: BatchPlan): readonly Notice[] {
  const need = coolingNeed(input, batches.basisMoles, settings);
  if (need === null || need <= 1 + 1e-9 || !batches.shortestAddition) return [];
  const values = { minutes: batches.shortestAddition.value, longest: input.step.heat?.longestMinutes ?? 0 };
  return [{ level: 'caution', code: 'more heat than cooling', values, at: { step: input.step.id } }];
}
