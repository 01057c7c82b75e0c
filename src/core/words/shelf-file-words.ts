/** What is said of the ledgers in a shelf file. */
export const shelfFileWords = {
  sign: (kind: string) =>
    kind === 'used' || kind === 'discarded'
      ? `"${kind}" takes out: its change needs to be below zero`
      : `the change of "${kind}" needs to be ${kind === 'received' || kind === 'made' ? 'above zero' : 'other than zero'}`,
  undoneOnly: 'an undone line, and only that, needs the line it takes back',
  undoes: 'an undone line takes back exactly what an earlier line of this ledger did, and each of them once',
  belowZero: 'more is taken out here than was in the bottle',
  sum: (left: number, sum: number) => `the ledger needs to add up to what is left (left ${left}, ledger ${sum})`,
} as const;
