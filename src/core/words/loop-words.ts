interface InHand {
  readonly amount: { readonly text: string; readonly unit: string };
  readonly material: string;
  /** Numbers of the steps that make and take it. */
  readonly made: number;
  readonly used: number;
  /** Of the step that takes it. */
  readonly batches: number;
  /** What of it must be in hand, since it has not come back yet when its batch begins. */
  readonly ahead: { readonly text: string; readonly unit: string };
}

/** What goes round in a loop, and what of it must be in hand: "938 g of compound Q, from step 2 into step 1". */
export function inHandWords({ amount, material, made, used, batches, ahead }: InHand): string {
  const shared = batches > 1 ? ` over its ${batches} batches (${ahead.text} ${ahead.unit} of it in hand first)` : '';
  return `${amount.text} ${amount.unit} of ${material}, from step ${made} into step ${used}${shared}`;
}
