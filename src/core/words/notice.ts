/**
 * What the program has to say about a plan, as a code with its values. The sentence is made in words/sentences.ts,
 * so that the core computes and the words can be translated.
 */
export interface Notice {
  readonly level: 'error' | 'caution' | 'short' | 'assumption' | 'note';
  readonly code: string;
  readonly values: Readonly<Record<string, string | number>>;
  readonly at: Place;
}

/** Where a notice belongs. The most particular place that is known. */
export interface Place {
  readonly step?: string;
  readonly operation?: string;
  readonly material?: string;
  readonly bottle?: string;
  readonly draw?: string;
}
