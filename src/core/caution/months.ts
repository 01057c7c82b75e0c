/**
 * The day so many months after a day, as dates compare: "2026-11-30" and 3 give "2027-02-30", which lies between the 28th
 * and the 1st. @param day ISO date. @param months whole, 0 or more.
 */
export function monthsAfter(day: string, months: number): string {
  const [year = 0, month = 1] = day.split('-').map(Number);
  const all = year * 12 + (month - 1) + months;
  const text = (value: number, digits: number): string => String(value).padStart(digits, '0');
  return `${text(Math.floor(all / 12), 4)}-${text((all % 12) + 1, 2)}-${day.slice(8, 10)}`;
}
