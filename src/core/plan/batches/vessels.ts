import { computed, type Figure } from '../../quantity/figure.ts';
import { STAGES, type Stage, type Step } from '../../route/route.ts';
import type { GasStages } from '../step/gas-stages.ts';
import type { StageVolume } from '../result.ts';
import type { StepRun } from '../step/run-step.ts';
import type { Settings } from '../settings.ts';
import { largestServing, vesselOf } from './vessel-build.ts';

type Vessel = Settings['vessels'][number];
type Volumes = Pick<StepRun, 'peaks' | 'stirred' | 'runsOff' | 'gassing'>;
type Filled = Pick<StepRun, 'peaks' | 'gassing'>;

/** The fullest stage of one batch: the largest vessel that serves it, and how far it fills what that may hold. */
export interface Fullest {
  readonly vessel: Vessel;
  /** At most 1 where the batch fits. */
  readonly need: number;
}

/** The stage that decides how many batches there must be. Volumes are of all batches. */
export function fullestStage(step: Step, { peaks, gassing }: Filled, batches: number, settings: Settings): Fullest {
  const stages = STAGES.filter((stage) => peaks.has(stage));
  return stages.reduce<Fullest>(
    (most, stage) => {
      const vessel = largestServing(apparatusOf(step, vesselGroup(step, stages, stage)), settings);
      const need = (peaks.get(stage) ?? 0) / batches / (vessel.nominal * mostFill(step, stage, gassing, settings));
      return need > most.need ? { need, vessel } : most;
    },
    { need: 0, vessel: largestServing('', settings) },
  );
}

/** The apparatus of the stage that brings the vessel. */
function apparatusOf(step: Step, group: readonly Stage[]): string {
  const [first] = group;
  return (first && step.stages?.[first]?.apparatus) ?? '';
}

/** Whether what is stirred in one batch reaches the smallest fill of the vessel it lies in. Volumes are of all batches. */
export function stirs(step: Step, run: Volumes, batches: number, settings: Settings): boolean {
  const stages = STAGES.filter((stage) => run.peaks.has(stage));
  return stages.every((stage) => {
    const stirred = run.stirred.get(stage);
    if (stirred === undefined) return true;
    const vessel = vesselFor(vesselGroup(step, stages, stage), step, run, batches, settings);
    return vessel === null || stirred / batches >= settings.fill.least * vessel.nominal * (1 - 1e-9);
  });
}

/** Volume, vessel and fill of every stage of one batch. A vessel is kept until a stage starts in a new one. */
export function stageVolumes(
  step: Step,
  run: Volumes,
  batches: number,
  basis: Figure,
  settings: Settings,
): readonly StageVolume[] {
  const { peaks, stirred, runsOff, gassing } = run;
  const stages = STAGES.filter((stage) => peaks.has(stage));
  return stages.map((stage) => {
    const volume = (peaks.get(stage) ?? 0) / batches;
    const vessel = vesselFor(vesselGroup(step, stages, stage), step, run, batches, settings);
    const least = stirred.get(stage);
    const off = runsOff.get(stage);
    return {
      stage,
      volume: computed(`volume in the vessel, ${stage}`, volume, 'mL', 'sum of what is in the vessel', [basis]),
      stirred:
        least === undefined
          ? null
          : computed(`smallest volume stirred, ${stage}`, least / batches, 'mL', 'sum of what is in the vessel', [basis]),
      runsOff:
        off === undefined
          ? null
          : computed(`filtrate and washings, ${stage}`, off / batches, 'mL', 'sum of the liquids that run off', [basis]),
      vessel,
      fill: vessel ? volume / vessel.nominal : null,
      most: mostFill(step, stage, gassing, settings),
      least: settings.fill.least,
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

/**
 * The smallest vessel, built as the apparatus says, that keeps each stage of the group at or under its largest fill. Null
 * where none serves, and where no volume is known: an unknown volume fits no vessel.
 */
function vesselFor(
  group: readonly Stage[],
  step: Step,
  { peaks, gassing }: Filled,
  batches: number,
  settings: Settings,
): Vessel | null {
  const needed = group.reduce(
    (most, stage) => Math.max(most, (peaks.get(stage) ?? 0) / batches / mostFill(step, stage, gassing, settings)),
    0,
  );
  return needed > 0 ? vesselOf(apparatusOf(step, group), needed, settings) : null;
}

/** Half where the step says the stage is lively; where it says nothing, also where gas comes off. */
function mostFill(step: Step, stage: Stage, gassing: GasStages, settings: Settings): number {
  return (step.stages?.[stage]?.lively ?? gassing.has(stage)) ? settings.fill.lively : settings.fill.most;
}
