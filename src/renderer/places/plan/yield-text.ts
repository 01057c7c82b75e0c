import { parseNumberAlone } from '../../../core/quantity/parse.ts';
import type { StepYield } from '../../../core/route/route.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import type { Read } from '../../parts/typed-field.tsx';

const PER_CENT = /\s*%\s*$/;

/**
 * A yield as it is typed: `72`, or lowest / likeliest / highest as `35/55/70`; per cent of theory. A fraction such as
 * `0.72` is a question, never a guess, unless the per cent sign is typed behind it.
 */
export function readYield(text: string): Read<StepYield> {
  const sure = PER_CENT.test(text);
  const parts = text.replace(PER_CENT, '').split('/');
  const numbers: number[] = [];
  let at = 0;
  for (const part of parts) {
    const read = parseNumberAlone(part, planWords.yield.what);
    if (!read.ok) return { ...read, at: at + read.at };
    if (read.value > 100) return { ok: false, at, words: planWords.yield.over(read.value) };
    // A step may fail altogether; but nothing can be planned with nothing as its likeliest.
    const mayFail = read.value === 0 && numbers.length === 0 && parts.length === 3;
    if (read.value <= 0 && !mayFail) return { ok: false, at, words: planWords.yield.zero };
    if (!sure && !mayFail && mayBeFraction(part, read.value)) {
      return { ok: false, at, words: planWords.yield.fraction(written(read.value), written(read.value * 100)) };
    }
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

/** `1` may be on its way to `15`; `1.0` may be all of it. */
function mayBeFraction(part: string, value: number): boolean {
  return value < 1 || (value === 1 && /[.,]/.test(part));
}

const written = (percent: number): string => String(Number(percent.toPrecision(12))).replace('.', decimalMark);

/** A yield as one would type it: with the per cent sign where it could be taken for a fraction. */
export function writeYield(value: StepYield): string {
  const all = typeof value === 'number' ? [value] : [value.lowest, value.likeliest, value.highest];
  return `${all.map(written).join('/')}${all.some((one) => one < 1) ? ' %' : ''}`;
}

/** A yield as it stands beside its per cent sign. */
export const withoutSign = (text: string): string => text.replace(PER_CENT, '');

/** One percent point up or down for an arrow key; the likeliest moves, inside its limits. */
export function stepYield(value: StepYield, by: number): StepYield {
  const within = (percent: number, low: number, high: number): number => Math.min(Math.max(percent, low), high);
  if (typeof value === 'number') return within(value + by, 1, 100);
  return { ...value, likeliest: within(value.likeliest + by, value.lowest || 1, value.highest) };
}

export function sameYield(one: StepYield, other: StepYield): boolean {
  return writeYield(one) === writeYield(other);
}
