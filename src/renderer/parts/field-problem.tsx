import type { ParseProblem } from '../../core/quantity/parse.ts';

interface FieldProblemProps {
  readonly id: string;
  readonly text: string;
  readonly problem: Pick<ParseProblem, 'at' | 'words'>;
  /** What holds meanwhile, e.g. "still planned for 500 mg". */
  readonly stands?: string | undefined;
}

/** What is wrong with a typed text, pointing at the character. Floats under its field, so that nothing moves. */
export function FieldProblem({ id, text, problem, stands }: FieldProblemProps) {
  const at = Math.max(0, Math.min(problem.at, text.length));
  return (
    <span id={id} class="field-problem" role="alert">
      <span class="field-problem-text" aria-hidden="true">
        {text.slice(0, at)}
        <mark>{text.slice(at) || '\u00a0'}</mark>
      </span>
      <span>{problem.words}</span>
      {stands && <span class="field-problem-stands">{stands}</span>}
    </span>
  );
}
