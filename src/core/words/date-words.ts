const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** A month as it is written everywhere. @param month 1 … 12; empty for any other. */
export function monthName(month: number): string {
  return MONTHS[month - 1] ?? '';
}

/** A day as it is written everywhere, from an ISO date: "25 Feb 2027"; what is no date stands as it is. */
export function dayWords(iso: string): string {
  const [year = '', month = '', day = ''] = iso.split('-');
  const name = monthName(Number(month));
  return name === '' ? iso : `${Number(day)} ${name} ${year}`;
}
