export type WeighedLeft =
  | { readonly ok: true; readonly left: number }
  | { readonly ok: false; readonly why: 'no tare' | 'lighter than empty' | 'no density' };

interface Weighing {
  /** The bottle as it stands on the balance, with its cap, g. */
  readonly gross: number;
  /** The empty bottle with its cap, g; null where it is not known. */
  readonly tare: number | null;
  readonly unit: 'g' | 'mL';
  /** g/mL of what is in it, for a bottle that is kept by volume; null where it is not known. */
  readonly density: number | null;
}

/**
 * What is left in a bottle that was weighed, in its own unit: gross less tare, by density where it is kept by volume.
 * Nothing is supposed where the tare or the density is not known.
 */
export function weighedLeft({ gross, tare, unit, density }: Weighing): WeighedLeft {
  if (tare === null) return { ok: false, why: 'no tare' };
  // Both are read to a microgram at best: the noise of binary fractions is taken off at that grain.
  const net = Number((gross - tare).toFixed(6));
  if (net < 0) return { ok: false, why: 'lighter than empty' };
  if (unit === 'g') return { ok: true, left: net };
  return density === null ? { ok: false, why: 'no density' } : { ok: true, left: net / density };
}
