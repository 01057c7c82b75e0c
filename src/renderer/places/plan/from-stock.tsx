import { useSignal } from '@preact/signals';
import type { BoughtLimit } from '../../../core/plan/bought-limits.ts';
import type { PlanInput } from '../../../core/plan/input.ts';
import { limitsOn, type MostTarget, mostTarget } from '../../../core/plan/most-target.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import { mostTargetWords } from '../../../core/words/most-target-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { Amount } from '../../parts/amount.tsx';
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
    <section class="from-stock" aria-label={words.title}>
      <button
        type="button"
        class="text-button"
        aria-expanded={open.value}
        onClick={() => {
          open.value = !open.value;
        }}
      >
        {open.value ? `${words.title} · ${words.close}` : words.open}
      </button>
      {open.value && <Question input={input} />}
    </section>
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
          {words.of}{' '}
          <select
            class="select"
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
      <legend>{words.limits}</legend>
      {limits.map(({ material, onHand, unit }) => {
        const shown = formatAmount({ value: onHand, unit, digits: 3 });
        return (
          <label key={material}>
            <input type="checkbox" checked={chosen.has(material)} onChange={() => onToggle(material)} />
            <span>{materialName(material)}</span>
            <span class="soft">{words.onHand(`${shown.text} ${shown.unit}`)}</span>
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
