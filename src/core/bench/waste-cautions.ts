import type { Removal } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { clashesOf } from './incompatible.ts';
import { inVessel, type Part, type Present, takeable, type VesselContext } from './in-vessel.ts';
import { isOxidiser, natureOf } from './nature.ts';
import { isTaken } from './taken.ts';

/** Less than this part of what was charged is not counted as waste of a removal. */
const TRACE = 0.001;

/** What a removal's container must be kept from. */
export function removalCautions(removal: Removal, before: readonly Present[], input: VesselContext): readonly Notice[] {
  if (removal.wasteTo === undefined) return [];
  const oxidiser = wasteOf(removal, before, input)
    .flatMap((one) => one.parts)
    .find((part) => isOxidiser(natureOf(part.facts, input.reference)));
  if (!oxidiser) return [];
  const values = { material: oxidiser.name, container: removal.wasteTo };
  return [{ level: 'caution', code: 'oxidising waste', values, at: { step: input.step.id, operation: removal.id } }];
}

/** What a removal takes away in more than traces. */
function wasteOf(removal: Removal, before: readonly Present[], input: VesselContext): readonly Present[] {
  const goes = (one: Present): boolean =>
    removal.takes.some((taken) => taken.percent > 0 && isTaken(taken.what, takeable(one, input.step)));
  return before.filter((one) => one.fraction > TRACE && goes(one));
}

/** Something in a waste container, with the operation that brings it. */
interface Waste {
  readonly material: string;
  readonly part: Part;
  readonly step: string;
  readonly operation: string;
}

/** Waste streams of a whole route that would meet in one container and must not: by what is charged, formed and freed. */
export function wasteConflicts(inputs: readonly VesselContext[]): readonly Notice[] {
  const containers = new Map<string, Waste[]>();
  for (const input of inputs) {
    const vessel = inVessel(input);
    input.step.operations.forEach((operation, index) => {
      if (operation.do !== 'removal' || operation.wasteTo === undefined) return;
      const held = containers.get(operation.wasteTo) ?? [];
      for (const one of wasteOf(operation, vessel[index]?.before ?? [], input)) {
        const place = { material: one.material, step: input.step.id, operation: operation.id };
        held.push(...one.parts.map((part) => ({ ...place, part })));
      }
      containers.set(operation.wasteTo, held);
    });
  }
  const reference = inputs[0]?.reference;
  return reference ? [...containers].flatMap(([container, held]) => conflictsIn(container, held, reference)) : [];
}

function conflictsIn(container: string, held: readonly Waste[], reference: VesselContext['reference']): readonly Notice[] {
  const notices = new Map<string, Notice>();
  for (const [index, one] of held.entries()) {
    for (const other of held.slice(index + 1)) {
      if (one.part.facts.name === other.part.facts.name) continue;
      // What met in the vessel already and goes out with one removal was told of there, but for what burns or poisons.
      const together = one.operation === other.operation;
      const clash = clashesOf(one.part.facts, other.part.facts, reference).find(({ severity, code }) =>
        together ? severity === 'apart' && code !== 'reacts with water' : severity !== 'warm',
      );
      if (!clash) continue;
      const values = {
        container,
        one: one.part.name,
        other: other.part.name,
        reason: clash.code,
        gives: clash.gives.join(' '),
        groups: clash.groups.map((pair) => pair.join('–')).join(', '),
      };
      const at = { step: other.step, operation: other.operation };
      const level = clash.severity === 'apart' ? 'error' : 'caution';
      notices.set(`${one.part.name}/${other.part.name}`, { level, code: 'waste must not meet', values, at });
    }
  }
  return [...notices.values()];
}
