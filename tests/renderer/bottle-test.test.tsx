import { cleanup, fireEvent, render, screen, within } from '@testing-library/preact';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import type { Port } from '../../src/core/port/port.ts';
import type { BottleRow } from '../../src/core/port/shelf.ts';
import { readTest, type TestDraft } from '../../src/renderer/places/shelf/read-test.ts';
import { TestForm } from '../../src/renderer/places/shelf/test-form.tsx';
import { TestHistory } from '../../src/renderer/places/shelf/test-history.tsx';
import { connectPort } from '../../src/renderer/state/connection.ts';
import { typedTexts } from '../../src/renderer/state/typed-texts.ts';
import { reference, today } from '../../src/renderer/state/workbook.ts';
import { TABLES } from './shelf-tables.ts';

const ACID = { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2', state: 'liquid' } as const;
const density = { gramsPerMillilitre: 1.4, celsius: 20 };
const SOLUTION: Form = { kind: 'solution', strength: { value: 68, basis: '% w/w' }, density };
const TYPED: TestDraft = {
  done: 'titrated',
  on: '2027-02-20',
  found: 'solution',
  assay: '',
  strength: '',
  solvent: '',
  useBy: null,
  remark: '',
};
const read = (more: Partial<TestDraft>, form: Form = { kind: 'unknown' }) =>
  readTest({ ...TYPED, ...more }, { id: 'B1', material: ACID, form }, '2027-02-25', TABLES);

describe('a test as typed', () => {
  test.each([
    ['unknown to a strength', { strength: '65 % w/w' }, undefined, strength(65, { titrated: '2027-02-20' })],
    ['unknown to an assay', { found: 'neat', assay: '98' }, undefined, { kind: 'neat', assayPercent: 98 }],
    ['a solvent', { strength: '1.5 mol/L', solvent: 'dioxane' }, undefined, { solvent: 'dioxane' }],
    ['a test is no titration', { done: 'tested', strength: '65 % w/w' }, SOLUTION, { ...strength(65), density }],
    ['its density is left out once purified', { done: 'purified', strength: '70 % w/w' }, SOLUTION, strength(70)],
    ['and without a new strength too', { done: 'purified' }, SOLUTION, strength(68)],
    ['nothing found', { done: 'tested' }, SOLUTION, undefined],
  ] as const)('%s', (_what, more, form, expected) => {
    const got = read(more, form);
    expect(got.ok).toBe(true);
    if (!got.ok) return;
    if (expected === undefined || !('solvent' in expected)) expect(got.input.form).toEqual(expected);
    else expect(got.input.form).toMatchObject(expected);
  });

  test('equivalents per mole stay with the bottle, and are asked for where it has none', () => {
    const base: Form = { kind: 'solution', strength: { value: 2, basis: 'eq/L', equivalentsPerMole: 2 } };
    expect(read({ strength: '1.9 eq/L' }, base)).toMatchObject({
      input: { form: { strength: { value: 1.9, equivalentsPerMole: 2 } } },
    });
    expect(read({ strength: '1.9 eq/L' })).toMatchObject({ problems: { strength: { words: expect.stringContaining('mol/L') } } });
  });

  test.each([
    ['on', { on: '' }, 'the day it was done is needed here'],
    ['on', { on: '2027-02-26', strength: '65 % w/w' }, 'the day needs to be today or before'],
    ['useBy', { useBy: '2027-02-20', strength: '65 % w/w' }, 'a new use-by date needs to be after the day of the test'],
    ['strength', {}, 'a titration finds a strength or an assay: it is needed here'],
    ['strength', { strength: '130 % w/w' }, 'a strength needs to be at most 100 % w/w (got 130 % w/w)'],
    ['strength', { strength: '65 g' }, 'a strength with its basis is needed here, such as 68 % w/w or 3 mol/L'],
    ['assay', { found: 'neat', assay: '120' }, 'an assay needs to be more than 0 and at most 100 % w/w'],
  ] as const)('%s %o is asked about', (field, more, words) => {
    expect(read(more)).toMatchObject({ ok: false, problems: { [field]: { words } } });
  });
});

function strength(value: number, more: { readonly titrated?: string } = {}): Form {
  return { kind: 'solution', strength: { value, basis: '% w/w', ...more } };
}

describe('recording a test', () => {
  let sent: unknown[];
  let answer: unknown;
  let reread: number;
  const bottle = { id: 'B1', form: { kind: 'neat' }, material: ACID, left: 5, unit: 'g', useBy: '2026-12-31' } as BottleRow;
  const show = (more: Partial<BottleRow> = {}) =>
    render(
      <TestForm
        bottle={{ ...bottle, ...more }}
        onRecorded={async () => {
          reread += 1;
        }}
      />,
    );
  const type = (label: string, value: string) => fireEvent.input(screen.getByLabelText(label), { target: { value } });

  beforeEach(() => {
    sent = [];
    reread = 0;
    answer = { ok: true, value: { id: 'B1' } };
    const call = async (_name: string, input: unknown) => (sent.push(input), answer);
    connectPort({ call, subscribe: () => () => {} } as unknown as Port);
    reference.value = TABLES;
    today.value = '2027-02-25';
    typedTexts.value = {};
  });
  afterEach(cleanup);

  test('a bottle past its date is said to be so still, until a later date is given', async () => {
    show();
    expect(screen.getByRole('status').textContent).toContain('past its date still');
    type('new use by', '2028-02-20');
    expect(await screen.findByText('then plans count this bottle')).toBeTruthy();
    type('remark', 'mp 94 °C');
    fireEvent.click(screen.getByText('Record it'));
    expect(await screen.findByText('recorded: plans count this bottle')).toBeTruthy();
    expect(sent).toEqual([{ id: 'B1', done: 'tested', on: '2027-02-25', useBy: '2028-02-20', remark: 'mp 94 °C' }]);
    expect([reread, (screen.getByLabelText('remark') as HTMLInputElement).value]).toEqual([1, '']);
  });

  test('a titration without a result is not sent; a refusal keeps what was typed', async () => {
    show({ form: { kind: 'unknown' }, useBy: null });
    fireEvent.click(screen.getByText('Record it'));
    expect(await screen.findByText(/a titration finds a strength or an assay/)).toBeTruthy();
    expect(sent).toEqual([]);
    type('new strength with its basis', '65 % w/w');
    answer = { ok: false, code: 'refused', detail: 'not now' };
    fireEvent.click(screen.getByText('Record it'));
    expect(await screen.findByText(/Not saved/)).toBeTruthy();
    expect([reread, (screen.getByLabelText('new strength with its basis') as HTMLInputElement).value]).toEqual([0, '65 % w/w']);
  });

  test('the history says what was found, and what was there before, newest first', () => {
    const titrated = { titrated: '2027-02-20' };
    const one = { on: '2027-02-20', before: { kind: 'unknown' } as const, form: strength(65), useBy: '2028-01-01' };
    render(
      <TestHistory
        tests={[
          { ...one, form: strength(65, titrated), done: 'titrated' },
          { ...one, before: one.form, done: 'tested', remark: 'clear' },
        ]}
      />,
    );
    const lines = within(screen.getByRole('list')).getAllByRole('listitem');
    expect(lines.map((line) => line.textContent)).toEqual([
      '20 Feb 2027tested: 65 % w/wuse by 1 Jan 2028, before no dateclear',
      '20 Feb 2027titrated: 65 % w/w, before strength unknownuse by 1 Jan 2028, before no date',
    ]);
  });
});
