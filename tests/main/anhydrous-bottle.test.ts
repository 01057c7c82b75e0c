import { expect, test } from 'vitest';
import { newBottle, openBook } from './workbook-fixture.ts';

const dry = { kind: 'neat', assayPercent: 98, assayOn: 'anhydrous' } as const;

test('a bottle whose assay leaves its water out needs that water: at entry, when it is changed, when it is tested', async () => {
  const { call, must } = openBook({ empty: true });
  const refused = { ok: false, code: 'invalid input', detail: expect.stringMatching(/needs the water found/) };
  expect(await call('shelf.add', newBottle({ form: dry }))).toMatchObject(refused);
  const { id } = await must('shelf.add', newBottle({ form: dry, waterPercent: 5 }));
  const form = async () => (await must('shelf.bottle', { id })).bottle.form;
  expect(await form()).toEqual({ ...dry, waterPercent: 5 });
  expect(await call('shelf.change', { id, water: null })).toMatchObject({ ok: false, code: 'refused' });
  await must('shelf.change', { id, water: 7.5 });
  expect(await form()).toEqual({ ...dry, waterPercent: 7.5 });
  const { bottles } = await must('shelf.snapshot', { materials: [newBottle().material] });
  expect(bottles[0]?.form).toEqual({ ...dry, waterPercent: 7.5 });
  const { id: plain } = await must('shelf.add', newBottle());
  const test = { done: 'tested', on: '2027-02-01', form: dry, remark: '' } as const;
  expect(await call('shelf.test', { id: plain, ...test })).toMatchObject(refused);
  await must('shelf.change', { id: plain, water: 1 });
  await must('shelf.test', { id: plain, ...test });
  // The water is taken off again: what is in the bottle is not known, and is found as that.
  const { edits } = await must('shelf.bottle', { id: plain });
  await must('shelf.undoChange', { edit: edits[0]?.id ?? 0 });
  const unknown = { search: '', from: 0, count: 9, sort: 'name', filter: { state: 'unknown strength' } } as const;
  expect((await must('shelf.list', unknown)).rows.map((row) => row.id)).toEqual([plain]);
});
