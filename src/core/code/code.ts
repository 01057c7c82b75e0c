/**
 * The codes this program prints, as text a scanner types. One short form of our own:
 *
 *     BW <kind> . <what it names> . <two check digits>        BWB.B-12.04   BWS.12.2-1.83
 *
 * The check digits tell a reading that lost a sign, and a scanner set to another keyboard than the desktop's.
 */
export type Code =
  /** The bottle with this label. */
  | { readonly kind: 'bottle'; readonly label: string }
  /** A sheet, such as "2-1", of an issued paper. */
  | { readonly kind: 'sheet'; readonly paper: number; readonly sheet: string };

export type CodeReading =
  | { readonly ok: true; readonly code: Code }
  /** It begins as one of ours and does not hold together. */
  | { readonly ok: false };

interface Kind<C extends Code> {
  readonly letter: string;
  readonly write: (code: C) => string;
  readonly read: (text: string) => C | null;
  /** As a person types it, without frame and check digits. */
  readonly typed: RegExp;
}

const KINDS: { readonly [K in Code['kind']]: Kind<Extract<Code, { kind: K }>> } = {
  bottle: {
    letter: 'B',
    // Put together as a keyboard types it: that is how it is read back.
    write: ({ label }) => label.normalize('NFC'),
    read: (text) => (text === '' || text.length > 80 ? null : { kind: 'bottle', label: text }),
    typed: /^B-\d{1,9}$/i,
  },
  sheet: {
    letter: 'S',
    write: ({ paper, sheet }) => `${paper}.${sheet}`,
    read: (text) => {
      const found = /^([1-9]\d{0,9})\.(\d{1,5}-\d{1,5})$/.exec(text);
      return found?.[1] && found[2] ? { kind: 'sheet', paper: Number(found[1]), sheet: found[2] } : null;
    },
    typed: /^S[1-9]\d{0,9}\.\d{1,5}-\d{1,5}$/i,
  },
};

const FRAME = /(?:^|\s)BW([A-Z])\.(.+)\.(\d\d)$/i;
/** Anything that begins as our frame does. */
const OURS = /(?:^|\s)BW[A-Z][.,:;\-_/]\S/i;

/** The text of a code, as it is printed in a square of dots. A label is at most 80 signs long. */
export function writeCode(code: Code): string {
  const { letter, body } =
    code.kind === 'bottle'
      ? { letter: KINDS.bottle.letter, body: KINDS.bottle.write(code) }
      : { letter: KINDS.sheet.letter, body: KINDS.sheet.write(code) };
  return `BW${letter}.${body}.${checkDigits(letter, body)}`;
}

/** What a person types for a sheet: "S12.2-1". */
export function typedCode(code: Extract<Code, { kind: 'sheet' }>): string {
  return `${KINDS.sheet.letter}${KINDS.sheet.write(code)}`;
}

/**
 * Reads what a scanner or a person typed.
 * @param text what stands in the field; a code may follow other words in it, since a scanner types where the cursor is.
 * @returns the code; not ok where it begins as one of ours and does not hold together; null where it is no code.
 */
export function readCode(text: string): CodeReading | null {
  const line = text.normalize('NFC').trim();
  const framed = FRAME.exec(line);
  if (framed) {
    const [, letter = '', scanned = '', digits = ''] = framed;
    // A frame in small letters: capitals and small letters are exchanged, or all are small. Capitals then tell nothing.
    const body = letter === letter.toUpperCase() ? scanned : [...scanned].map(capital).join('');
    const kind = Object.values(KINDS).find((one) => one.letter === letter.toUpperCase());
    const code = kind?.read(body) ?? null;
    return code && checkDigits(letter, body) === digits ? { ok: true, code } : { ok: false };
  }
  if (OURS.test(line)) return { ok: false };
  if (KINDS.sheet.typed.test(line)) return known(KINDS.sheet.read(line.slice(1)));
  return KINDS.bottle.typed.test(line) ? known(KINDS.bottle.read(line.toUpperCase())) : null;
}

const known = (code: Code | null): CodeReading => (code ? { ok: true, code } : { ok: false });

/** A text with the code at its end taken off: what stood in the field before the scanner typed into it. */
export function withoutCode(text: string): string {
  const at = text.search(/\s?BW[A-Z]\..+\.\d\d$/i);
  return at < 0 ? text : text.slice(0, at);
}

const MODULUS = 97;

/**
 * Sum of place × sign, modulo 97: a sign changed, lost or put in, or two neighbours exchanged, changes it nearly always.
 * Capitals and small letters count alike, since a scanner may type either. Our own; no standard.
 */
function checkDigits(letter: string, body: string): string {
  const signs = [...`${letter}.${body}`].map(capital);
  const sum = signs.reduce((all, sign, at) => (all + (at + 1) * (sign.codePointAt(0) ?? 0)) % MODULUS, 0);
  return String(sum).padStart(2, '0');
}

/** Its capital; itself where that is more than one sign (ß), which would move all that follow. */
function capital(sign: string): string {
  const upper = sign.toUpperCase();
  return [...upper].length === 1 ? upper : sign;
}
