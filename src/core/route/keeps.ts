import { parseNumberAlone } from '../quantity/parse.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import type { Hold, Keeps, Step } from './route.ts';
import { type TextField, type Written, wrong } from './text-field.ts';

/** Hours of the units that can be typed, the largest first. A month is none: it is not always as long. */
const UNITS = [
  { name: 'week', hours: 168, spelled: /^w(?:eeks?)?$/i },
  { name: 'day', hours: 24, spelled: /^d(?:ays?)?$/i },
  { name: 'h', hours: 1, spelled: /^h(?:ours?|rs?)?$/i },
] as const;

/** Ten years; what keeps longer needs no word. */
const MOST_HOURS = 87_600;

/** How long it keeps, without where: "3 days", "12 h". */
export function keepingTime({ hours }: Keeps): string {
  const unit = UNITS.find((one) => hours % one.hours === 0) ?? UNITS[2];
  const count = hours / unit.hours;
  return unit.name === 'h' ? `${count} h` : `${count} ${unit.name}${count === 1 ? '' : 's'}`;
}

/** As it is typed and printed: "3 days, in the fridge". */
export function keepsText(keeps: Keeps | undefined): string {
  if (!keeps) return '';
  return keeps.where === undefined ? keepingTime(keeps) : `${keepingTime(keeps)}, ${keeps.where}`;
}

/** A time with its unit, then where it keeps. */
const KEEPS = /^\s*([\d.,]+)\s*([a-z]+)(?:(?:\s*[,;:]\s*|\s+)(\S.*?))?\s*$/isu;

function readKeeps(text: string): Written<Keeps> {
  const found = KEEPS.exec(text);
  const unit = UNITS.find((one) => one.spelled.test(found?.[2] ?? ''));
  const count = parseNumberAlone(found?.[1] ?? '');
  if (!unit || !count.ok || !(count.value > 0)) return wrong(words.keeps);
  const hours = Number((count.value * unit.hours).toPrecision(12));
  if (hours > MOST_HOURS) return wrong(words.keepsLong);
  const where = found?.[3];
  return { ok: true, value: where === undefined ? { hours } : { hours, where } };
}

/** An empty text: not known, which is never for ever. */
function writeKeeps<T>(text: string, set: (value: Keeps | undefined) => T): Written<T> {
  if (text.trim() === '') return { ok: true, value: set(undefined) };
  const read = readKeeps(text);
  return read.ok ? { ok: true, value: set(read.value) } : read;
}

/** How long a step's product keeps, and where. */
export const KEEPS_FIELD: TextField<Step> = {
  name: 'keeps',
  kind: 'line',
  read: (of) => keepsText(of.keeps),
  write: (of, text) => writeKeeps(text, (value) => put(of, 'keeps', value)),
};

/** How long a mixture may stand after a hold, and where. */
export const STANDS_FIELD: TextField<Hold> = {
  name: 'stands',
  kind: 'line',
  read: (of) => keepsText(of.stands),
  write: (of, text) => writeKeeps(text, (value) => put(of, 'stands', value)),
};
