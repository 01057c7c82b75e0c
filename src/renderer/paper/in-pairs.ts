/** Signs of a line that stands beside another in half the width of a page without many breaks. */
const SHORT = 64;

/** Lines in their order as rows: two short ones side by side, a long one alone. */
export function inPairs(lines: readonly string[]): readonly (readonly [string] | readonly [string, string])[] {
  const rows: ([string] | [string, string])[] = [];
  let waiting: [string] | null = null;
  for (const line of lines) {
    if (line.length > SHORT) {
      rows.push([line]);
      waiting = null;
    } else if (waiting) {
      rows[rows.length - 1] = [waiting[0], line];
      waiting = null;
    } else {
      waiting = [line];
      rows.push(waiting);
    }
  }
  return rows;
}
