import { parseNumberAlone } from '../quantity/parse.ts';
import { recrystalliseTyped as words } from '../words/recrystallise-words.ts';
import type { Recrystallise } from './route.ts';
import { wrong, type Written } from './text-field.ts';

const NUMBER = String.raw`[−-]?\d+(?:[.,]\d+)?`;
const SOLVENT = /^(?:from\s+)?(.+?)\s+per\s+100\s*(mL|g)(?:\s+(solvent|solution))?$/i;
const POINT = new RegExp(`^(${NUMBER})\\s*°?\\s*C\\s*:?\\s+(${NUMBER})\\s*g$`, 'i');
const SETTING = new RegExp(`^(hot|cold|wash)\\s+(${NUMBER})\\s*(?:°?\\s*C|mL/g|g/g)?$`, 'i');

/** As it is typed: "from water per 100 mL; 0 °C 0.53 g; 100 °C 5.5 g; hot 95 °C, cold 0 °C, wash 2". */
export function recrystalliseText(of: Recrystallise): string {
  return [
    `from ${of.solvent} per ${of.per}`,
    ...of.points.map((point) => `${point.celsius} °C ${point.grams} g`),
    `hot ${of.hotCelsius} °C`,
    `cold ${of.coldCelsius} °C`,
    ...(of.washPerGram === undefined ? [] : [`wash ${of.washPerGram}`]),
    ...(of.source === undefined ? [] : [`source ${of.source}`]),
  ].join('; ');
}

/**
 * Reads a recrystallisation: parts between semicolons, commas with a space, or lines. The solvent with what the
 * solubilities are counted per comes first; hot and cold are needed.
 */
export function readRecrystallise(text: string): Written<Recrystallise> {
  const parts = [...text.matchAll(/[^;\n]+/g)].flatMap((match) => split(match[0], match.index));
  const [first, ...rest] = parts;
  const solvent = SOLVENT.exec(first?.text ?? '');
  if (!first || !solvent) return wrong(words.solvent, first?.at ?? 0);
  const points: Recrystallise['points'] = [];
  const set: Partial<Record<'hot' | 'cold' | 'wash', number>> = {};
  let source: string | undefined;
  for (const part of rest) {
    const point = POINT.exec(part.text);
    const setting = SETTING.exec(part.text);
    if (point) points.push({ celsius: number(point[1]), grams: number(point[2]) });
    else if (setting) set[setting[1]?.toLowerCase() as 'hot'] = number(setting[2]);
    else if (/^source\s/i.test(part.text)) source = part.text.replace(/^source\s+/i, '');
    else return wrong(words.part(part.text), part.at);
    if (point && number(point[2]) <= 0) return wrong(words.grams, part.at);
    if (point && (number(point[1]) < -200 || number(point[1]) > 1000 || number(point[2]) > 1e5))
      return wrong(words.range, part.at);
  }
  const { hot, cold, wash } = set;
  if (points.length === 0) return wrong(words.points, 0);
  if (hot === undefined || cold === undefined) return wrong(words.hotAndCold, 0);
  if (!(hot > cold) || cold < -200 || hot > 1000) return wrong(words.hotOverCold, 0);
  if (wash !== undefined && !(wash > 0)) return wrong(words.wash, 0);
  const per =
    solvent[2]?.toLowerCase() === 'ml'
      ? '100 mL solvent'
      : solvent[3]?.toLowerCase() === 'solution'
        ? '100 g solution'
        : '100 g solvent';
  if (per === '100 g solution' && points.some((point) => point.grams >= 100)) return wrong(words.wholeSolution, 0);
  return {
    ok: true,
    value: {
      solvent: solvent[1] ?? '',
      per,
      points,
      hotCelsius: hot,
      coldCelsius: cold,
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
