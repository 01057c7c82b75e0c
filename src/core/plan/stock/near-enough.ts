import { computed, type Figure } from '../../quantity/figure.ts';
import type { Bottle } from '../../shelf/shelf.ts';
import type { Notice } from '../../words/notice.ts';
import type { Facts } from '../../matter/facts.ts';
import type { Network } from '../network/network.ts';
import type { Stock } from '../solve/needs.ts';
import type { Starting, Starts } from '../solve/starts.ts';

/**
 * Part of what its runs made that a material may lack and still be enough: half a unit in the third figure of an amount
 * (0.005 of 2.00) is what a sheet leaves unsaid, so a batch that came out as its sheet says may be off by that.
 */
const UNSAID = 2.5e-3;

export interface Near {
  readonly stock: readonly Stock[];
  readonly starts: Starts;
  readonly notices: readonly Notice[];
}

/**
 * Looks again at a plan some batches of which are run: where what is on the shelf from runs lacks less than a sheet leaves
 * unsaid, it counts as enough and no batch of milligrams is planned; what lacks is said.
 * @param start the starts for a stock.
 */
export function nearEnough(
  found: Near,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  start: (stock: readonly Stock[]) => Starting,
): Near {
  let near = found;
  for (const _ of network.steps) {
    const gaps = gapsOf(near, network, bottles);
    if (gaps.length === 0) return near;
    const stock = near.stock.map((one) => filled(one, gaps));
    const again = start(stock);
    // What is made for a purity that the shelf does not have is made whatever it lacks.
    if (!again.ok || gaps.some(({ material }) => madeOf(again.starts, network, material) > 0)) return near;
    near = { stock, starts: again.starts, notices: [...near.notices, ...gaps.map((gap) => noticeOf(gap, facts))] };
  }
  return near;
}

interface Gap {
  readonly material: string;
  readonly moles: number;
  readonly made: number;
  /** The bottle that counts for so much more. */
  readonly bottle: string;
}

function gapsOf({ stock, starts }: Near, network: Network, bottles: ReadonlyMap<string, readonly Bottle[]>): readonly Gap[] {
  return [...network.makersOf.keys()].flatMap((material): readonly Gap[] => {
    const moles = madeOf(starts, network, material);
    if (moles === 0) return [];
    const own = stock.flatMap((one) => {
      const bottle = one.material === material ? bottles.get(material)?.find(({ id }) => id === one.bottle) : undefined;
      const made = bottle ? (one.moles.value * madeIn(bottle)) / bottle.left : 0;
      return made > 0 ? [{ bottle: one.bottle, made, assay: one.assayPercent }] : [];
    });
    const made = own.reduce((sum, one) => sum + one.made, 0);
    const purest = own.toSorted((one, other) => other.assay - one.assay)[0];
    return purest && moles <= UNSAID * made ? [{ material, moles, made, bottle: purest.bottle }] : [];
  });
}

/** What all steps make of a material, mol. */
function madeOf({ steps }: Starts, network: Network, material: string): number {
  return (network.makersOf.get(material) ?? []).reduce((sum, i) => {
    const one = steps[i];
    if (!one?.active) return sum;
    if (network.steps[i]?.product === material) return sum + one.productMoles.value;
    return sum + (one.seconds.find((second) => second.material === material)?.moles.value ?? 0);
  }, 0);
}

/** What a bottle's ledger says was made into it, in its unit. */
function madeIn({ ledger = [] }: Bottle): number {
  return ledger.reduce((sum, { kind, change, undoes }) => {
    const counts = kind === 'made' || (undoes !== undefined && ledger[undoes]?.kind === 'made');
    return counts ? sum + change : sum;
  }, 0);
}

function filled(one: Stock, gaps: readonly Gap[]): Stock {
  const gap = gaps.find(({ material, bottle }) => material === one.material && bottle === one.bottle);
  if (!gap) return one;
  const how = 'what it holds, and what lacks: less than its sheet leaves unsaid';
  const moles: Figure<'mol'> = computed(one.moles.label, one.moles.value + gap.moles, 'mol', how, [one.moles]);
  return { ...one, moles };
}

function noticeOf({ material, moles, made }: Gap, facts: ReadonlyMap<string, Facts>): Notice {
  const one = facts.get(material);
  const values = {
    material: one?.name ?? material,
    amount: moles * (one?.molarMass?.value ?? 1),
    unit: one?.molarMass ? 'g' : 'mol',
    percent: (100 * moles) / made,
  };
  return { level: 'note', code: 'near enough', values, at: { material } };
}
