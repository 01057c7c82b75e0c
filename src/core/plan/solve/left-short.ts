import type { Facts } from '../../matter/facts.ts';
import type { Notice } from '../../words/notice.ts';
import type { Network } from '../network/network.ts';
import { lostIn, netUse, type Want } from './needs.ts';
import type { Requirement } from './requirements.ts';
import type { Handover } from './share-out.ts';

export interface HandedOut {
  readonly network: Network;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly steps: readonly Requirement[];
  readonly wants: readonly Want[];
  readonly batches: readonly number[];
  readonly handovers: readonly Handover[];
}

/** What a sum of doubles may be off by, relative to what is asked, and to all that is handed out of the material. */
const OF_ASKED = 1e-9;
const OF_ALL = 3e-14;

/**
 * Made materials of which less is handed out than the plan's own draws and steps ask for: the answer of the starts,
 * looked at from the other side. A sound plan has none; one that has says so, and by how much.
 */
export function shortNotices(of: HandedOut): readonly Notice[] {
  const asked = sums(asking(of));
  const handed = sums(of.handovers.filter(({ to }) => to.kind !== 'left over'));
  // What stays behind in the flasks was made too, and its rounding with it.
  const lost = of.network.steps.map(({ product }, i) => ({ material: product, moles: lostIn(of, i) }));
  const all = sums(
    [...of.handovers, ...lost].map(({ material, moles }) => ({ material, moles, to: { kind: 'left over' } as const })),
  );
  return [...asked].flatMap(([key, { material, to, moles }]): readonly Notice[] => {
    const short = moles - (handed.get(key)?.moles ?? 0);
    const flow = all.get(`${material} left over`)?.moles ?? 0;
    if (!(short > OF_ASKED * moles + OF_ALL * flow)) return [];
    const facts = of.facts.get(material);
    const mass = facts?.molarMass?.value;
    const values = {
      material: facts?.name ?? material,
      amount: short * (mass ?? 1),
      unit: mass === undefined ? 'mol' : 'g',
      percent: (100 * short) / moles,
    };
    const step = to.kind === 'step' ? of.network.steps[to.step]?.id : undefined;
    return [{ level: 'error', code: 'left short', values, at: step === undefined ? { material } : { step, material } }];
  });
}

type Asked = Pick<Handover, 'material' | 'to' | 'moles'>;

/** Everything that draws and steps ask for of made materials. */
function asking({ network, steps, wants, batches }: HandedOut): readonly Asked[] {
  const draws = wants.map(({ material, moles }, draw): Asked => ({ material, to: { kind: 'draw', draw }, moles: moles.value }));
  const uses = network.steps.flatMap((_, step) =>
    [...new Set([...(network.charged[step]?.keys() ?? []), ...(network.fixed[step]?.keys() ?? [])])].map((material): Asked => {
      const start = steps[step]?.basisMoles.value ?? 0;
      const fixed = (network.fixed[step]?.get(material) ?? 0) * (batches[step] ?? 0);
      return { material, to: { kind: 'step', step }, moles: netUse(network, step, material) * start + fixed };
    }),
  );
  return [...draws, ...uses].filter(({ material, moles }) => network.makersOf.has(material) && moles > 0);
}

function sums(list: readonly Asked[]): ReadonlyMap<string, Asked> {
  const found = new Map<string, Asked>();
  for (const one of list) {
    const { material, to } = one;
    const taker = to.kind === 'step' ? `step ${to.step}` : to.kind === 'draw' ? `draw ${to.draw}` : to.kind;
    const key = `${material} ${taker}`;
    found.set(key, { ...one, moles: (found.get(key)?.moles ?? 0) + one.moles });
  }
  return found;
}
