import type { Form } from '../matter/form.ts';
import { readPresented } from '../matter/read-solution.ts';
import { formWords } from '../words/form-words.ts';
import { planWords } from '../words/plan-words.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import { STANDS_FIELD } from './keeps.ts';
import { carriedField } from './step-more-fields.ts';
import { readTakes, takesText } from './takes-text.ts';
import {
  type TextField,
  knownAdditionText,
  limitText,
  minutesText,
  numberField,
  plainField,
  readKnownAddition,
  readLimit,
  readMinutes,
  readWindow,
  windowText,
  wrong,
  type Written,
} from './text-field.ts';
import { type Charge, type Hold, type Operation, type Removal, STAGES } from './route.ts';

const stage = <T extends Operation>(): TextField<T> => ({
  name: 'stage',
  kind: 'choice',
  choices: () => STAGES.map((value) => ({ value, words: planWords.step.stages[value] })),
  read: (of) => of.stage,
  write: (of, text) => {
    const found = STAGES.find((one) => one === text);
    return found ? { ok: true, value: { ...of, stage: found } } : wrong(words.needed);
  },
});

const window = <T extends Charge | Hold>(): TextField<T> => ({
  name: 'temperature',
  kind: 'line',
  read: (of) => windowText(of.temperature),
  write: (of, text) => optional(text, readWindow, (value) => put(of, 'temperature', value)),
});

const limit = <T extends Charge | Hold>(): TextField<T> => ({
  name: 'limit',
  kind: 'line',
  read: (of) => limitText(of.limit),
  write: (of, text) => optional(text, readLimit, (value) => put(of, 'limit', value)),
});

/** An empty text takes the entry away; another is read and put in. */
function optional<T, V>(
  text: string,
  read: (text: string) => { readonly ok: true; readonly value: V } | Extract<Written<T>, { ok: false }>,
  set: (value: V | undefined) => T,
): Written<T> {
  if (text.trim() === '') return { ok: true, value: set(undefined) };
  const found = read(text);
  return found.ok ? { ok: true, value: set(found.value) } : found;
}

/** The form a charge names: "68 % w/w", "2 mol/L in ethanol", "neat", "assay 95 %", "unknown". */
export function readForm(text: string): { readonly ok: true; readonly value: Form } | Extract<Written<Form>, { ok: false }> {
  const said = text.trim();
  if (/^(strength )?unknown$/i.test(said)) return { ok: true, value: { kind: 'unknown' } };
  const solvent = /\s+in\s+(\S.*)$/.exec(said);
  const read = readPresented(solvent ? said.slice(0, solvent.index) : said, solvent?.[1]);
  return read.ok ? { ok: true, value: read.form } : read;
}

const form: TextField<Charge> = {
  name: 'form',
  kind: 'line',
  read: (of) => (of.form ? formWords(of.form) : ''),
  write: (of, text) => {
    if (of.form && text.trim() === formWords(of.form)) return { ok: true, value: of };
    return optional(text, readForm, (value) => put(of, 'form', value && withOld(of.form, value)));
  },
};

/** A density of the same strength stays; of another it would be wrong. */
function withOld(old: Form | undefined, now: Form): Form {
  const density = old && old.kind !== 'unknown' ? old.density : undefined;
  return density && old && JSON.stringify({ ...old, density: undefined }) === JSON.stringify(now) ? old : now;
}

const END = /^\s*(?:until\s+)?(\S.*?)\s*,\s*at\s+most\s+(\d+(?:[.,]\d+)?)\s*[×xX*]?\s*$/;

/** Added to an end point; the ratio is then its estimate. */
const until: TextField<Charge> = {
  name: 'until',
  kind: 'line',
  read: (of) => (of.rule.kind === 'until' ? `${of.rule.endPoint}, at most ${of.rule.atMost} ×` : ''),
  write: (of, text) => {
    const estimate = of.rule.kind === 'until' ? of.rule.estimate : of.rule;
    if (text.trim() === '') return { ok: true, value: { ...of, rule: estimate } };
    const found = END.exec(text);
    const atMost = Number((found?.[2] ?? '').replace(',', '.'));
    if (!found || !(atMost >= 1 && atMost <= 1000)) return wrong(words.end);
    return { ok: true, value: { ...of, rule: { kind: 'until', endPoint: found[1] ?? '', estimate, atMost } } };
  },
  when: (of) => of.rule.kind !== 'basis',
};

