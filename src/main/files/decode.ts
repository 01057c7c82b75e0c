// What a file is by its first bytes, whatever its name says, and its text by an encoding that is known or was asked for.
import type { Encoding } from '../../core/port/files.ts';
import { shelfImportWords } from '../../core/words/shelf-import-words.ts';
import { Refusal } from '../store/refusal.ts';

const words = shelfImportWords.file;

/** First bytes of files that are neither text nor a workbook. Sources: the formats' own specifications. */
const OTHER_KINDS: readonly (readonly [bytes: string, what: string])[] = [
  ['25504446', 'a PDF'],
  ['89504e47', 'a picture (PNG)'],
  ['ffd8ff', 'a picture (JPEG)'],
  ['47494638', 'a picture (GIF)'],
  ['7b5c727466', 'a formatted text (RTF)'],
  ['377abcaf271c', 'an archive (7z)'],
  ['526172211a07', 'an archive (RAR)'],
  ['1f8b08', 'a compressed file (gzip)'],
  ['53514c69746520666f726d6174203300', 'a database (SQLite)'],
  ['7f454c46', 'a program'],
];
/** Some programs write a page of the web and call it a workbook. */
const WEB_PAGE = /^(?:\u00ef\u00bb\u00bf)?\s*<(?:!doctype|html|head|meta|table|\?xml)\b/i;
const OLD_WORKBOOK = 'd0cf11e0a1b11ae1';
const ZIP = '504b0304';

/** What a file holds: a workbook, a text, or a shelf file of our own. */
export function kindOfFile(bytes: Uint8Array): 'xlsx' | 'text' {
  if (bytes.length === 0) throw new Refusal('refused', words.empty);
  const start = Buffer.from(bytes.subarray(0, 16)).toString('hex');
  if (start.startsWith(ZIP)) return 'xlsx';
  if (start.startsWith(OLD_WORKBOOK)) throw new Refusal('refused', words.oldWorkbook);
  const other = OTHER_KINDS.find(([sign]) => start.startsWith(sign));
  if (other) throw new Refusal('refused', words.otherKind(other[1]));
  if (WEB_PAGE.test(Buffer.from(bytes.subarray(0, 200)).toString('latin1')))
    throw new Refusal('refused', words.otherKind('a web page'));
  return 'text';
}

/** The encoding a text says itself: by its mark, or because it is strict UTF-8. Null where it must be asked. */
export function saidEncoding(bytes: Uint8Array): Encoding | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return 'utf-16le';
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return 'utf-16be';
  return bytes.includes(0) ? null : decoded(bytes, 'utf-8') === null ? null : 'utf-8';
}

/** Text in an encoding, its mark taken off; null where the bytes are none of it. */
export function decoded(bytes: Uint8Array, encoding: Encoding): string | null {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Text of the whole file, or the refusal that says why it is none. */
export function textOf(bytes: Uint8Array, encoding: Encoding): string {
  const text = decoded(bytes, encoding);
  if (text === null) throw new Refusal('refused', words.notEncoded(encoding.toUpperCase()));
  if (text.includes('\0')) throw new Refusal('refused', words.notText);
  return text;
}

const SAMPLE_LINES = 3;
const SAMPLE_LETTERS = 160;
/** So much of a file is looked at for lines in which encodings differ. */
const LOOKED_AT = 2_000_000;

/** The encodings a text may be in, the likeliest first, each with the lines in which they differ. */
export function encodingSamples(
  bytes: Uint8Array,
): readonly { readonly encoding: Encoding; readonly lines: readonly string[] }[] {
  const candidates: readonly Encoding[] = bytes.includes(0) ? wide(bytes) : ['windows-1252', 'windows-1250', 'macintosh'];
  const part = bytes.subarray(0, LOOKED_AT - (LOOKED_AT % 2));
  return candidates.flatMap((encoding) => {
    const text = decoded(part, encoding);
    const none = text === null || text.includes('\0') || (isWide(encoding) && !/[\n\r,;\t]/.test(text));
    return none ? [] : [{ encoding, lines: sampleLines(text) }];
  });
}

/** A table of two bytes a letter has line ends or separators: what has none is a text with NULs in it. */
const isWide = (encoding: Encoding): boolean => encoding.startsWith('utf-16');

/** Text of two bytes a letter has its NULs on one side only. */
function wide(bytes: Uint8Array): readonly Encoding[] {
  if (bytes.length % 2 === 1) return [];
  const counts: [even: number, odd: number] = [0, 0];
  for (let at = 0; at < Math.min(bytes.length, LOOKED_AT); at += 1) if (bytes[at] === 0) counts[at % 2 === 0 ? 0 : 1] += 1;
  const [even, odd] = counts;
  return odd >= even ? ['utf-16le', 'utf-16be'] : ['utf-16be', 'utf-16le'];
}

function sampleLines(text: string): readonly string[] {
  const lines = text.split(/\r\n|\r|\n/, 5000).filter((line) => line.trim() !== '');
  // oxlint-disable-next-line no-control-regex
  const telling = lines.filter((line) => /[^\u0000-\u007f]/.test(line));
  return (telling.length > 0 ? telling : lines).slice(0, SAMPLE_LINES).map((line) => around(line));
}

/** The part of a line in which something other than plain letters stands. */
function around(line: string): string {
  // oxlint-disable-next-line no-control-regex
  const at = Math.max(0, line.search(/[^\u0000-\u007f]/) - SAMPLE_LETTERS / 2);
  return line.slice(at, at + SAMPLE_LETTERS);
}
