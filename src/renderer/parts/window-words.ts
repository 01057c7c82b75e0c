import { windowText } from '../../core/paper/amounts.ts';
import type { TemperatureWindow } from '../../core/route/route.ts';
import { planWords } from '../../core/words/plan-words.ts';
import { decimalMark } from './locale.ts';

/** Temperature and time of an operation, e.g. "95–100 °C, about 90 min", "in an ice bath (usually 0–5 °C: …), over 30 min". */
export function windowWords(
  temperature: TemperatureWindow | null,
  minutes: number | null,
  timeWords: (minutes: string) => string,
): string {
  const parts = [
    temperature ? windowText(temperature, decimalMark) : '',
    minutes === null ? '' : timeWords(planWords.step.minutes(minutes)),
  ];
  return parts.filter((part) => part !== '').join(', ');
}
