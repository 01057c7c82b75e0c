import type { PlanResult } from '../../../../core/plan/result.ts';
import { planWords } from '../../../../core/words/plan-words.ts';
import { Amount } from '../../../parts/amount.tsx';
import { chooseStep } from '../../../state/plan-view.ts';
import { YieldField } from '../yield-field.tsx';

/** The cascade read as rows: the same figures, the same yields to edit. */
export function CascadeTable({ result, chosen }: { readonly result: PlanResult; readonly chosen: string | null }) {
  const words = planWords.cascade.table;
  const name = (key: string): string => result.materials[key]?.name ?? key;
  return (
    <table class="cascade-table">
      <caption class="unseen">{planWords.cascade.title}</caption>
      <thead>
        <tr>
          <th scope="col">{words.step}</th>
          <th scope="col">{words.from}</th>
          <th scope="col">{words.yield}</th>
          <th scope="col">{words.gives}</th>
          <th scope="col" class="number">
            {words.theory}
          </th>
        </tr>
      </thead>
      <tbody>
        {result.steps.map((step) => (
          <tr key={step.id} class={step.id === chosen ? 'chosen' : undefined}>
            <th scope="row">
              <button type="button" class="text-button" onClick={() => chooseStep(step.id)}>
                {step.number} · {step.title}
              </button>
            </th>
            <td>
              <Amount figure={step.basis.grams} /> {name(step.basis.material)}
            </td>
            <td>
              <YieldField step={step.id} title={step.title} />
            </td>
            <td>
              <Amount figure={step.product.grams} /> {name(step.product.material)}
            </td>
            <td class="number">
              <Amount figure={step.product.theory} aligned />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
