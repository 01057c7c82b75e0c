/** What is said of a code that was scanned or typed. */
export const scanWords = {
  misread: 'That code was misread. Scan it again; if it stays so, the scanner types for another keyboard than this one.',
  noBottle: (label: string) => `There is no bottle ${label} on the shelf.`,
  severalLabels: (labels: readonly string[]) =>
    `${labels.join(' and ')} differ in nothing a scanner tells: open the bottle from the list.`,
  noPaper: (paper: number) => `Paper ${paper} was not issued here.`,
  noSheet: (paper: number, sheet: string) => `Paper ${paper} has no sheet ${sheet} of a plan.`,
  noPlan: 'The plan of this sheet could not be opened.',
  chosen: (sheet: string) => `Sheet ${sheet} is chosen. Ctrl+Enter weighs it.`,
  changed: (sheet: string, revision: number) =>
    `Sheet ${sheet} was printed from revision ${revision}; the plan has been changed since.`,
  notNow: 'A bottle’s code is taken where something is weighed. Nothing was changed.',
  close: 'Close',
} as const;
