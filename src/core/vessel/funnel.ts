import { isFunnel } from '../plan/batches/vessel-build.ts';
import type { Settings } from '../plan/settings.ts';

/** The separating funnel for a volume: the smallest of the laboratory's list that leaves room to shake. */
export interface Funnel {
  /** Least nominal volume, mL. */
  readonly needed: number;
  /** Null where none of the list is large enough, or it has none. */
  readonly name: string | null;
  /** The largest of the list, with how many portions it takes; null where the list has none. */
  readonly largest: { readonly name: string; readonly portions: number } | null;
}

/**
 * @param millilitres both layers together, mL, > 0. @param fill largest fill, as a fraction of nominal.
 * @throws RangeError where the fill is not above 0.
 */
export function funnelFor(millilitres: number, fill: number, { vessels }: Pick<Settings, 'vessels'>): Funnel {
  if (!(fill > 0)) throw new RangeError(`funnelFor needs a fill above 0 (got ${fill})`);
  const needed = millilitres / fill;
  const funnels = vessels.filter(({ name }) => isFunnel(name) && /\bsep/i.test(name)).toSorted((a, b) => a.nominal - b.nominal);
  const able = funnels.find(({ nominal }) => nominal >= needed * (1 - 1e-9));
  const last = funnels.at(-1);
  const largest = last ? { name: last.name, portions: Math.ceil(needed / last.nominal - 1e-9) } : null;
  return { needed, name: able?.name ?? null, largest };
}
