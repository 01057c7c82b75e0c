import { computed, entered, type Figure } from '../quantity/figure.ts';

/** What is added slowly into what: one batch. */
export interface Feed {
  /** In the vessel before the addition, g, ≥ 0. */
  readonly before: Figure<'g'>;
  /** Added, g, > 0. */
  readonly added: Figure<'g'>;
}

interface Runaway {
  /** Temperature at which the reaction is run, °C. */
  readonly process: Figure<'°C'>;
  /** Adiabatic rise of the whole reaction in the whole mixture, K. */
  readonly rise: Figure<'K'>;
  /** Largest part of the heat held back, %; null where it is not known, which counts as all of it. */
  readonly accumulation: Figure<'%'> | null;
  /** Null where everything is in the vessel from the start: then all of the heat can come at once. */
  readonly feed: Feed | null;
}

/**
 * Highest temperature the reaction alone can reach when cooling is lost (MTSR), °C:
 *
 *     MTSR = T_p + X·ΔT_ad·(m_final ÷ m_t)
 *
 * No more can be held back than has been added: with a part x of it added at most x of the heat is there, in
 * m_t = m_before + x·m_added. The sum is largest at x = X, and that is what is given. A rise below 0 leaves T_p.
 * Source: Stoessel, Chem. Eng. Prog. 89 (1993) No. 10, 68; Thermal Safety of Chemical Processes (2008), chapter 3.
 */
export function highestOfSynthesis({ process, rise, accumulation, feed }: Runaway): Figure<'°C'> {
  const held = feed && accumulation ? accumulation : allOfIt(accumulation !== null);
  if (!(held.value >= 0 && held.value <= 100))
    throw new RangeError(`highestOfSynthesis needs an accumulation of 0 to 100 % (got ${held.value} %)`);
  const part = held.value / 100;
  const lean = feed ? thinner(feed, part) : 1;
  const value = process.value + Math.max(0, part * rise.value * lean);
  const of: Figure[] = [process, held, rise, ...(feed ? [feed.before, feed.added] : [])];
  const how = 'process temperature + accumulation × adiabatic rise × final mass ÷ mass at that time, at its largest';
  return computed('highest temperature of the synthesis reaction', value, '°C', how, of);
}

/** m_final ÷ m_t when the part x has been added; what is fed into an empty vessel is never thinner than itself. */
function thinner({ before, added }: Feed, part: number): number {
  const now = before.value + part * added.value;
  return now > 0 ? (before.value + added.value) / now : 1;
}

function allOfIt(entersAtOnce: boolean): Figure<'%'> {
  const where = entersAtOnce ? 'all of it is in at once' : 'not known, so it counts as all of it';
  return entered('accumulation', 100, '%', where);
}