const by: TextField<Charge> = {
  name: 'by',
  kind: 'choice',
  choices: () => [
    { value: '', words: words.byState },
    { value: 'mass', words: words.byMass },
    { value: 'volume', words: words.byVolume },
  ],
  read: (of) => of.by ?? '',
  write: (of, text) => ({ ok: true, value: put(of, 'by', text === 'mass' || text === 'volume' ? text : undefined) }),
};

const noLess: TextField<Charge> = {
  name: 'noLess',
  kind: 'choice',
  choices: () => [
    { value: '', words: words.lessAllowed },
    { value: 'yes', words: words.noLess },
  ],
  read: (of) => (of.noLess ? 'yes' : ''),
  write: (of, text) => ({ ok: true, value: put(of, 'noLess', text === 'yes' ? true : undefined) }),
};

/** What a charge holds besides material, print and ratio, in the order it is asked for. */
export const CHARGE_FIELDS: readonly TextField<Charge>[] = [
  stage(),
  form,
  window(),
  {
    name: 'overMinutes',
    kind: 'line',
    read: (of) => minutesText(of.overMinutes),
    write: (of, text) => optional(text, readMinutes, (value) => put(of, 'overMinutes', value)),
  },
  {
    name: 'knownAddition',
    kind: 'line',
    read: (of) => knownAdditionText(of.knownAddition),
    write: (of, text) => optional(text, readKnownAddition, (value) => put(of, 'knownAddition', value)),
  },
  numberField<Charge, 'portions'>('portions', 'portions', { least: 1, most: 1000, unit: '', whole: true }),
  by,
  numberField<Charge, 'tolerancePercent'>('tolerancePercent', 'tolerancePercent', { least: 0, most: 100, unit: '%' }),
  numberField<Charge, 'leastAssayPercent'>('leastAssayPercent', 'leastAssayPercent', { least: 0, most: 100, unit: '%' }),
  noLess,
  until,
  carriedField<Charge>(),
  limit(),
  plainField<Charge, 'caution'>('caution', 'caution', 'lines'),
  plainField<Charge, 'note'>('note', 'note', 'lines'),
  plainField<Charge, 'source'>('source', 'source', 'line'),
];

/** What a hold is described by. */
export const HOLD_FIELDS: readonly TextField<Hold>[] = [
  plainField<Hold, 'until'>('holdUntil', 'until', 'line', true),
  stage(),
  window(),
  {
    name: 'aboutMinutes',
    kind: 'line',
    read: (of) => minutesText(of.aboutMinutes),
    write: (of, text) => optional(text, readMinutes, (value) => put(of, 'aboutMinutes', value)),
  },
  plainField<Hold, 'check'>('check', 'check', 'line'),
  plainField<Hold, 'ifNot'>('ifNot', 'ifNot', 'line'),
  STANDS_FIELD,
  limit(),
  plainField<Hold, 'caution'>('caution', 'caution', 'lines'),
  plainField<Hold, 'note'>('note', 'note', 'lines'),
];

const HOWS: readonly Removal['how'][] = ['filter', 'separate', 'distil', 'dry', 'wash away', 'vent'];

/** What a removal is described by. */
export const REMOVAL_FIELDS: readonly TextField<Removal>[] = [
  {
    name: 'how',
    kind: 'choice',
    choices: () => HOWS.map((value) => ({ value, words: planWords.step.removals[value] })),
    read: (of) => of.how,
    write: (of, text) => {
      const how = HOWS.find((one) => one === text);
      return how ? { ok: true, value: { ...of, how } } : wrong(words.needed);
    },
  },
  {
    name: 'takes',
    kind: 'line',
    read: (of, { route }) => takesText(of.takes, route),
    write: (of, text, { route }) => {
      const read = readTakes(text, route);
      return read.ok ? { ok: true, value: { ...of, takes: [...read.value] } } : read;
    },
  },
  stage(),
  numberField<Removal, 'leavesMillilitresPerGram'>('leaves', 'leavesMillilitresPerGram', { least: 0, most: 1e6, unit: 'mL/g' }),
  plainField<Removal, 'wasteTo'>('wasteTo', 'wasteTo', 'line'),
  plainField<Removal, 'caution'>('caution', 'caution', 'lines'),
  plainField<Removal, 'note'>('note', 'note', 'lines'),
];
