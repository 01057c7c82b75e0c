import { dayWords, monthName } from '../../core/words/date-words.ts';

/** A date as it is written on every screen and paper, from an ISO date or instant: "25 Feb 2027". */
export function dayText(iso: string): string {
  if (iso.includes('T')) {
    const at = new Date(iso);
    return Number.isNaN(at.getTime()) ? iso : dayOf(at);
  }
  return dayWords(iso);
}

/** An instant as it is written everywhere, the same whatever the desktop's language: "25 Feb 2027, 10:42". */
export function dayAndTime(iso: string): string {
  const at = new Date(iso);
  return Number.isNaN(at.getTime()) ? iso : `${dayOf(at)}, ${timeOf(at)}`;
}

/** An instant as a time of day; with its date before it where that was not today. */
export function clockTime(iso: string, now: Date = new Date()): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  return at.toDateString() === now.toDateString() ? timeOf(at) : dayAndTime(iso);
}

const dayOf = (at: Date): string => `${at.getDate()} ${monthName(at.getMonth() + 1)} ${at.getFullYear()}`;
const two = (value: number): string => String(value).padStart(2, '0');
const timeOf = (at: Date): string => `${two(at.getHours())}:${two(at.getMinutes())}`;
