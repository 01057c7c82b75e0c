import { canonicalJson } from '../canonical-json.ts';
import { factsOf } from '../matter/facts.ts';
import { NEAT } from '../matter/form.ts';
import type { FetchLine } from '../plan/result.ts';
import type { Pack } from '../shelf/pack.ts';
import { type BuyOption, chosenOption } from './buy-option.ts';
import { serviceFor } from './pack-service.ts';
import type { ShoppingInput, ShoppingLine } from './shopping.ts';

/** What a line could be made up from that is bought anyhow: told, never counted, since only a person decides to thin. */
export interface Thinned {
  /** Packs on order that are stronger than asked for. */
  readonly onOrder: readonly { readonly pack: Pack; readonly count: number }[];
  /** The order for another line whose left-over would do, and how much of it is needed, in that form and unit. */
  readonly leftOver: { readonly line: FetchLine; readonly option: BuyOption; readonly need: number } | null;
}

const NOTHING: Thinned = { onOrder: [], leftOver: null };

/** The lines with what those that have no pack as asked for could be made up from; what is left over is promised once. */
export function withThinned(
  lines: readonly ShoppingLine[],
  ordered: ReadonlyMap<string, readonly Pack[]>,
  input: ShoppingInput,
): readonly ShoppingLine[] {
  const promised = new Map<BuyOption, number>();
  return lines.map((one) => ({ ...one, thinned: thinnedFrom(one, lines, ordered, input, promised) }));
}

/** What a line could be made up from, of what is on order and of what the other lines buy; writes down what it is promised. */
function thinnedFrom(
  one: ShoppingLine,
  lines: readonly ShoppingLine[],
  ordered: ReadonlyMap<string, readonly Pack[]>,
  input: ShoppingInput,
  promised: Map<BuyOption, number>,
): Thinned {
  const material = input.route.materials[one.line.material];
  if (!material || one.toBuy <= 0 || one.coveredBy || chosenOption(one)) return NOTHING;
  const facts = factsOf(material, input.reference);
  const stronger = new Set(
    (ordered.get(one.line.material) ?? []).filter((pack) => serviceFor(one.line, facts, pack, input) === 'stronger'),
  );
  const onOrder = input.onOrder.filter(({ pack, count }) => count > 0 && stronger.has(pack));
  const [leftOver = null] = lines.flatMap((other) => {
    const option = other.line.material === one.line.material ? chosenOption(other) : null;
    const form = canonicalJson(option?.form ?? NEAT);
    const own = one.options.find((each) => each.service === 'stronger' && canonicalJson(each.form) === form);
    if (!option?.cover || !own || option.mixed || own.unit !== option.unit) return [];
    const free = option.cover.leftOver - (promised.get(option) ?? 0);
    return own.need > free ? [] : [{ line: other.line, option, need: own.need }];
  });
  if (leftOver) promised.set(leftOver.option, (promised.get(leftOver.option) ?? 0) + leftOver.need);
  return { onOrder, leftOver };
}
