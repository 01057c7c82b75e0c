import type { Facts } from '../../matter/facts.ts';
import { materialNamed } from '../../matter/named.ts';
import { isSaturated, SATURATED_CELSIUS, saturatedInWater } from '../../matter/saturated.ts';
import type { Reference } from '../../reference.ts';
import type { Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';

/**
 * Of every charge that is called saturated: how much of its solid 100 g of water dissolve at 20 °C, so that it can be made
 * up where none stands on the shelf; else that it is not known. Nothing of gases and liquids, and of other solvents.
 */
export function saturatedNotices(step: Step, factsOf: (material: string) => Facts, reference: Reference): readonly Notice[] {
  return step.operations.flatMap((operation): readonly Notice[] => {
    if (operation.do !== 'charge' || !isSaturated(operation)) return [];
    const facts = factsOf(operation.material);
    if (facts.state !== 'solid') return [];
    const at = { step: step.id, operation: operation.id, material: operation.material };
    const found = saturatedInWater(facts, reference);
    const density = materialNamed('water', reference)?.density;
    const values = { material: facts.name, celsius: SATURATED_CELSIUS };
    if (!found || !density) return [{ level: 'note', code: 'saturated: not known', values, at }];
    const { grams, source } = found;
    const told = { ...values, grams, perMillilitre: (grams / 100) * density, source };
    return [{ level: 'note', code: 'saturated: known', values: told, at }];
  });
}
