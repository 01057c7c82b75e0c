/** What every call across the port gives back: only plain data survives the bridge. */
export type PortResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly code: PortErrorCode; readonly detail: string; readonly problems?: readonly FileProblem[] };

export type PortErrorCode =
  | 'invalid input'
  | 'not found'
  | 'refused'
  | 'conflict'
  | 'storage'
  | 'not here'
  | 'unknown procedure'
  | 'internal';

/** One problem in a file or an input: where (JSON pointer) and what. */
export interface FileProblem {
  readonly at: string;
  readonly words: string;
}
