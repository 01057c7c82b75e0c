interface InHand {
  readonly amount: { readonly text: string; readonly unit: string };
  readonly material: string;
  /** Numbers of the steps that make and take it. */
  readonly made: number;
  readonly used: number;
  /** Of the step that takes it. */
  readonly batches: number;
}

/** What must be in hand before a loop can start: "938 g of compound Q, from step 2 into step 1". */
export function inHandWords({ amount, material, made, used, batches }: InHand): string {
  const shared = batches > 1 ? ` over its ${batches} batches` : '';
  return `${amount.text} ${amount.unit} of ${material}, from step ${made} into step ${used}${shared}`;
}
