/** What stands on the shelf, bottle by bottle. */
export const onHandWords = {
  in: (amount: string, form: string, lot: string, bottle: string) =>
    `${amount}${form === '' ? '' : ` (${form})`} in ${lot === '' ? bottle : `lot ${lot}`}`,
  more: (count: number) => `${count} more ${count === 1 ? 'bottle' : 'bottles'}`,
} as const;
