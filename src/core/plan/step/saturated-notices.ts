import { knownSolubility } from '../../crystallise/known-solubility.ts';
import type { Facts } from '../../matter/facts.ts';
import { solventOf } from '../../matter/form.ts';
import { materialNamed } from '../../matter/named.ts';
import type { Reference } from '../../reference.ts';
import type { Charge, Step } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';

const ROOM = 20;

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
    const found = dissolvedAtRoom(facts, reference);
    const values = { material: facts.name, celsius: ROOM };
    if (!found) return [{ level: 'note', code: 'saturated: not known', values, at }];
    return [{ level: 'note', code: 'saturated: known', values: { ...values, ...found }, at }];
  });
}

function isSaturated({ note, form }: Charge): boolean {
  if (note === undefined || !/\bsaturated\b/i.test(note) || form?.kind === 'neat') return false;
  return form?.kind !== 'solution' || solventOf(form) === 'water';
}

/** Grams in 100 g of water, and in the millilitre of water; null where the table has no figure of that temperature. */
function dissolvedAtRoom(
  facts: Facts,
  reference: Reference,
): { readonly grams: number; readonly perMillilitre: number; readonly source: string } | null {
  const known = knownSolubility({ solvent: 'water', per: '100 g solvent', points: [] }, facts, reference);
  const point = known?.points.find(({ celsius }) => celsius === ROOM);
  const density = materialNamed('water', reference)?.density;
  if (!known?.row || !point || !density || known.per !== '100 g solvent') return null;
  const { source, mark } = known.row;
  return { grams: point.grams, perMillilitre: (point.grams / 100) * density, source: mark ? `${source}, ${mark}` : source };
}
