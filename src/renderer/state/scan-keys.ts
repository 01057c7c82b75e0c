import { readCode, withoutCode, type CodeReading } from '../../core/code/code.ts';

/** A scanner types a code as keys and ends it with Enter. What is typed after a longer pause is a new line. */
const LONGEST_PAUSE = 1500;
/** Our frame; from here on keys belong to the code and to nothing else. */
const FRAME = /^BW[A-Z]\./i;

interface Keys {
  readonly text: string;
  /** Moment of the last key, ms. */
  readonly at: number;
}

export const NO_KEYS: Keys = { text: '', at: 0 };

/** What a key makes of those before it. `ours`: it is part of a code, and no command may hear it. */
export function afterKey(before: Keys, key: string, now: number): { readonly keys: Keys; readonly ours: boolean } {
  if (key === 'Shift') return { keys: before, ours: false };
  if ([...key].length !== 1) return { keys: NO_KEYS, ours: false };
  const text = now - before.at > LONGEST_PAUSE ? key : `${before.text}${key}`;
  return { keys: { text: text.slice(-LONGEST_CODE), at: now }, ours: FRAME.test(text) };
}

const LONGEST_CODE = 120;

/** What stands where the scanner typed, and what remains there when the code is taken out. */
export interface Scanned {
  readonly reading: CodeReading;
  readonly rest: string;
}

/**
 * A code at the end of a field, or typed outside of all fields; null where there is none. In a field only our whole
 * frame counts: "B-12" there is what the field is for.
 */
export function scannedIn(text: string, inField: boolean): Scanned | null {
  if (inField && !/BW[A-Z][.,:;\-_/]/i.test(text)) return null;
  const reading = readCode(inField ? ` ${text.slice(text.search(/BW[A-Z][.,:;\-_/]/i))}` : text);
  return reading && { reading, rest: inField ? withoutCode(text) : '' };
}
