import type { BenchInput } from '../bench/bench-section.ts';
import { runawayOf } from '../heat/runaway.ts';
import { freedGases } from '../quench/freed-gases.ts';
import { riseAtMost } from '../quench/all-at-once.ts';
import { neutraliseSection, STRONG_RISE } from '../quench/neutralise-section.ts';
import type { Stage } from '../route/route.ts';
import type { Why } from '../words/why.ts';

/** Why a stage should be no more than half full. */
export type LivelyWhy =
  | { readonly kind: 'said' }
  | { readonly kind: 'gas'; readonly gas: string }
  | { readonly kind: 'heat'; readonly kelvin: number }
  /** What is neutralised gives heat, and how much is not known. */
  | { readonly kind: 'unknown heat' };

/** What makes each stage foam, gas or grow hot, and why that is not known where it is not. */
export interface Liveliness {
  readonly reasons: ReadonlyMap<Stage, readonly LivelyWhy[]>;
  readonly unknown: readonly { readonly stage: Stage; readonly why: Why }[];
}

/**
 * Stages that the step says are lively, in which gas is freed (also where its amount is not known), and those whose heat
 * all at once would warm them by 50 K or more: the reaction, and what is neutralised; this also where its heat is not known and
 * could be so much.
 */
export function liveliness(of: BenchInput): Liveliness {
  const reasons = new Map<Stage, LivelyWhy[]>();
  const stageOf = new Map(of.step.operations.map((one) => [one.id, one.stage]));
  const add = (stage: Stage | undefined, why: LivelyWhy): void => {
    if (stage) reasons.set(stage, [...(reasons.get(stage) ?? []), why]);
  };
  for (const [stage, setting] of Object.entries(of.step.stages ?? {})) {
    if (setting?.lively) add(stage as Stage, { kind: 'said' });
  }
  for (const [operation, gas] of gasesBy(of)) add(stageOf.get(operation), { kind: 'gas', gas });
  const { rise, last } = runawayOf(of);
  if (last && rise.ok && rise.figure.value >= STRONG_RISE) add(last.stage, { kind: 'heat', kelvin: rise.figure.value });
  const unknown: { stage: Stage; why: Why }[] = last && !rise.ok ? [{ stage: last.stage, why: rise.why }] : [];
  for (const line of neutraliseSection(of)?.lines ?? []) {
    const { code, operation, shown } = line;
    const stage = operation === null ? undefined : stageOf.get(operation);
    if (!stage) continue;
    if (code === 'temperature' && riseAtMost(line) >= STRONG_RISE) add(stage, { kind: 'unknown heat' });
    if (shown.kind !== 'from to') continue;
    const kelvin = shown.to.value - shown.from.value;
    if (kelvin >= STRONG_RISE) add(stage, { kind: 'heat', kelvin });
  }
  return { reasons, unknown };
}

/** Operations at which gas comes off, with its name; nothing where none can. */
function gasesBy(of: BenchInput): readonly (readonly [string, string])[] {
  return freedGases(of).flatMap(({ operation, gas, stoichiometric }) =>
    stoichiometric.ok && stoichiometric.figure.value <= 0 ? [] : [[operation, gas.name] as const],
  );
}
