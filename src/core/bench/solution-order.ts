import type { Facts } from '../matter/facts.ts';
import type { Portion, SolutionPlan } from '../matter/make-solution.ts';
import { saturatedNotices } from '../matter/saturated-solution.ts';
import { anhydrousOf, dissolvedIn } from '../matter/solution-parts.ts';
import type { Reference } from '../reference.ts';
import type { Notice } from '../words/notice.ts';
import { incompatibilities } from './incompatible.ts';
import { isStrongAcid, isStrongBase, natureOf } from './nature.ts';

/** How a part goes in. */
export type Manner = 'first' | 'slowly' | 'in small portions' | 'in portions' | 'stirred in';

export type SolutionOperation =
  | {
      readonly do: 'put in';
      readonly part: 'source' | 'rest';
      readonly portion: Portion;
      readonly manner: Manner;
      readonly before: readonly Notice[];
    }
  /** The solvent to start with, where it is filled up to a mark later: about so much of the final volume. */
  | { readonly do: 'start with'; readonly partOfVolume: number; readonly before: readonly Notice[] }
  | { readonly do: 'let cool'; readonly celsius: number; readonly before: readonly Notice[] }
  | { readonly do: 'fill up'; readonly before: readonly Notice[] }
  | { readonly do: 'label'; readonly before: readonly Notice[] };

/** Of the final volume, to begin with when a solution is filled up to a mark. Common practice, no source. */
const START = 2 / 3;
/** Density tables and measures hold for this temperature, °C. */
const MEASURED_AT = 20;
/** A change by less, K, is not worth waiting for; from the second on it is said as a caution. Common practice, no source. */
const WORTH_COOLING = 5;
const WORTH_SAYING = 10;

/**
 * A solution in the order it is made: the solvent or the weaker solution first, the stronger into it (acid into water,
 * a solid in portions), cooled before a volume is read. Each caution stands immediately before its operation; a
 * temperature that is not known is said to be unknown, never taken as harmless.
 * @param plan a solution without a problem; where it has one there is nothing to do.
 */
export function solutionOrder(plan: SolutionPlan, reference: Reference): readonly SolutionOperation[] {
  if (plan.problem) return [];
  const first: SolutionOperation = plan.toTheMark
    ? { do: 'start with', partOfVolume: START, before: [] }
    : { do: 'put in', part: 'rest', portion: plan.rest, manner: 'first', before: [] };
  const operations: SolutionOperation[] = [
    first,
    {
      do: 'put in',
      part: 'source',
      portion: plan.source,
      manner: mannerOf(plan, reference),
      before: solutionCautions(plan, reference),
    },
  ];
  if (mustCool(plan)) operations.push({ do: 'let cool', celsius: MEASURED_AT, before: [] });
  if (plan.toTheMark) operations.push({ do: 'fill up', before: [] });
  return [...operations, { do: 'label', before: [] }];
}

function mannerOf(plan: SolutionPlan, reference: Reference): Manner {
  const { source } = plan.ask;
  const hot = !plan.heat.rise.ok || plan.heat.rise.figure.value >= WORTH_SAYING;
  if (isSolid(source.facts, source.form.kind)) return hot ? 'in small portions' : 'in portions';
  const nature = natureOf(anhydrousOf(source.facts, reference), reference);
  return hot || isStrongAcid(nature) || isStrongBase(nature) ? 'slowly' : 'stirred in';
}

function isSolid(facts: Facts, kind: 'neat' | 'solution' | 'unknown'): boolean {
  return kind === 'neat' && facts.state === 'solid';
}

function mustCool({ heat, toTheMark }: SolutionPlan): boolean {
  return toTheMark || !heat.rise.ok || Math.abs(heat.rise.figure.value) >= WORTH_COOLING;
}

/** What must be known before the source goes into the solvent or the weaker solution. */
export function solutionCautions(plan: SolutionPlan, reference: Reference): readonly Notice[] {
  const { source, form, weaker } = plan.ask;
  const solvent = dissolvedIn(form, reference);
  const substance = anhydrousOf(source.facts, reference);
  const nature = natureOf(substance, reference);
  const other = natureOf(solvent, reference);
  const notices: Notice[] = [];
  const say = (code: string, values: Notice['values'], level: Notice['level'] = 'caution'): number =>
    notices.push({ level, code, values, at: {} });
  const pair = { material: source.facts.name, other: solvent.name };
  const reasons = incompatibilities(nature, other);
  if (reasons.length > 0) say('not into this solvent', pair, 'error');
  for (const code of reasons) say(code, pair, 'error');
  if (other.water && isStrongAcid(nature)) say('acid slowly into water', { material: source.facts.name });
  else if (weaker) say('stronger into weaker', { material: source.facts.name });
  const solid = isSolid(source.facts, source.form.kind);
  if (solid && isStrongBase(nature)) say('dissolves hot', { material: source.facts.name });
  for (const notice of heatNotices(plan)) notices.push(notice);
  const { saturated } = plan.ask;
  if (saturated) notices.push(...saturatedNotices(source.facts, saturated, plan.millilitres.ok));
  else if (solid) say('solubility not checked', { material: source.facts.name }, 'note');
  return notices;
}

/** What is known of the temperature, in one sentence. */
function heatNotices({ ask, heat }: SolutionPlan): readonly Notice[] {
  const material = ask.source.facts.name;
  const notice = (code: string, values: Notice['values'], level: Notice['level'] = 'caution'): Notice => ({
    level,
    code,
    values,
    at: {},
  });
  const { rise, reached } = heat;
  if (!rise.ok || !reached.ok) return [notice('solution heat unknown', { material })];
  const values = { material, celsius: reached.figure.value, rise: Math.abs(rise.figure.value) };
  if (heat.boils === true) return [notice('solution boils', values)];
  if (rise.figure.value >= WORTH_SAYING) return [notice('solution gets hot', values)];
  return rise.figure.value <= -WORTH_COOLING ? [notice('solution gets cold', values, 'note')] : [];
}
