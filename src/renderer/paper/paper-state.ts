import type { Paper } from '../../core/paper/paper.ts';

/** A paper with what the store added when it was issued; a preview has no revision yet. */
export interface ShownPaper {
  readonly paper: Paper;
  readonly state: PaperState;
}

export interface PaperState {
  /** "revision 14 · 25 Feb 2027, 10:42", or that it is a preview. */
  readonly words: string;
  /** For the foot of every page: "revision 14". */
  readonly short: string;
  readonly id: number | null;
  readonly revision: number;
  readonly issued: string;
}
