import { type Signal, useSignal } from '@preact/signals';
import { type RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { parseNumberAlone } from '../../../../core/quantity/parse.ts';
import { readBalanceText } from '../../../../core/run/balance-text.ts';
import type { RunEntry } from '../../../../core/run/entry.ts';
import { weighedText } from '../../../../core/run/reading-text.ts';
import { less, type RunState } from '../../../../core/run/state.ts';
import { sentence } from '../../../../core/words/sentences.ts';
import { weighWords } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { addToRun, said, saidDone, saidWrong } from '../../../state/run-store.ts';
import { write } from '../../../state/weigh-store.ts';
import { who } from '../../../state/who.ts';
import { reference } from '../../../state/workbook.ts';

const words = weighWords.product;

interface MadeFormProps {
  /** Basis that was got back is weighed like a product. */
  readonly of: 'product' | 'basis';
  /** Of the basis. */
  readonly name?: string;
  readonly state: RunState;
  readonly done: () => void;
}

interface Fields {
  readonly mass: Signal<string>;
  readonly tare: Signal<{ readonly grams: number; readonly text: string } | null>;
  readonly wet: Signal<boolean>;
  readonly assay: Signal<string>;
  readonly place: Signal<string>;
}

/** Every field by keyboard; Enter in the mass goes on to the next, so that a balance may type it. */
export function MadeForm({ of, name = '', state, done }: MadeFormProps) {
  const fields: Fields = {
    mass: useSignal(''),
    tare: useSignal<{ readonly grams: number; readonly text: string } | null>(null),
    wet: useSignal(false),
    assay: useSignal(''),
    place: useSignal(''),
  };
  const first = useRef<HTMLInputElement>(null);
  const second = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => first.current?.focus(), []);
  const crop = nextCrop(state);
  const noMass = of === 'product' ? words.noMass : words.basisNeedsMass;
  const record = async (): Promise<void> => {
    const made = readMade(fields, noMass);
    if (made === 'no mass') return first.current?.focus();
    if (!made) return;
    const by = { by: who.value } as const;
    const added = await addToRun(
      of === 'product' ? { kind: 'product', ...by, crop, ...made } : { kind: 'recovered', ...by, ...made },
    );
    if (!added.ok) return saidWrong(weighWords.refused(added.words));
    saidDone(added.bottle === null ? words.wetRecorded : words.recorded(added.bottle));
    done();
    // The form has gone: the next Tab goes on from here.
    document.getElementById('work')?.focus();
  };
  return (
    <form
      class="weigh-form"
      onSubmit={(event) => {
        event.preventDefault();
        void record();
      }}
    >
      <MassField
        fields={fields}
        label={of === 'product' ? words.mass : words.basisMass(name)}
        which={of === 'product' ? words.crop(crop) : ''}
        noMass={noMass}
        field={first}
        next={second}
      />
      <TextField label={words.assay} hint={words.assayHint} value={fields.assay} field={second} />
      <TextField label={words.place} value={fields.place} />
      <label class="check-box">
        <input
          type="checkbox"
          checked={fields.wet.value}
          onChange={(event) => (fields.wet.value = event.currentTarget.checked)}
        />
        <span>{words.wet}</span>
      </label>
      <div class="weigh-acts">
        <button type="submit" class="button button-strong">
          {of === 'product' ? words.record : words.recordBasis}
        </button>
        {of === 'product' ? (
          <button type="button" class="button" onClick={() => void nothing(crop, done)}>
            {words.nothing}
          </button>
        ) : (
          <button type="button" class="button" onClick={done}>
            {words.notNow}
          </button>
        )}
      </div>
    </form>
  );
}

interface MassFieldProps {
  readonly fields: Fields;
  readonly label: string;
  readonly which: string;
  readonly noMass: string;
  readonly field: RefObject<HTMLInputElement | null>;
  readonly next: RefObject<HTMLInputElement | null>;
}

