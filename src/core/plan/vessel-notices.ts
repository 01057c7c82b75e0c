import type { Notice } from '../words/notice.ts';
import { coolingNeed, stirrableCount } from './batches.ts';
import type { BatchPlan } from './result.ts';
import type { StepInput } from './run-step.ts';
import type { Settings } from './settings.ts';

interface VesselInput {
  readonly input: StepInput;
  readonly settings: Settings;
}

/** What a step's batches break: too full, too empty to stir, more heat than cooling, over the person's own limit. */
export function vesselNotices({ input, settings }: VesselInput, batches: BatchPlan): readonly Notice[] {
  const { step } = input;
  const full = batches.stages.filter((stage) => stage.fill !== null && stage.fill > stage.most * (1 + 1e-9));
  const notices: Notice[] = full.map((stage) => ({
    level: 'caution',
    code: 'too full',
    values: { stage: stage.stage, vessel: stage.vessel?.name ?? '', percent: (stage.fill ?? 0) * 100, most: stage.most * 100 },
    at: { step: step.id },
  }));
  notices.push(...stirringNotices(input, settings, batches), ...coolingNotices(input, settings, batches));
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
      values: { grams: limit.grams, reason: limit.reason },
      at: { step: step.id },
    });
  }
  return notices;
}

/** What is stirred must reach the stirrer: where one vessel is too small for the most and too large for the least, that is said. */
function stirringNotices(input: StepInput, settings: Settings, batches: BatchPlan): readonly Notice[] {
  const poor = batches.stages.filter(
    ({ stirred, vessel, least }) => stirred && vessel && stirred.value < least * vessel.nominal * (1 - 1e-9),
  );
  if (poor.length === 0) return [];
  const better = stirrableCount(input, batches.count, settings) ?? 0;
  return poor.flatMap(({ stage, stirred, vessel, least }): readonly Notice[] => {
    if (!stirred || !vessel) return [];
    const filled = { percent: (stirred.value / vessel.nominal) * 100, least: least * 100 };
    const values = { stage, vessel: vessel.name, amount: stirred.value, unit: 'mL', ...filled, better };
    return [{ level: 'caution', code: 'too little to stir', values, at: { step: input.step.id } }];
  });
}

/** More heat in a batch than the bath takes away during the longest addition. */
function coolingNotices(input: StepInput, settings: Settings, batches: BatchPlan): readonly Notice[] {
  const need = coolingNeed(input, batches.basisMoles, settings);
  if (need === null || need <= 1 + 1e-9 || !batches.shortestAddition) return [];
  const values = { minutes: batches.shortestAddition.value, longest: input.step.heat?.longestMinutes ?? 0 };
  return [{ level: 'caution', code: 'more heat than cooling', values, at: { step: input.step.id } }];
}
