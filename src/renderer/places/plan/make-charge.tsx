import type { ChargePlan, PlanResult } from '../../../core/plan/result.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
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
  const step = chosenStep.value;
  // What stands on the shelf at its strength needs no making; another strength may still be taken for it.
  const mode = charge.supply.kind === 'bottles' ? 'replace' : 'make';
  const amount = mode === 'make' ? madeAmount(charge, step?.id ?? '', result) : chargedAmount(charge, 1);
  if (form.kind !== 'solution' || !material || amount === '') return null;
  const name = result.materials[charge.material]?.name ?? charge.material;
  const begin = (): void => {
    const { supply } = charge;
    const parts = supply.kind === 'make up' ? (result.makeUps.find((one) => one.id === supply.makeUp)?.parts ?? []) : [];
    const wanted = step ? words.wantedBy(step.number, step.title) : '';
    solutionForCharge({
      material,
      form,
      saturated: charge.saturated ?? false,
      amount,
      mode,
      // Here it is made from one bottle; that one of several would do alone is not said.
      bottle: parts.length === 1 ? (parts[0]?.from.bottle ?? null) : null,
      purpose: parts.length > 1 ? `${wanted} ${words.severalBottles(parts.length)}`.trim() : wanted,
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

/**
 * What is to be made: what the plan makes up for it, with the excess it reckons; else what its lists want of it, the charge
 * at its largest.
 */
function madeAmount(charge: ChargePlan, step: string, result: PlanResult): string {
  const { supply } = charge;
  const makeUp = supply.kind === 'make up' ? result.makeUps.find((one) => one.id === supply.makeUp) : undefined;
  const byVolume = charge.total.by === 'volume';
  if (makeUp) return upward(byVolume ? (makeUp.millilitres ?? makeUp.grams) : makeUp.grams, 1);
  const line = result.fetch.find(({ uses }) => uses.some((use) => use.step === step && use.operation === charge.id));
  const alike = line?.formWords === charge.formWords && line.unit === (byVolume ? 'mL' : 'g');
  return line && alike ? upward(line.peak, 1) : chargedAmount(charge, charge.atMost ?? 1);
}

/** The amount of the charge, so many times. */
function chargedAmount(charge: ChargePlan, times: number): string {
  return upward(charge.total.by === 'volume' ? charge.millilitres : (charge.grams ?? charge.millilitres), times);
}

/** An amount as it would be typed, to four digits and never less than is needed. */
function upward(figure: Figure<'g' | 'mL'> | null, times: number): string {
  const value = (figure?.value ?? 0) * times;
  if (!figure || !(value > 0)) return '';
  const step = 10 ** (Math.floor(Math.log10(value)) - 3);
  return written(Math.ceil(Number((value / step).toPrecision(12))) * step, figure.unit);
}
