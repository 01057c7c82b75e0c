/** The mass balance of a run: in its report, and on the screen after it. */
export const runBalanceWords = {
  title: 'Mass balance',
  charged: 'charged in all',
  product: 'of that product, all crops as weighed',
  back: 'of that basis got back, as weighed',
  rest: 'liquors, washings, waste and loss, by difference',
  over: 'more than was charged: wet still, or a charge was not recorded',
} as const;
