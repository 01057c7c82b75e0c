/** What the Plan place says. */
export const planWords = {
  edits: {
    undo: 'undo',
    redo: 'redo',
    other: 'change',
    amount: (product: string) => `amount of ${product}`,
    product: 'product of a draw',
    purpose: 'purpose of a draw',
    date: 'date of a draw',
    kept: 'use or keep',
    add: 'a draw added',
    remove: 'a draw taken away',
    yield: (step: string) => `yield of ${step}`,
    useStock: 'whether stock is counted',
    holdBack: 'bottles held back',
  },
} as const;
