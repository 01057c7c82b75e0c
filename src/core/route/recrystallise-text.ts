import { parseNumberAlone } from '../quantity/parse.ts';
import { recrystalliseTyped as words } from '../words/recrystallise-words.ts';
import type { Recrystallise } from './route.ts';
import { wrong, type Written } from './text-field.ts';

const NUMBER = String.raw`[−-]?\d+(?:[.,]\d+)?`;
const SOLVENT = /^(?:from\s+)?(.+?)\s+per\s+100\s*(mL|g)(?:\s+(solvent|solution))?$/i;
const POINT = new RegExp(`^(${NUMBER})\\s*°?\\s*C\\s*:?\\s+(${NUMBER})\\s*g$`, 'i');
const BARE_SOLVENT = /^from\s+(.+)$/i;
const SETTING = new RegExp(`^(hot|cold|wash|excess|change)\\s+(?:at\\s+)?(${NUMBER})\\s*(°?\\s*C|mL/g|g/g|%)?$`, 'i');

const DEGREES = /^(?:°?\s*C)?$/i;
const UNITS = { hot: DEGREES, cold: DEGREES, change: DEGREES, wash: /^(?:mL\/g|g\/g)?$/i, excess: /^%?$/ } as const;
const [COLDEST, HOTTEST, MOST_EXCESS] = [-200, 1000, 1000];

/** As it is typed: "from water per 100 mL; 0 °C 0.53 g; 100 °C 5.5 g; hot 95 °C, cold 0 °C, wash 2". */
export function recrystalliseText(of: Recrystallise): string {
  return [
    of.points.length === 0 ? `from ${of.solvent}` : `from ${of.solvent} per ${of.per}`,
    ...of.points.map((point) => `${point.celsius} °C ${point.grams} g`),
    `hot ${of.hotCelsius} °C`,
    `cold ${of.coldCelsius} °C`,
    ...(of.changeCelsius === undefined ? [] : [`change ${of.changeCelsius} °C`]),
    ...(of.excessPercent === undefined ? [] : [`excess ${of.excessPercent} %`]),
    ...(of.washPerGram === undefined ? [] : [`wash ${of.washPerGram}`]),
    ...(of.source === undefined ? [] : [`source ${of.source}`]),
  ].join('; ');
}

/**
 * Reads a recrystallisation: parts between semicolons, commas with a space, or lines. The solvent with what the
 * solubilities are counted per comes first; hot and cold are needed. Only "from water" and no solubilities means those
 * of the built-in table.
 */
export function readRecrystallise(text: string): Written<Recrystallise> {
  const parts = [...text.matchAll(/[^;\n]+/g)].flatMap((match) => split(match[0], match.index));
  const [first, ...rest] = parts;
  const solvent = first ? readSolvent(first.text) : null;
  if (!first || !solvent) return wrong(words.solvent, first?.at ?? 0);
  const read: Read = { points: [], set: {} };
  for (const part of rest) {
    const problem = readPart(part.text, read);
    if (problem !== null) return wrong(problem, part.at);
  }
  if (read.points.length === 0 && solvent.per !== null) return wrong(words.points, 0);
  if (read.points.length > 0 && solvent.per === null) return wrong(words.per, 0);
  return whole(solvent.name, solvent.per ?? '100 g solvent', read);
}

interface Read {
  readonly points: Recrystallise['points'];
  readonly set: Partial<Record<'hot' | 'cold' | 'wash' | 'excess' | 'change', number>>;
  source?: string;
}

function readSolvent(text: string): { readonly name: string; readonly per: Recrystallise['per'] | null } | null {
  const counted = SOLVENT.exec(text);
  if (!counted) {
    const bare = /\sper\s/i.test(text) ? undefined : BARE_SOLVENT.exec(text)?.[1];
    return bare === undefined ? null : { name: bare, per: null };
  }
  const solution = counted[3]?.toLowerCase() === 'solution';
  const millilitres = counted[2]?.toLowerCase() === 'ml';
  if (millilitres && solution) return null;
  return { name: counted[1] ?? '', per: millilitres ? '100 mL solvent' : solution ? '100 g solution' : '100 g solvent' };
}

/** Takes one part into what was read; the words of what is wrong with it, or null. */
function readPart(text: string, read: Read): string | null {
  const point = POINT.exec(text);
  if (point) {
    const [celsius, grams] = [number(point[1]), number(point[2])];
    read.points.push({ celsius, grams });
    if (grams <= 0) return words.grams;
    return celsius < COLDEST || celsius > HOTTEST || grams > 1e5 ? words.range : null;
  }
  const setting = SETTING.exec(text);
  const name = setting?.[1]?.toLowerCase() as keyof Read['set'] | undefined;
  if (setting && name && UNITS[name].test(setting[3] ?? '')) {
    read.set[name] = number(setting[2]);
    return null;
  }
  if (!/^source\s/i.test(text)) return words.part(text);
  read.source = text.replace(/^source\s+/i, '');
  return null;
}

function whole(solvent: string, per: Recrystallise['per'], { points, set, source }: Read): Written<Recrystallise> {
  const { hot, cold, wash, excess, change } = set;
  if (hot === undefined || cold === undefined) return wrong(words.hotAndCold, 0);
  if (!(hot > cold) || cold < COLDEST || hot > HOTTEST) return wrong(words.hotOverCold, 0);
  if (wash !== undefined && !(wash > 0)) return wrong(words.wash, 0);
  if (excess !== undefined && !(excess > 0 && excess <= MOST_EXCESS)) return wrong(words.excess, 0);
  if (change !== undefined && !(change >= COLDEST && change <= HOTTEST)) return wrong(words.change, 0);
  if (per === '100 g solution' && points.some((point) => point.grams >= 100)) return wrong(words.wholeSolution, 0);
  return {
    ok: true,
    value: {
      solvent,
      per,
      points,
      hotCelsius: hot,
      coldCelsius: cold,
      ...(change === undefined ? {} : { changeCelsius: change }),
      ...(excess === undefined ? {} : { excessPercent: excess }),
      ...(wash === undefined ? {} : { washPerGram: wash }),
      ...(source === undefined ? {} : { source }),
    },
  };
}

interface Part {
  readonly text: string;
  readonly at: number;
}

/** Parts between a comma and a space: a decimal comma has none behind it. The source is taken whole. */
function split(text: string, at: number): readonly Part[] {
  if (/^\s*source\s/i.test(text)) return [{ text: text.trim(), at }];
  const parts: Part[] = [];
  let from = 0;
  for (const piece of text.split(/,\s+/)) {
    const trimmed = piece.trim();
    if (trimmed !== '') parts.push({ text: trimmed, at: at + text.indexOf(trimmed, from) });
    from += piece.length + 1;
  }
  return parts;
}

function number(text: string | undefined): number {
  const read = parseNumberAlone((text ?? '').replace('−', '-').replace('-', ''));
  const size = read.ok ? read.value : Number.NaN;
  return /^[−-]/.test(text ?? '') ? -size : size;
}
