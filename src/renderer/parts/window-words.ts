import { planWords } from '../../core/words/plan-words.ts';

/** Temperature and time of an operation, e.g. "95–100 °C, about 90 min". */
export function windowWords(
  temperature: { readonly from: number; readonly to: number } | null,
  minutes: number | null,
  timeWords: (minutes: string) => string,
): string {
  const parts = [
    temperature ? planWords.step.celsius(temperature.from, temperature.to) : '',
    minutes === null ? '' : timeWords(planWords.step.minutes(minutes)),
  ];
  return parts.filter((part) => part !== '').join(', ');
}
