import { routeEditWords as words } from '../words/route-edit-words.ts';
import { KEEPS_FIELD } from './keeps.ts';
import { put } from './edited.ts';
import { HEAT_FIELDS } from './heat-fields.ts';
import {
  type FieldContext,
  numberField,
  plainField,
  readGramsAndReason,
  readNumber,
  type TextField,
  wrong,
  type Written,
} from './text-field.ts';
import { readRecrystallise, recrystalliseText } from './recrystallise-text.ts';
import type { Step, StepYield } from './route.ts';

/** A yield as typed: "72", or "65 / 72 / 80". */
export function yieldEntryText(value: StepYield): string {
  return typeof value === 'number' ? `${value} %` : `${value.lowest} / ${value.likeliest} / ${value.highest} %`;
}

/** Reads a yield: one number, or lowest / likeliest / highest. How a range is meant stays as it was. */
export function readYield(text: string, old: StepYield): Written<StepYield> {
  const parts = text.replace(/%\s*$/, '').split('/');
  const numbers = parts.map((part) => readNumber(part, { least: 0, most: 100, unit: '%' }));
  const bad = numbers.findIndex((one) => !one.ok);
  const problem = numbers[bad];
  if (problem && !problem.ok)
    return wrong(
      parts.length === 1 && text.trim() === '' ? words.yield : problem.words,
      parts.slice(0, bad).join('/').length + (bad > 0 ? 1 : 0),
    );
  const values = numbers.flatMap((one) => (one.ok ? [one.value] : []));
  const [lowest = 0, likeliest, highest] = values;
  if (values.length === 1) return { ok: true, value: lowest };
  if (likeliest === undefined || highest === undefined || values.length > 3) return wrong(words.yield);
  if (lowest > likeliest || likeliest > highest) return wrong(words.yieldOrder);
  const limits = typeof old === 'number' ? undefined : old.limits;
  return { ok: true, value: { lowest, likeliest, highest, ...(limits ? { limits } : {}) } };
}

/** An entered yield is no longer "not entered yet". */
function withYieldValue(step: Step, value: StepYield): Step {
  const changed = { ...step, yieldPercent: value };
  return step.yieldSource === words.noYield || step.yieldSource === words.yieldOfPrint
    ? put(changed, 'yieldSource', undefined)
    : changed;
}

const named = (key: string, { route }: FieldContext): { readonly value: string; readonly words: string } => ({
  value: key,
  words: route.materials[key]?.name ?? key,
});

/** What a step holds besides its operations, in the order it is asked for. Basis and equation have editors of their own. */
export const STEP_FIELDS: readonly TextField<Step>[] = [
  plainField<Step, 'title'>('title', 'title', 'line', true),
  {
    name: 'product',
    kind: 'choice',
    choices: (of, context) => of.equation.makes.map((term) => named(term.material, context)),
    read: (of) => of.product,
    write: (of, text) => ({ ok: true, value: { ...of, product: text } }),
  },
  {
    name: 'yield',
    kind: 'line',
    read: (of) => yieldEntryText(of.yieldPercent),
    write: (of, text) => {
      if (text.trim() === yieldEntryText(of.yieldPercent)) return { ok: true, value: of };
      const read = readYield(text, of.yieldPercent);
      return read.ok ? { ok: true, value: withYieldValue(of, read.value) } : read;
    },
  },
  plainField<Step, 'yieldSource'>('yieldSource', 'yieldSource', 'line'),
  numberField<Step, 'productAssayPercent'>('productAssay', 'productAssayPercent', { least: 0, most: 100, unit: '%' }),
  KEEPS_FIELD,
  lines('lossPerBatch', 'lossPerBatch'),
  lines('batchLimit', 'batchLimit'),
  {
    name: 'recrystallise',
    kind: 'lines',
    read: (of) => (of.recrystallise ? recrystalliseText(of.recrystallise) : ''),
    write: (of, text) => {
      if (text.trim() === '') return { ok: true, value: put(of, 'recrystallise', undefined) };
      const read = readRecrystallise(text);
      return read.ok ? { ok: true, value: put(of, 'recrystallise', read.value) } : read;
    },
  },
  plainField<Step, 'conditions'>('conditions', 'conditions', 'lines'),
  {
    name: 'protection',
    kind: 'lines',
    read: (of) => (of.protection ?? []).join('\n'),
    write: (of, text) => {
      const worn = text
        .split('\n')
        .map((one) => one.trim())
        .filter((one) => one !== '');
      return { ok: true, value: put(of, 'protection', worn.length === 0 ? undefined : worn) };
    },
  },
  plainField<Step, 'spill'>('spill', 'spill', 'lines'),
  plainField<Step, 'firstAid'>('firstAid', 'firstAid', 'lines'),
  ...HEAT_FIELDS,
  plainField<Step, 'source'>('source', 'source', 'line'),
  plainField<Step, 'note'>('note', 'note', 'lines'),
];

function lines(name: string, key: 'lossPerBatch' | 'batchLimit'): TextField<Step> {
  return {
    name,
    kind: 'line',
    read: (of) => (of[key] ? `${of[key].grams} g: ${of[key].reason}` : ''),
    write: (of, text) => {
      if (text.trim() === '') return { ok: true, value: put(of, key, undefined) };
      const read = readGramsAndReason(text);
      return read.ok ? { ok: true, value: put(of, key, read.value) } : read;
    },
  };
}
