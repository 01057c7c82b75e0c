import './from-stock.css';
import { useSignal } from '@preact/signals';
import type { BoughtLimit } from '../../../core/plan/forward/bought-limits.ts';
import type { PlanInput } from '../../../core/plan/input.ts';
import { limitsOn, type MostTarget, mostTarget } from '../../../core/plan/forward/most-target.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import { mostTargetWords } from '../../../core/words/most-target-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { planInput } from '../../state/plan-result.ts';
import { commitEdit } from '../../state/plan-store.ts';
import { materialName, setAmount } from './edits.ts';

const words = planWords.fromStock;

/** The reverse question: how much of a draw the stock that is chosen allows, what limits it, and what more would bring. */
export function FromStock() {
  const open = useSignal(false);
  const input = planInput.value;
  if (!input || input.ask.draws.length === 0) return null;
  return (
    <details
      class="fold from-stock"
      open={open.value}
      onToggle={(event) => {
        open.value = event.currentTarget.open;
      }}
    >
      <summary>{words.open}</summary>
      {open.value && <Question input={input} />}
    </details>
  );
}

function Question({ input }: { readonly input: PlanInput }) {
  const asked = useSignal('');
  const leftOut = useSignal<ReadonlySet<string>>(new Set());
  const { draws } = input.ask;
  const draw = draws.find((one) => one.id === asked.value) ?? draws[0];
  if (!draw) return null;
  const limits = limitsOn(input);
  const chosen = new Set(limits.map((limit) => limit.material).filter((material) => !leftOut.value.has(material)));
  const toggle = (material: string): void => {
    const next = new Set(leftOut.value);
    if (!next.delete(material)) next.add(material);
    leftOut.value = next;
  };
  return (
    <div class="from-stock-body">
      {draws.length > 1 && (
        <label class="from-stock-draw">
          <span class="soft">{words.of}</span>
          <select
            class="choice"
            value={draw.id}
            onChange={(event) => {
              asked.value = event.currentTarget.value;
            }}
          >
            {draws.map((one) => (
              <option key={one.id} value={one.id}>
                {[materialName(one.material), one.purpose].filter(Boolean).join(', ')}
              </option>
            ))}
          </select>
        </label>
      )}
      <Limits limits={limits} chosen={chosen} onToggle={toggle} />
      <Answer most={mostTarget(input, draw.id, chosen)} draw={draw.id} product={materialName(draw.material)} />
    </div>
  );
}

function Limits({
  limits,
  chosen,
  onToggle,
}: {
  readonly limits: readonly BoughtLimit[];
  readonly chosen: ReadonlySet<string>;
  readonly onToggle: (material: string) => void;
}) {
  if (limits.length === 0) return <p class="soft small">{words.noStock}</p>;
  return (
    <fieldset class="from-stock-limits">
      <legend>
        {words.limits} <span>{words.onHand}</span>
      </legend>
      {limits.map(({ material, onHand, unit }) => {
        const shown = formatAmount({ value: onHand, unit, digits: 3 }, decimalMark);
        return (
          <label key={material}>
            <input type="checkbox" checked={chosen.has(material)} onChange={() => onToggle(material)} />
            <span>{materialName(material)}</span>
            <Amount figure={null} text={shown.text} unit={shown.unit} aligned />
          </label>
        );
      })}
    </fieldset>
  );
}

function Answer({ most, draw, product }: { readonly most: MostTarget; readonly draw: string; readonly product: string }) {
  const take = (): void => {
    if (most.kind !== 'most') return;
    setAmount(draw, { value: roundedDown(most.grams.value), unit: 'g' });
    commitEdit();
  };
  return (
    <div class="from-stock-answer" aria-live="polite">
      {most.kind === 'most' && (
        <p>
          {words.most} <Amount figure={most.grams} size="large" /> {product}
        </p>
      )}
      {mostTargetWords(most).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      <p class="soft small">{words.basis}</p>
      {most.kind === 'most' && most.grams.value > 0 && (
        <button type="button" class="button" onClick={take}>
          {words.take}
        </button>
      )}
    </div>
  );
}

/** Four digits, never more than there is. */
function roundedDown(grams: number): number {
  const step = 10 ** (Math.floor(Math.log10(grams)) - 3);
  return Number((Math.floor(grams / step + 1e-9) * step).toPrecision(4));
}
