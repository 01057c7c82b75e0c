import type { ChargePlan, PlanResult } from '../../../core/plan/result.ts';
import { solutionWords as words } from '../../../core/words/solution-words.ts';
import { written } from '../../parts/quantity-text.ts';
import { goTo } from '../../state/place.ts';
import { route } from '../../state/plan-route.ts';
import { chosenStep } from '../../state/plan-view.ts';
import { solutionForCharge } from '../shelf/make-solution-draft.ts';
import { panel } from '../shelf/shelf-store.ts';

/** From a charge of a solution to making it: what the charge asks for is what is wanted there. */
export function MakeCharge({ charge, result }: { readonly charge: ChargePlan; readonly result: PlanResult }) {
  const { form } = charge;
  const material = route.value?.materials[charge.material];
  const amount = chargedAmount(charge);
  if (form.kind !== 'solution' || !material || amount === '') return null;
  // What stands on the shelf at its strength needs no making; another strength may still be taken for it.
  const mode = charge.supply.kind === 'bottles' ? 'replace' : 'make';
  const name = result.materials[charge.material]?.name ?? charge.material;
  const begin = (): void => {
    const step = chosenStep.value;
    const makeUp = charge.supply.kind === 'make up' ? charge.supply.makeUp : null;
    solutionForCharge({
      material,
      form,
      amount,
      mode,
      bottle: result.makeUps.find((one) => one.id === makeUp)?.parts[0]?.from.bottle ?? null,
      purpose: step ? words.wantedBy(step.number, step.title) : '',
      planName: result.name,
    });
    panel.value = { show: 'solution' };
    goTo('shelf');
  };
  return (
    <button
      type="button"
      class="text-button op-make"
      aria-label={(mode === 'make' ? words.fromChargeOf : words.otherStrengthOf)(name, charge.formWords)}
      onClick={begin}
    >
      {mode === 'make' ? words.fromCharge : words.otherStrength}
    </button>
  );
}

/** The amount of the charge as it would be typed, to four digits and never less than is needed. */
function chargedAmount(charge: ChargePlan): string {
  const figure = charge.total.by === 'volume' ? charge.millilitres : (charge.grams ?? charge.millilitres);
  if (!figure || !(figure.value > 0)) return '';
  const step = 10 ** (Math.floor(Math.log10(figure.value)) - 3);
  return written(Math.ceil(Number((figure.value / step).toPrecision(12))) * step, figure.unit);
}
