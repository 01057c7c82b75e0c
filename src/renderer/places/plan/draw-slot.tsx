import './target.css';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Draw } from '../../../core/plan/ask.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { QuantityField } from '../../parts/quantity-field.tsx';
import { written } from '../../parts/quantity-text.ts';
import { commitEdit } from '../../state/plan-store.ts';
import { pointed } from '../../state/plan-view.ts';
import {
  changeDraw,
  clearOfDraw,
  DRAW_UNITS,
  materialName,
  planField,
  productsOf,
  removeDraw,
  setAmount,
  shownAmount,
} from './edits.ts';

/** One draw, standing where its band arrives: how much, of what, what for, by when. Always equally tall. */
export function DrawSlot({ draw, top }: { readonly draw: Draw; readonly top: number }) {
  const words = planWords.target;
  const name = materialName(draw.material);
  const amount = shownAmount(draw);
  const slot = useRef<HTMLLIElement>(null);
  const lit = pointed.value?.draw === draw.id;
  useLayoutEffect(() => {
    if (lit) slot.current?.querySelector('input')?.focus();
  }, [lit]);
  return (
    <li
      ref={slot}
      class={`draw${lit ? ' lit' : ''}`}
      style={{ top: `${top}px` }}
      onFocusOut={(event) => {
        if (lit && !event.currentTarget.contains(event.relatedTarget as Node | null)) pointed.value = null;
      }}
    >
      <div class="draw-head">
        <QuantityField
          label={words.amount(name)}
          value={amount.value}
          unit={amount.unit}
          units={DRAW_UNITS}
          stands={(quantity) => planWords.stillPlannedFor(written(quantity.value, quantity.unit))}
          size="large"
          {...planField({ draw: draw.id })}
          onEdit={(quantity) => setAmount(draw.id, quantity)}
        />
        <KeepSelect draw={draw} />
        <button
          type="button"
          class="draw-remove"
          aria-label={words.remove(name)}
          title={words.remove(name)}
          onClick={(event) => {
            const draws = event.currentTarget.closest('.plan');
            removeDraw(draw.id);
            // The button is gone with its draw: the keys go on with the first draw left, or with adding one.
            queueMicrotask(() => draws?.querySelector<HTMLElement>('.draw-remove, .target-foot > .text-button')?.focus());
          }}
        >
          <svg viewBox="0 0 12 12" aria-hidden="true">
            <path d="M2.5 2.5 9.5 9.5M9.5 2.5 2.5 9.5" />
          </svg>
        </button>
      </div>
      <ProductSelect draw={draw} />
      <div class="draw-foot">
        <PurposeField draw={draw} />
        <DateField draw={draw} />
      </div>
    </li>
  );
}

function ProductSelect({ draw }: { readonly draw: Draw }) {
  const options = productsOf();
  const known = options.includes(draw.material) ? options : [draw.material, ...options];
  return (
    <select
      class="plain-field draw-product"
      aria-label={planWords.target.product}
      title={materialName(draw.material)}
      data-undo="plan"
      value={draw.material}
      onChange={(event) => {
        changeDraw(draw.id, planWords.edits.product, { material: event.currentTarget.value });
        commitEdit();
      }}
    >
      {known.map((key) => (
        <option key={key} value={key}>
          {materialName(key)}
        </option>
      ))}
    </select>
  );
}

function PurposeField({ draw }: { readonly draw: Draw }) {
  return (
    <input
      type="text"
      class="plain-field draw-purpose"
      aria-label={planWords.target.purpose}
      placeholder={planWords.target.purposeEmpty}
      title={draw.purpose}
      maxLength={300}
      autocomplete="off"
      data-undo="plan"
      value={draw.purpose ?? ''}
      onInput={(event) => {
        const purpose = event.currentTarget.value;
        if (purpose === '') clearOfDraw(draw.id, planWords.edits.purpose, 'purpose');
        else changeDraw(draw.id, planWords.edits.purpose, { purpose });
      }}
      onKeyDown={(event) => event.key === 'Enter' && commitEdit()}
      onBlur={commitEdit}
    />
  );
}

function DateField({ draw }: { readonly draw: Draw }) {
  const shown = draw.date === undefined ? planWords.target.dateEmpty : dayText(draw.date);
  return (
    <span class="draw-date">
      <input
        type="date"
        class="plain-field"
        aria-label={planWords.target.date}
        data-undo="plan"
        value={draw.date ?? ''}
        onChange={(event) => {
          const date = event.currentTarget.value;
          if (date === '') clearOfDraw(draw.id, planWords.edits.date, 'date');
          else changeDraw(draw.id, planWords.edits.date, { date });
        }}
        onClick={(event) => event.currentTarget.showPicker()}
        onBlur={commitEdit}
      />
      <span class="draw-date-face" aria-hidden="true">
        {shown}
      </span>
    </span>
  );
}

function KeepSelect({ draw }: { readonly draw: Draw }) {
  return (
    <select
      class="plain-field draw-kept"
      aria-label={planWords.target.useOrKeep}
      data-undo="plan"
      value={draw.kept ? 'keep' : 'use'}
      onChange={(event) => {
        changeDraw(draw.id, planWords.edits.kept, { kept: event.currentTarget.value === 'keep' });
        commitEdit();
      }}
    >
      <option value="use">{planWords.target.use}</option>
      <option value="keep">{planWords.target.keep}</option>
    </select>
  );
}
