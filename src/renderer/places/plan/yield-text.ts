import { parseNumberAlone } from '../../../core/quantity/parse.ts';
import type { StepYield } from '../../../core/route/route.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import type { Read } from '../../parts/typed-field.tsx';

/** A yield as it is typed: `72`, or lowest / likeliest / highest as `35/55/70`; per cent of theory. */
export function readYield(text: string): Read<StepYield> {
  const parts = text.replace(/\s*%\s*$/, '').split('/');
  const numbers: number[] = [];
  let at = 0;
  for (const part of parts) {
    const read = parseNumberAlone(part);
    if (!read.ok) return { ...read, at: at + read.at };
    if (read.value > 100) return { ok: false, at, words: planWords.yield.over(read.value) };
    if (read.value <= 0) return { ok: false, at, words: planWords.yield.zero };
    numbers.push(read.value);
    at += part.length + 1;
  }
  const [lowest, likeliest, highest, ...more] = numbers;
  if (lowest !== undefined && likeliest === undefined) return { ok: true, value: lowest };
  if (lowest === undefined || likeliest === undefined || highest === undefined || more.length > 0) {
    return { ok: false, at: text.indexOf('/'), words: planWords.yield.three };
  }
  if (lowest > likeliest || likeliest > highest) return { ok: false, at: 0, words: planWords.yield.order };
  return { ok: true, value: { lowest, likeliest, highest } };
}

/** A yield as one would type it. */
export function writeYield(value: StepYield): string {
  const one = (percent: number): string => String(Number(percent.toPrecision(12))).replace('.', decimalMark);
  if (typeof value === 'number') return one(value);
  return [value.lowest, value.likeliest, value.highest].map(one).join('/');
}

/** One percent point up or down for an arrow key; the likeliest moves, inside its limits. */
export function stepYield(value: StepYield, by: number): StepYield {
  const within = (percent: number, low: number, high: number): number => Math.min(Math.max(percent, low), high);
  if (typeof value === 'number') return within(value + by, 1, 100);
  return { ...value, likeliest: within(value.likeliest + by, value.lowest, value.highest) };
}

export function sameYield(one: StepYield, other: StepYield): boolean {
  return writeYield(one) === writeYield(other);
}
