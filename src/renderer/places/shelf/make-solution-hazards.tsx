import { hazardsOf } from '../../../core/bench/hazards.ts';
import type { SolutionPlan } from '../../../core/matter/make-solution.ts';
import type { Presented } from '../../../core/matter/solution-parts.ts';
import type { Reference } from '../../../core/reference.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { solutionWords } from '../../../core/words/solution-words.ts';
import { StatementList } from './statement-list.tsx';

const words = solutionWords.result;

/** Hazards of what is taken and of what is made: a strength can change them. */
export function SolutionHazards({ plan, tables }: { readonly plan: SolutionPlan; readonly tables: Reference }) {
  const { source, weaker, solute, form } = plan.ask;
  const all: readonly Presented[] = [source, ...(weaker ? [weaker] : []), { facts: solute, form }];
  return (
    <section aria-labelledby="solution-hazards">
      <h2 id="solution-hazards">{words.hazards}</h2>
      <div class="solution-hazards">
        {all.map((one, at) => (
          <HazardList key={at} of={one} tables={tables} />
        ))}
      </div>
    </section>
  );
}

function HazardList({ of, tables }: { readonly of: Presented; readonly tables: Reference }) {
  const hazards = hazardsOf(of.facts, of.form, tables);
  return (
    <div>
      <h3>
        {of.facts.name} {formWords(of.form)}
      </h3>
      {!hazards && <p>{words.noEntry}</p>}
      {hazards?.statements.length === 0 && <p>{words.noneListed}</p>}
      {hazards && hazards.statements.length > 0 && <StatementList codes={hazards.statements} tables={tables} />}
    </div>
  );
}
