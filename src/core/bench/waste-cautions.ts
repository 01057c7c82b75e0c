import { grouped } from '../grouped.ts';
import type { Removal } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import { clashesOf } from './incompatible.ts';
import { inVessel, type Part, type Present, takeable, type VesselContext, WASHED_OUT } from './in-vessel.ts';
import { isOxidiser, natureOf } from './nature.ts';
import { isTaken } from './taken.ts';

/** Less than this part of what was charged is not counted as waste of a removal. */
const TRACE = 0.001;
/** Of the product of two removals, which binary arithmetic does not hit exactly. */
const ROUNDING = 1e-9;

/** What a removal's container must be kept from. */
export function removalCautions(removal: Removal, before: readonly Present[], input: VesselContext): readonly Notice[] {
  if (removal.wasteTo === undefined) return [];
  const waste = wasteOf(removal, before, input);
  const at = { step: input.step.id, operation: removal.id };
  const natures = (one: Present) => one.parts.map((part) => natureOf(part.facts, input.reference));
  const oxidisers = waste.filter((one) => natures(one).some(isOxidiser));
  const [oxidiser] = [...oxidisers].sort((one, other) => other.fraction - one.fraction);
  if (!oxidiser) return [];
  const values = { material: oxidiser.parts[0].name, container: removal.wasteTo };
  // Washed out before an organic liquid came: the waste is the liquid's, and traces of the oxidiser must not be in it.
  const liquid = waste.find((one) => one.liquid && one.fraction > WASHED_OUT && natures(one).some((nature) => nature.organic));
  if (oxidiser.fraction <= WASHED_OUT && liquid)
    return [{ level: 'caution', code: 'oxidiser in organic waste', values: { ...values, other: liquid.parts[0].name }, at }];
  return [{ level: 'caution', code: 'oxidising waste', values, at }];
}

/** What a removal takes away in more than traces. */
function wasteOf(removal: Removal, before: readonly Present[], input: VesselContext): readonly Present[] {
  const goes = (one: Present): boolean =>
    removal.takes.some((taken) => taken.percent > 0 && isTaken(taken.what, takeable(one, input.step)));
  return before.filter((one) => one.fraction > TRACE * (1 + ROUNDING) && goes(one));
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

/** Two substances, whichever comes first. */
const pairOf = (one: Part, other: Part): string => JSON.stringify([one.facts.name, other.facts.name].sort());

/** Pairs that leave a vessel together: they have met there, and their waste is that mixture. */
function togetherIn(held: readonly Waste[]): ReadonlySet<string> {
  const pairs = new Set<string>();
  for (const all of grouped(held, ({ operation, step }) => `${step}/${operation}`).values()) {
    for (const [index, one] of all.entries()) for (const other of all.slice(index + 1)) pairs.add(pairOf(one.part, other.part));
  }
  return pairs;
}

function conflictsIn(container: string, held: readonly Waste[], reference: VesselContext['reference']): readonly Notice[] {
  const notices = new Map<string, Notice>();
  const met = togetherIn(held);
  for (const [index, one] of held.entries()) {
    for (const other of held.slice(index + 1)) {
      if (one.part.facts.name === other.part.facts.name) continue;
      const clashes = clashesOf(one.part.facts, other.part.facts, reference);
      if (clashes.length === 0) continue;
      // What met in the vessel already and goes out with one removal was told of there, but for what burns or poisons.
      const pair = pairOf(one.part, other.part);
      const together = one.operation === other.operation || met.has(pair);
      const clash = clashes.find(({ severity, code }) =>
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
      notices.set(pair, { level, code: 'waste must not meet', values, at });
    }
  }
  return [...notices.values()];
}
