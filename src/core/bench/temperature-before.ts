import { entered } from '../quantity/figure.ts';
import { known, type Maybe } from '../words/why.ts';
import type { BenchInput } from './bench-section.ts';
import { topOf } from './window-top.ts';

/** °C, where nothing hotter is said. */
const ROOM_CELSIUS = 20;
const DIGITS = 3;

/** What a step says of the temperature of its vessel when a charge goes in. */
export interface TemperatureBefore {
  readonly from: Maybe<'°C'>;
  /** True where the charge has no window of its own and the stage before it was hotter than the room. */
  readonly carried: boolean;
}

/**
 * The temperature from which a charge that goes in all at once warms what is in the vessel, °C: the upper end of its
 * own window; else that of the last window before it, where that is above 20 °C, since nothing says that it was cooled;
 * else 20 °C. A separation or a drying ends what was hot. @param charge its id; an unknown one has the room's.
 * @returns why not, where it comes from reflux and what boils there is not known.
 */
export function temperatureBefore(of: BenchInput, charge: string): TemperatureBefore {
  let last = room();
  for (const operation of of.step.operations) {
    if (operation.do === 'removal') {
      if (operation.how === 'separate' || operation.how === 'dry') last = room();
      continue;
    }
    const { temperature } = operation;
    const top = temperature && topOf(temperature, operation.id, of);
    if (operation.id === charge) return top ? { from: top, carried: false } : carriedOver(last);
    if (top) last = temperature && 'bath' in temperature && temperature.bath === 'room temperature' ? room() : top;
  }
  return { from: room(), carried: false };
}

function carriedOver(last: Maybe<'°C'>): TemperatureBefore {
  const hot = !last.ok || last.figure.value > ROOM_CELSIUS;
  return hot ? { from: last, carried: true } : { from: room(), carried: false };
}

function room(): Maybe<'°C'> {
  return known(entered('temperature before', ROOM_CELSIUS, '°C', 'taken as room temperature', DIGITS));
}
