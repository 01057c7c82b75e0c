import { entered, type Figure, sourced } from '../quantity/figure.ts';
import { usualOf } from '../route/bath.ts';
import type { TemperatureWindow } from '../route/route.ts';
import { known, type Maybe, unknown } from '../words/why.ts';
import type { BenchInput } from './bench-section.ts';
import { momentsOf } from './moments.ts';

const DIGITS = 3;

/**
 * The upper end of a temperature window, °C: as the procedure gives it; of a bath's word what it usually comes to, with its
 * mark; at reflux the boiling point at 1 atm of the liquid there is most of, by mass.
 * @param operation its id. @returns why not, where what boils is not known.
 */
export function topOf(window: TemperatureWindow, operation: string, of: BenchInput): Maybe<'°C'> {
  if (!('bath' in window)) return known(entered('upper end of the window', window.to, '°C', 'the step', DIGITS));
  const usual = usualOf(window.bath);
  return usual
    ? known(sourced(`${window.bath}, usually`, usual.to, '°C', usual.source, DIGITS, usual.mark ?? undefined))
    : boilingOf(operation, of);
}

function boilingOf(operation: string, of: BenchInput): Maybe<'°C'> {
  const mixed = momentsOf(of).find((moment) => moment.operation === operation)?.mixed ?? [];
  const liquids = mixed.filter(({ facts, phase }) => facts.state === 'liquid' && phase !== 'gas' && phase !== 'solid');
  if (liquids.some(({ grams }) => grams === null)) return unknown('reflux not known');
  const [most] = liquids.toSorted((one, other) => (other.grams ?? 0) - (one.grams ?? 0));
  if (!most || most.facts.boilingPoint === null || most.grams === 0) return unknown('reflux not known');
  const label = `reflux, about the boiling point of ${most.facts.name}`;
  const figure: Figure<'°C'> = sourced(label, most.facts.boilingPoint, '°C', 'built-in table, at 1 atm', DIGITS, 'estimate');
  return known(figure);
}
