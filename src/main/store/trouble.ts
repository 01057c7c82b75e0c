/** Why the workbook could not be opened. */
export type Trouble =
  | { readonly kind: 'damaged'; readonly movedTo: string }
  | { readonly kind: 'missing'; readonly folder: string }
  | { readonly kind: 'newer'; readonly file: string; readonly version: number }
  | { readonly kind: 'not ours'; readonly file: string }
  | { readonly kind: 'network share'; readonly folder: string; readonly share: string }
  | { readonly kind: 'not writable'; readonly folder: string; readonly detail: string };
