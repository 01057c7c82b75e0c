import { readingText } from '../../../../core/paper/amounts.ts';
import { formatAmount } from '../../../../core/quantity/format.ts';
import type { RunState } from '../../../../core/run/state.ts';
import { shiftTarget } from '../../../../core/run/target.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { run } from '../../../state/run-store.ts';

/** The basis came out different: what that would make of every charge that follows, before anything is changed. */
export function RescaleView({ factor, state }: { readonly factor: number; readonly state: RunState }) {
  const basis = run.value?.start.sheet.basis.grams ?? 0;
  const percent = `${(Math.abs(factor - 1) * 100).toPrecision(2).replace('.', decimalMark)} %`;
  const columns = words.rescale.columns;
  return (
    <>
      <h1 class="weigh-name">{words.acts.rescale}</h1>
      <p class="weigh-more">{words.rescale.text(grams(basis * factor), grams(basis), percent, factor > 1)}</p>
      <p class="weigh-more">{words.rescale.ask(factor.toPrecision(4).replace('.', decimalMark))}</p>
      <table class="weigh-scaled">
        <thead>
          <tr>
            <th scope="col">{columns.material}</th>
            <th scope="col">{columns.planned}</th>
            <th scope="col">{columns.scaled}</th>
          </tr>
        </thead>
        <tbody>
          {state.charges
            .filter((one) => !one.charge.isBasis && !one.complete)
            .map(({ charge }) => (
              <tr key={charge.id}>
                <th scope="row">{charge.name}</th>
                <td>{reading(charge.target, charge)}</td>
                <td>{charge.scales ? <b>{reading(shiftTarget(charge, factor).target, charge)}</b> : words.rescale.fixed}</td>
              </tr>
            ))}
        </tbody>
      </table>
    </>
  );
}

function grams(value: number): string {
  const { text, unit } = formatAmount({ value, unit: 'g', digits: 5 }, decimalMark);
  return `${text} ${unit}`;
}

function reading(value: number | null, { decimals, unit }: { readonly decimals: number; readonly unit: 'g' | 'mL' }): string {
  return value === null ? '' : readingText(value, unit, decimals, decimalMark);
}
