import type { Stage } from '../route/route.ts';

/** What a line says besides material and amount: "dropwise", "wash with"; and the stage that means. */
export interface Said {
  /** The line without it, every other character at its place. */
  readonly text: string;
  readonly note: string | null;
  readonly stage: Stage | null;
}

/** Words that say when a charge belongs, with the stage they mean. */
const STAGE_WORDS: readonly { readonly pattern: RegExp; readonly stage: Stage }[] = [
  { pattern: /^reaction$/i, stage: 'reaction' },
  { pattern: /^quench/i, stage: 'quench' },
  { pattern: /^(?:work-?\s?up|wash|rins|extract|dr(?:y|ied))/i, stage: 'work-up' },
  { pattern: /^(?:re-?)?crystalli[sz]|^purif|^elut|^triturat/i, stage: 'purification' },
];

/** How a material was dried before it goes in is no stage: "dried over sodium", "dried at 150 °C" behind its amount. */
const WAS_DRIED = /^dried\b/i;
const stageOf = (word: string): Stage | null => STAGE_WORDS.find(({ pattern }) => pattern.test(word))?.stage ?? null;

const DONE = String.raw`wash(?:e[ds]|ings?)?|rins(?:e[ds]?|ing)|extract(?:ed|ion|ions)?|quench(?:ed|ing)?|(?:re-?)?crystalli[sz](?:ed?|ation)|triturat(?:ed?|ion)|elut(?:ed?|ion)`;
/** "wash with …", "recrystallised from …", "dry over …", "wash: …", "rinse 5 mL …". */
const LEADING = new RegExp(
  String.raw`^\s*(?:(${DONE}|dr(?:y|ied)|dissolved?|diluted?|suspend(?:ed)?)(?:\s+(?:with|from|in|over|using)\b(?:\s+a\s+mixture\s+of\b)?|\s*:|(?=\s+[\d(]))|add(?:ed)?\b|charged?\b(?:\s+with\b)?)\s*`,
  'i',
);
/** "ethanol wash 2 x 5 mL", "ethanol 2 x 5 mL wash". */
const BETWEEN = new RegExp(String.raw`(?<=\S)\s+(${DONE})(?=\s*(?:$|[:(]|\s\d))`, 'i');

/** A line without what is done with the material, said without a comma: a note, and the stage it means. */
export function withoutVerb(text: string): Said {
  const leading = LEADING.exec(text);
  const rest = leading ? ' '.repeat(leading[0].length) + text.slice(leading[0].length) : text;
  if (leading && /[\p{L}\d]/u.test(rest)) {
    const said = leading[1] === undefined ? null : leading[1].trim();
    return { text: rest, note: said, stage: stageOf(leading[1] ?? '') };
  }
  const between = BETWEEN.exec(text);
  if (!between) return { text, note: null, stage: null };
  const blank = text.slice(0, between.index) + ' '.repeat(between[0].length) + text.slice(between.index + between[0].length);
  return { text: blank, note: between[1] ?? null, stage: stageOf(between[1] ?? '') };
}

/** Words behind the last comma that hold no amount: a note, and the stage where they name one. */
export function withoutNote(text: string): Said {
  const tail = /[,;]\s*([^,;()\d]*[^\s,;()\d][^,;()\d]*)\s*$/.exec(text);
  const note = (tail?.[1] ?? '').trim();
  if (!tail || !/\p{L}{3}/u.test(note) || !/\d/.test(text.slice(0, tail.index))) return { text, note: null, stage: null };
  const earlier = withoutNote(text.slice(0, tail.index));
  const both = earlier.note === null ? note : `${earlier.note}, ${note}`;
  return { text: earlier.text, note: both, stage: (WAS_DRIED.test(note) ? null : stageOf(note)) ?? earlier.stage };
}