function MassField({ fields, label, which, noMass, field, next }: MassFieldProps) {
  const { mass, tare } = fields;
  return (
    <label>
      <span>
        {label} <small>{which}</small>
      </span>
      <input
        ref={field}
        type="text"
        autocomplete="off"
        spellcheck={false}
        value={mass.value}
        onInput={(event) => (mass.value = event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          if (readMass(fields, noMass) === null) return;
          said.value = null;
          next.current?.focus();
        }}
      />
      {tare.value === null ? (
        <small class="soft">{words.massHint}</small>
      ) : (
        <b role="status">
          {words.tareAndNet(gramsText(tare.value.grams, tare.value.text), netText(mass.value, tare.value.grams))}
        </b>
      )}
    </label>
  );
}

interface TextFieldProps {
  readonly label: string;
  readonly hint?: string;
  readonly value: Signal<string>;
  readonly field?: RefObject<HTMLInputElement | null>;
}

function TextField({ label, hint, value, field }: TextFieldProps) {
  return (
    <label>
      <span>{label}</span>
      <input
        {...(field ? { ref: field } : {})}
        type="text"
        autocomplete="off"
        maxLength={300}
        value={value.value}
        onInput={(event) => (value.value = event.currentTarget.value)}
      />
      {hint !== undefined && <small class="soft">{hint}</small>}
    </label>
  );
}

async function nothing(crop: number, done: () => void): Promise<void> {
  const text = { text: 'nothing', place: '', bottle: null };
  const none = { kind: 'product', by: who.value, crop, grams: 0, wet: false, assayPercent: null, ...text } as const;
  if (await write(none, false, words.nothingRecorded)) done();
}

/** A mass as the balance typed it; null where there is none yet, and said why. A tare is noted, and the gross waited for. */
function readMass({ mass, tare }: Fields, noMass: string): number | null {
  const read = reference.value && readBalanceText(mass.value, 'g', reference.value.rows.balanceTexts);
  if (!read?.ok || read.unit !== 'g') {
    saidWrong(read && !read.ok ? sentence(read.why) : noMass);
    return null;
  }
  if (read.what === 'tare') {
    tare.value = { grams: read.amount, text: mass.value };
    saidDone(words.tareFirst(gramsText(read.amount, mass.value)));
    mass.value = '';
    return null;
  }
  return read.amount;
}

type Made = Omit<Extract<RunEntry, { kind: 'recovered' }>, 'kind' | 'by'>;

/** The fields as an entry has them; null where something is wrong, which is said. */
function readMade(fields: Fields, noMass: string): Made | 'no mass' | null {
  const { mass, tare, assay, place, wet } = fields;
  const amount = readMass(fields, noMass);
  if (amount === null) return 'no mass';
  const percent = assay.value.trim() === '' ? null : parseNumberAlone(assay.value.replace(/\s*%\s*$/, ''));
  const refuse = (text: string): null => {
    saidWrong(text);
    return null;
  };
  if (percent && (!percent.ok || percent.value <= 0 || percent.value > 100)) return refuse(words.noAssay);
  const grams = tare.value === null ? amount : less(amount, tare.value.grams);
  if (!(grams > 0)) return refuse(noMass);
  return {
    grams,
    ...(tare.value === null ? {} : { tare: tare.value.grams, gross: amount }),
    wet: wet.value,
    assayPercent: percent?.ok ? percent.value : null,
    place: place.value.trim(),
    text: mass.value.trim(),
    bottle: null,
  };
}

const gramsText = (grams: number, typed: string): string => `${weighedText(grams, typed, decimalMark)} g`;

/** What a gross typed so far leaves; null while it is none. */
function netText(typed: string, tare: number): string | null {
  const tables = reference.value?.rows.balanceTexts;
  const read = tables && readBalanceText(typed, 'g', tables);
  if (!read?.ok || read.unit !== 'g' || read.what === 'tare' || read.amount <= tare) return null;
  return gramsText(less(read.amount, tare), typed);
}

/** A crop weighed wet is weighed dry next; else the next crop. */
function nextCrop(state: RunState): number {
  const dry = new Set(state.products.filter((one) => !one.wet).map((one) => one.crop));
  const wet = state.products.find((one) => one.wet && !dry.has(one.crop));
  return wet?.crop ?? Math.max(0, ...dry) + 1;
}
