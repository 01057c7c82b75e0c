import type { FileProblem, PortErrorCode } from '../../core/port/result.ts';

/**
 * Something the person must be told instead of an answer. Thrown, because inside a write it must also undo what the
 * write did so far.
 */
export class Refusal extends Error {
  readonly code: PortErrorCode;
  readonly problems: readonly FileProblem[];
  constructor(code: PortErrorCode, detail: string, problems: readonly FileProblem[] = []) {
    super(detail);
    this.code = code;
    this.problems = problems;
  }
}
