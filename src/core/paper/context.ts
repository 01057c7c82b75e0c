import type { PlanResult, StepPlan } from '../plan/result.ts';
import type { Settings } from '../plan/settings.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { benchBefore } from '../caution/bench-before.ts';
import type { StepCautions } from '../caution/step-cautions.ts';
import type { BenchSection } from '../bench/bench-section.ts';
import { allBefore } from '../words/bench-before-words.ts';
import type { Notice } from '../words/notice.ts';
import { startText } from '../words/start-text.ts';
import type { Warning } from './sheet.ts';

/** What every paper is built from: a computed plan, how notices read, and what hazard codes say. */
export interface PaperContext {
  readonly result: PlanResult;
  readonly size: 'A4' | 'Letter';
  readonly mark: DecimalMark;
  /** The laboratory's balances and tolerances. */
  readonly settings: Settings;
  /** Column for a second person's initials. */
  readonly secondCheck: boolean;
  /** The sentence of a notice. */
  readonly say: (notice: Notice) => string;
  /** Sentence by hazard code. */
  readonly statements: ReadonlyMap<string, string>;
  /** The bench numbers of a step, for one batch. */
  readonly bench: (step: string) => readonly BenchSection[];
  /** Everything to be said before each operation of a step. */
  readonly cautions: (step: string) => StepCautions;
}

/** One batch of one step. `batch` counts from 1. */
export interface ChosenBatch {
  readonly step: string;
  readonly batch: number;
}

/** The step of that id. @throws where the plan has no such step: a choice that is older than the plan. */
export function stepOf(result: PlanResult, id: string): StepPlan {
  const found = result.steps.find((step) => step.id === id);
  if (!found) throw new RangeError(`the step needs to be in the plan (got ${id})`);
  return found;
}

/** Which start a list is for; nothing where nothing has to be started. */
export function startOf({ result, mark }: PaperContext): { readonly start?: string } {
  const start = startText(result, mark);
  return start === '' ? {} : { start };
}

/** The name a person knows a route material by; its key where the plan does not describe it. */
export function nameOf(result: PlanResult, material: string): string {
  return result.materials[material]?.name ?? material;
}

/** What must be known before an operation: all that was found, or where that was not looked for what the plan found. */
export function cautionsAt(
  { cautions }: PaperContext,
  step: StepPlan,
  operation: string,
  found: readonly Notice[],
): readonly Notice[] {
  return cautions(step.id).get(operation) ?? found;
}

/** What the plan says about one operation of a step, wherever it says it. */
export function noticesAt(result: PlanResult, step: StepPlan, operation: string): readonly Notice[] {
  const here = (notice: Notice) => notice.at.step === step.id && notice.at.operation === operation;
  return [...step.notices, ...result.notices].filter(here);
}

const KINDS = { error: 'caution', caution: 'caution', short: 'short', assumption: 'note', note: 'note' } as const;

/** Notices as the sentences that stand before an operation; the same sentence is not said twice. */
export function warningsOf(notices: readonly Notice[], say: (notice: Notice) => string): Warning[] {
  const warnings = notices.map((notice): Warning => ({ kind: KINDS[notice.level], words: say(notice) }));
  return warnings.filter((one, at) => one.words !== '' && warnings.findIndex((other) => other.words === one.words) === at);
}

/** What was found for one operation and the bench numbers that belong to it: all of it stands immediately before it. */
export function warningsAt(
  operation: string,
  step: StepPlan,
  { bench, mark, say, result }: PaperContext,
  found: readonly Notice[],
): Warning[] {
  const notices = [...found, ...noticesAt(result, step, operation)];
  return allBefore(notices, benchBefore(bench(step.id), operation, found), say, mark).map(
    ({ level, words }): Warning => ({ kind: level === 'number' ? 'note' : KINDS[level], words }),
  );
}
