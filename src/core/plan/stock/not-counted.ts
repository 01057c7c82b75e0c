import type { Facts } from '../../matter/facts.ts';
import type { Bottle } from '../../shelf/shelf.ts';
import { assayPercent, containedMoles, whyNotUsable } from '../../shelf/usable.ts';
import { formWords } from '../../words/form-words.ts';
import type { Notice } from '../../words/notice.ts';
import type { PlanInput } from '../input.ts';
import type { Network } from '../network/network.ts';
import type { Starts } from '../solve/starts.ts';
import { leastAssayOfUses, ownersOf } from './route-stock.ts';

/** Why a bottle of what the route makes is not counted. */
type Why = 'out of date' | 'unknown strength' | 'assay too low' | 'a solution' | 'no moles';

/**
 * Bottles of what this plan makes anew, by their number or name, that it cannot count, each with why: nobody makes unknowingly
 * what stands on the shelf. What is held back was held back on purpose and is not told. Never fails.
 */
export function notCounted(
  input: PlanInput,
  network: Network,
  starts: Starts,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): readonly Notice[] {
  if (input.ask.useStock === false) return [];
  const made = [...network.makersOf].flatMap(([material, makers]) =>
    makers.some((i) => starts.steps[i]?.active) && bottles.has(material) ? [material] : [],
  );
  if (made.length === 0) return [];
  const owner = ownersOf(input, [...network.makersOf.keys()], bottles);
  const leastOf = leastAssayOfUses(network);
  return made.flatMap((material) =>
    (bottles.get(material) ?? []).flatMap((bottle): readonly Notice[] => {
      if (owner.get(bottle.id) !== material) return [];
      const why = whyNot(bottle, facts.get(material), leastOf.get(material) ?? 0, input);
      return why === null ? [] : [noticeOf(bottle, material, facts.get(material)?.name ?? material, why)];
    }),
  );
}

function whyNot(bottle: Bottle, facts: Facts | undefined, least: number, input: PlanInput): Why | null {
  const not = whyNotUsable(bottle, input.asOf, new Set(input.ask.holdBack ?? []));
  if (not === 'held back') return null;
  if (bottle.form.kind === 'solution') return 'a solution';
  if (not === 'unknown strength' || not === 'out of date') return not;
  if (assayPercent(bottle) < least) return 'assay too low';
  return facts && containedMoles(bottle, facts, input.reference) ? null : 'no moles';
}

function noticeOf({ id, lot, left, unit, form }: Bottle, material: string, name: string, why: Why): Notice {
  const bottle = lot ? `lot ${lot}` : id;
  const values = { material: name, bottle, amount: left, unit, form: formWords(form), why };
  return { level: 'assumption', code: 'stock not counted', values, at: { material, bottle: id } };
}
