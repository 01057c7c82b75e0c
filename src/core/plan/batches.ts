import { computed, type Figure } from '../quantity/figure.ts';
import { STAGES, type Stage, type Step } from '../route/route.ts';
import type { BatchPlan, StageVolume } from './result.ts';
import { runStep, type StepInput } from './run-step.ts';
import type { Settings } from './settings.ts';

/** More batches than this are not proposed: the person is told to choose another vessel. */
const MOST_BATCHES = 1000;

export interface BatchCount {
  readonly count: number;
  readonly why: BatchPlan['why'];
  readonly reason: string;
  /** True where even the most batches do not fit the largest vessel. */
  readonly tooFull: boolean;
}

type Unbatched = Omit<StepInput, 'batches'>;

/**
 * The smallest number of equal batches that keeps each inside the person's own limit and the largest vessel's
 * allowed fill in every stage.
 */
export function batchCount(input: Unbatched, basisGrams: number, settings: Settings, atLeast: number): BatchCount {
  const limit = input.step.batchLimit;
  const byLimit = limit ? Math.ceil(basisGrams / limit.grams - 1e-9) : 1;
  const start = Math.max(1, byLimit, atLeast);
  let count = Math.min(start, MOST_BATCHES);
  let need = fillNeed(input, count, settings);
  while (need > 1 + 1e-9 && count < MOST_BATCHES) {
    count = Math.min(MOST_BATCHES, Math.max(count + 1, Math.ceil(count * need - 1e-9)));
    need = fillNeed(input, count, settings);
  }
  const tooFull = need > 1 + 1e-9;
  if (count === 1) return { count, why: 'one is enough', reason: '', tooFull };
  if (limit && count <= byLimit) return { count, why: 'own limit', reason: limit.reason, tooFull };
  return { count, why: 'vessel', reason: largestVessel(settings).name, tooFull };
}

/** Fullest stage of one batch over what the largest vessel may hold; at most 1 where it fits. */
function fillNeed(input: Unbatched, batches: number, settings: Settings): number {
  const { peaks } = runStep({ ...input, batches });
  const nominal = largestVessel(settings).nominal;
  return [...peaks].reduce(
    (most, [stage, volume]) => Math.max(most, volume / batches / (nominal * mostFill(input.step, stage, settings))),
    0,
  );
}

/** Volume, vessel and fill of every stage of one batch. A vessel is kept until a stage starts in a new one. */
export function stageVolumes(
  step: Step,
  peaks: ReadonlyMap<Stage, number>,
  batches: number,
  basis: Figure,
  settings: Settings,
): readonly StageVolume[] {
  const stages = STAGES.filter((stage) => peaks.has(stage));
  return stages.map((stage) => {
    const volume = (peaks.get(stage) ?? 0) / batches;
    const vessel = vesselFor(vesselGroup(step, stages, stage), step, peaks, batches, settings);
    return {
      stage,
      volume: computed(`volume in the vessel, ${stage}`, volume, 'mL', 'sum of what is in the vessel', [basis]),
      vessel,
      fill: vessel ? volume / vessel.nominal : null,
      most: mostFill(step, stage, settings),
      apparatus: step.stages?.[stage]?.apparatus ?? '',
      newVessel: step.stages?.[stage]?.newVessel ?? false,
    };
  });
}

/** The stages that share this stage's vessel. */
function vesselGroup(step: Step, stages: readonly Stage[], stage: Stage): readonly Stage[] {
  const at = stages.indexOf(stage);
  const isNew = (one: Stage): boolean => step.stages?.[one]?.newVessel ?? false;
  let from = at;
  while (from > 0 && !isNew(stages[from] as Stage)) from -= 1;
  let to = at + 1;
  while (to < stages.length && !isNew(stages[to] as Stage)) to += 1;
  return stages.slice(from, to);
}

/** The smallest vessel that keeps each stage of the group at or under its largest fill; the largest where none does. */
function vesselFor(
  group: readonly Stage[],
  step: Step,
  peaks: ReadonlyMap<Stage, number>,
  batches: number,
  settings: Settings,
): { name: string; nominal: number } | null {
  const needed = group.reduce(
    (most, stage) => Math.max(most, (peaks.get(stage) ?? 0) / batches / mostFill(step, stage, settings)),
    0,
  );
  const bySize = [...settings.vessels].sort((a, b) => a.nominal - b.nominal);
  return bySize.find((vessel) => vessel.nominal >= needed * (1 - 1e-9)) ?? bySize.at(-1) ?? null;
}

function mostFill(step: Step, stage: Stage, settings: Settings): number {
  return step.stages?.[stage]?.lively ? settings.fill.lively : settings.fill.most;
}

function largestVessel(settings: Settings): { name: string; nominal: number } {
  return settings.vessels.reduce((largest, vessel) => (vessel.nominal > largest.nominal ? vessel : largest));
}
