/** What is said of the ledgers in a shelf file. */
export const shelfFileWords = {
  sign: (kind: string) =>
    kind === 'used' || kind === 'discarded'
      ? `"${kind}" takes out: its change needs to be below zero`
      : `the change of "${kind}" needs to be ${kind === 'received' || kind === 'made' ? 'above zero' : 'other than zero'}`,
  undoneOnly: 'an undone line, and only that, needs the line it takes back',
  undoes: 'an undone line takes back exactly what an earlier line of this ledger did, and each of them once',
  into: (bottle: string) =>
    `only what was taken out goes into another bottle of this file, which something came into, and each bottle comes of one split or correction (got ${bottle})`,
  belowZero: 'more is taken out here than was in the bottle',
  sum: (left: number, sum: number) => `the ledger needs to add up to what is left (left ${left}, ledger ${sum})`,
  supplier: 'a supplier needs a name that no other has, capitals and blanks aside',
  moreThanOrdered: (open: number) => `no more comes of an order than was ordered (open ${open})`,
  orderBottles: (most: number) =>
    `as many bottles as packs came can have come of it, and none of what did not come or was taken back (at most ${most})`,
  orderBottle: 'what came of an order is a bottle of this file, and of one order only',
  editBottle: 'a change is of bottles of this file, each once',
  editFields: 'a change says the same fields before and after, one at least',
  editUndoes: 'a change takes back one further up in the list, which no other takes back',
} as const;
