import { expect, test } from 'vitest';
import { openBook } from './workbook-fixture.ts';

const given = {
  step: 'benzil',
  operation: 'nitric-acid',
  code: 'hazards',
  words: 'nitric acid: Toxic if inhaled.\u00a0Corrosive.',
  by: 'AB',
};

test('who has read a caution is kept in order, with the moment, over a restart', async () => {
  const { folder, keeper, must, told } = openBook();
  const first = await must('cautions.acknowledge', { planId: 1, acknowledgement: given });
  const second = await must('cautions.acknowledge', { planId: 1, acknowledgement: { ...given, by: 'CD' } });
  expect([first.id, second.id]).toEqual([1, 2]);
  expect(first).toMatchObject(given);
  expect(second.at > first.at).toBe(true);
  expect(told.filter((topic) => topic === 'cautions')).toHaveLength(2);
  keeper.close();
  const again = openBook({ folder });
  expect(await again.must('cautions.acknowledged', { planId: 1 })).toEqual([first, second]);
});

test('it is kept for ever: no row is changed or deleted', async () => {
  const { keeper, must } = openBook();
  await must('cautions.acknowledge', { planId: 1, acknowledgement: given });
  const database = keeper.database();
  for (const sql of ["UPDATE acknowledgement SET at = '2027-01-01T00:00:00.000Z'", 'DELETE FROM acknowledgement']) {
    expect(() => database.write(() => database.run(sql))).toThrow('acknowledgement rows are never');
  }
  expect(await must('cautions.acknowledged', { planId: 1 })).toHaveLength(1);
});

test('a plan that is not there, initials that are none and an empty sentence are refused, and nothing is written', async () => {
  const { call, must } = openBook();
  const refused = [
    { planId: 99, acknowledgement: given },
    { planId: 1, acknowledgement: { ...given, by: ' ' } },
    { planId: 1, acknowledgement: { ...given, words: '' } },
    { planId: 1, acknowledgement: { ...given, words: 'x'.repeat(4001) } },
  ];
  for (const input of refused) expect((await call('cautions.acknowledge', input)).ok).toBe(false);
  expect(await must('cautions.acknowledged', { planId: 1 })).toEqual([]);
});
