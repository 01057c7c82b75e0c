/**
 * Hazard statements from the worst to the mildest, as somebody at a bench meets them: what kills or bursts, what
 * poisons, what harms for life, what burns skin and lungs, what burns of itself, what is suspected, what irritates.
 * Our own order over the classes of the CLP Regulation (EC) 1272/2008, Annex III; no source ranks them.
 */
const WORST_FIRST: readonly RegExp[] = [
  /^H3[013]0/,
  /^(H20|H24[01]|H23|EUH0(01|06|44))/,
  /^(H3[013]1|EUH0(29|31|32|70))/,
  /^(H340|H350|H360|H370|H372)/,
  /^(H314|H304|H334|EUH071)/,
  /^(H220|H222|H224|H242|H250|H251|H260|H27[01]|EUH0(14|18|19))/,
  /^(H341|H351|H361|H362|H371|H373)/,
  /^(H318|H22|H25|H26|H272)/,
  /^H3/,
  /^H2/,
  /^H4/,
];

/** Rank of a hazard statement, 0 the worst; an EUH code outside the table is the mildest. Of joined codes the worst. */
export function severityOf(code: string): number {
  const ranks = code.split('+').map((one) => {
    const rank = WORST_FIRST.findIndex((pattern) => pattern.test(one.trim()));
    return rank < 0 ? WORST_FIRST.length : rank;
  });
  return Math.min(...ranks);
}

/** Codes with the worst first; alike in rank, by code. */
export function worstFirst(codes: readonly string[]): string[] {
  return [...codes].sort((a, b) => severityOf(a) - severityOf(b) || (a < b ? -1 : a > b ? 1 : 0));
}
