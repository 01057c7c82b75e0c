import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Shelf } from '../../src/core/shelf/shelf.ts';
import { whyNotUsable } from '../../src/core/shelf/usable.ts';
import { fromSmallest, toSmallest } from '../../src/main/store/amounts.ts';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { BENZIL, newBottle, openBook } from './workbook-fixture.ts';

describe('the ledger of a bottle', () => {
  test('what is left is what came minus what went, to the microgram', async () => {
    const { must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ amount: 25 }));
    await must('shelf.move', { id, kind: 'used', change: -0.1, reason: '' });
    await must('shelf.move', { id, kind: 'used', change: -0.2, reason: '' });
    const { left } = await must('shelf.move', { id, kind: 'adjusted', change: -24.7, reason: 'weighed' });
    expect(left).toBe(0);
  });

  test('a bottle never goes below nothing, and a refused movement leaves no line', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ amount: 5 }));
    const refused = await call('shelf.move', { id, kind: 'used', change: -5.000001, reason: '' });
    expect(refused).toMatchObject({
      ok: false,
      code: 'refused',
      detail: 'The bottle holds 5 g: 5.000001 g cannot be taken out of it.',
    });
    expect((await must('shelf.bottle', { id })).ledger).toHaveLength(1);
  });

  test.each([
    ['adjusted', -1, '', 'A movement of the kind "adjusted" needs a reason.'],
    ['discarded', -1, '  ', 'A movement of the kind "discarded" needs a reason.'],
    ['used', 1, '', '"used" takes out: it needs an amount below zero.'],
    ['received', -1, '', '"received" needs an amount above zero.'],
    ['adjusted', 0, 'weighed', 'A movement needs an amount other than zero.'],
    ['used', -4e-7, '', 'The amount needs to be at least 0.000001 g (got 4e-7 g).'],
  ] as const)('%s by %d with the reason "%s" is refused', async (kind, change, reason, detail) => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle());
    expect(await call('shelf.move', { id, kind, change, reason })).toMatchObject({ ok: false, code: 'invalid input', detail });
  });

  test('undo appends the exact counter-entry, once; undoing that brings the line back', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ amount: 10 }));
    const { line } = await must('shelf.move', { id, kind: 'used', change: -3.3, reason: 'batch 1' });
    const undone = await must('shelf.undo', { id, line });
    expect(undone.left).toBe(10);
    expect(await call('shelf.undo', { id, line })).toMatchObject({ ok: false, code: 'conflict' });
    expect((await must('shelf.undo', { id, line: undone.line })).left).toBe(6.7);
    const { ledger } = await must('shelf.bottle', { id });
    expect(ledger.map(({ kind, change, undoes, undone: gone }) => [kind, change, undoes, gone])).toEqual([
      ['received', 10, null, false],
      ['used', -3.3, null, true],
      ['undone', 3.3, line, true],
      ['undone', -3.3, undone.line, false],
    ]);
  });

  test('a receipt that was partly used cannot be undone below nothing', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ amount: 10 }));
    await must('shelf.move', { id, kind: 'used', change: -1, reason: '' });
    expect(await call('shelf.undo', { id, line: 1 })).toMatchObject({ ok: false, code: 'refused' });
  });

  test('a measured amount stands: what was before it cannot be undone on its own, what came after it can', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ amount: 100 }));
    const move = (kind: 'used' | 'adjusted', change: number) => must('shelf.move', { id, kind, change, reason: 'weighed' });
    const use = await move('used', -10);
    const measured = await move('adjusted', -40);
    const later = await move('used', -5);
    const refused = await call('shelf.undo', { id, line: use.line });
    expect(refused).toMatchObject({ ok: false, code: 'refused' });
    expect(JSON.stringify(refused)).toContain('What was really in the bottle was measured on');
    expect(await call('shelf.undo', { id, line: 1 })).toMatchObject({ ok: false, code: 'refused' });
    expect((await must('shelf.undo', { id, line: later.line })).left).toBe(50);
    // Without the measurement the ledger is arithmetic again.
    const taken = await must('shelf.undo', { id, line: measured.line });
    expect((await must('shelf.undo', { id, line: use.line })).left).toBe(100);
    // Brought back now, the measurement would say 60, not the 50 that were measured.
    expect(await call('shelf.undo', { id, line: taken.line })).toMatchObject({ ok: false, code: 'refused' });
    expect((await must('shelf.bottle', { id })).bottle.left).toBe(100);
  });

  test('the line of another bottle cannot be undone', async () => {
    const { call, must } = openBook({ empty: true });
    const one = await must('shelf.add', newBottle());
    const other = await must('shelf.add', newBottle());
    const { line } = await must('shelf.move', { id: one.id, kind: 'used', change: -1, reason: '' });
    expect(await call('shelf.undo', { id: other.id, line })).toMatchObject({ ok: false, code: 'not found' });
  });

  test('after any sequence of movements and undos the kept amount is the sum of the ledger', async () => {
    const movement = fc.record({
      what: fc.constantFrom('received', 'used', 'adjusted', 'discarded', 'undo', 'test'),
      amount: fc.double({ min: 1e-6, max: 2000, noNaN: true }),
      line: fc.integer({ min: 1, max: 30 }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(movement, { maxLength: 30 }), async (movements) => {
        const { call, must, keeper } = openBook({ empty: true });
        const { id } = await must('shelf.add', newBottle({ amount: 100 }));
        for (const { what, amount, line } of movements) {
          if (what === 'undo') await call('shelf.undo', { id, line });
          else if (what === 'test') await must('shelf.test', { id, done: 'tested', on: '2027-02-01', remark: '' });
          else {
            const change = what === 'received' ? amount : -amount;
            await call('shelf.move', { id, kind: what as 'used', change, reason: 'counted' });
          }
        }
        const { bottle, ledger } = await must('shelf.bottle', { id });
        const sum = ledger.reduce((total, { change }) => total + toSmallest(change), 0);
        expect(toSmallest(bottle.left)).toBe(sum);
        expect(bottle.left).toBeGreaterThanOrEqual(0);
        expect(wrongSums(keeper.database())).toEqual([]);
        keeper.close();
      }),
      { numRuns: 25 },
    );
  });

  test('grams to micrograms and back is the identity up to a kilogram in micrograms', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000_000 }), (smallest) => toSmallest(fromSmallest(smallest)) === smallest),
    );
  });
});

describe('the shelf', () => {
  test('keeps what is written on a bottle, and changes only what is named', async () => {
    const { must, told } = openBook({ empty: true });
    const form = { kind: 'solution', strength: { value: 68, basis: '% w/w' } } as const;
    const { id } = await must(
      'shelf.add',
      newBottle({ form, lot: 'N-117', place: 'acids cabinet', useBy: '2027-05-01', note: 'x' }),
    );
    await must('shelf.change', { id, place: 'hood 2', useBy: null, heldBack: true });
    const { bottle } = await must('shelf.bottle', { id });
    expect(bottle).toMatchObject({ form, lot: 'N-117', place: 'hood 2', useBy: null, heldBack: true, note: 'x', left: 10 });
    expect(told).toEqual(['shelf', 'shelf']);
  });

  test.each([
    ['BENZI', 1],
    ['diphenylethane', 1],
    ['c14h10', 1],
    ['C₁₄H₁₀O₂', 1],
    ['134-81', 1],
    ['134‑81‑6', 1],
    ['n-117', 1],
    ['acids', 1],
    ['äcids', 1],
    ['c2', 2],
    ['benzil hood', 0],
    ['shelf  C2 benz', 1],
    ['"; DROP TABLE bottle; --', 0],
    ['" OR "', 0],
    ['%', 0],
    ['', 2],
  ])('searching for %s finds %d', async (search, total) => {
    const { must } = openBook({ empty: true });
    await must('shelf.add', newBottle({ lot: 'N-117', place: 'Acids cabinet, shelf C2' }));
    await must('shelf.add', newBottle({ material: { name: 'water', formula: 'H2O' }, place: 'Shelf C2' }));
    const found = await must('shelf.list', { search, from: 0, count: 50, sort: 'name' });
    expect([found.total, found.rows.length]).toEqual([total, total]);
  });

  test.each([
    ['absolute alcohol', ['E']],
    ['EtOH', ['E']],
    ['64175', ['E']],
    ['C2H6O', ['E']],
    ['C2H5OH', ['E']],
    ['ethanol cabinet-7', ['E']],
    ['EtOH cabinet-8', []],
    ['7664939', ['S', 'V']],
    ['O4SH2', ['S', 'V']],
    ['sulfuric acid', ['S', 'V']],
    ['999991', ['X']],
    ['sulphuric', ['S', 'V']],
  ])('%s finds bottles by other names, formulas and numbers of what they hold', async (search, expected) => {
    const { must } = openBook({ empty: true });
    const add = async (lot: string, material: Parameters<typeof newBottle>[0] & object) =>
      must('shelf.add', newBottle({ lot, place: 'cabinet-7', ...material }));
    await add('E', { material: { name: 'Ethanol, absolute', cas: '64-17-5' } });
    await add('S', { material: { name: 'sulphuric', cas: '7664-93-9' } });
    await add('V', { material: { name: 'oil of vitriol' } });
    await add('X', { material: { name: 'something of our own', cas: '999-99-1' } });
    const { rows, total } = await must('shelf.list', { search, from: 0, count: 9, sort: 'left' });
    expect(rows.map((row) => row.lot).sort()).toEqual(expected);
    expect(total).toBe(expected.length);
  });

  test('what nothing is spelled like is taken for the nearest name, and said; what is found as typed is not widened', async () => {
    const { must } = openBook({ empty: true });
    await must('shelf.add', newBottle({ material: { name: 'Ethanol, absolute', cas: '64-17-5' }, place: 'cabinet 7' }));
    await must('shelf.add', newBottle({ material: { name: 'ethyl acetate' } }));
    const ask = (search: string) => must('shelf.list', { search, from: 0, count: 9, sort: 'name' });
    expect(await ask('etanol')).toMatchObject({ total: 1, nearly: ['Ethanol, absolute'] });
    expect(await ask('cabinet etanol')).toMatchObject({ total: 1, nearly: ['Ethanol, absolute'] });
    expect(await ask('cabinet 8 etanol')).toMatchObject({ total: 0, nearly: [] });
    expect(await ask('ethanol')).toMatchObject({ total: 1, nearly: [] });
    expect(await ask('etxxol')).toMatchObject({ total: 0, nearly: [] });
  });

  test('the search follows a changed place', async () => {
    const { must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ place: 'fridge' }));
    await must('shelf.change', { id, place: 'freezer' });
    expect((await must('shelf.list', { search: 'fridge', from: 0, count: 9, sort: 'name' })).total).toBe(0);
    expect((await must('shelf.list', { search: 'freezer', from: 0, count: 9, sort: 'name' })).total).toBe(1);
  });

  test('orders: places as people count them, dates with none last, and pages that join without a gap', async () => {
    const { must } = openBook({ empty: true });
    const entries = [
      ['C10', '2027-01-01', 3],
      ['C2', undefined, 1],
      ['A1', '2026-01-01', 2],
    ] as const;
    for (const [place, useBy, amount] of entries)
      await must('shelf.add', newBottle({ place, amount, ...(useBy ? { useBy } : {}) }));
    const places = async (sort: 'place' | 'useBy' | 'left', from = 0, count = 9) =>
      (await must('shelf.list', { search: '', from, count, sort })).rows.map((row) => row.place);
    expect(await places('place')).toEqual(['A1', 'C2', 'C10']);
    expect(await places('useBy')).toEqual(['A1', 'C10', 'C2']);
    expect(await places('left')).toEqual(['C2', 'A1', 'C10']);
    expect([...(await places('place', 0, 2)), ...(await places('place', 2, 2))]).toEqual(['A1', 'C2', 'C10']);
  });

  test('a snapshot holds every form of a material, told by CAS number or else by name', async () => {
    const { must } = openBook({ empty: true });
    const nitric = { name: 'nitric acid', cas: '7697-37-2', formula: 'HNO3' };
    const solution = { kind: 'solution', strength: { value: 68, basis: '% w/w' } } as const;
    const a = await must('shelf.add', newBottle({ material: nitric, form: solution, unit: 'mL' }));
    const b = await must('shelf.add', newBottle({ material: { name: 'Nitric  Acid' } }));
    const other = await must('shelf.add', newBottle({ material: { name: 'nitric acid', cas: '7664-93-9' } }));
    await must('shelf.add', newBottle());
    const byCas = await must('shelf.snapshot', { materials: [{ name: 'aqua fortis', cas: '7697-37-2' }] });
    expect(byCas.bottles.map((bottle) => bottle.id)).toEqual([a.id]);
    const byBoth = await must('shelf.snapshot', { materials: [nitric] });
    // What is called alike comes along to be told, and is never counted (tests/core/stock-status.test.ts).
    expect(byBoth.bottles.map((bottle) => bottle.id)).toEqual([a.id, b.id, other.id]);
    for (const bottle of byBoth.bottles) expect(byBoth.materials).toHaveProperty(bottle.material);
    const hexanes = await must('shelf.add', newBottle({ material: { name: 'hexanes' }, unit: 'mL' }));
    const alike = await must('shelf.snapshot', { materials: [{ name: 'hexane', cas: '110-54-3' }] });
    expect(alike.bottles.map((bottle) => bottle.id)).toEqual([hexanes.id]);
  });
});

describe('a recorded test of a bottle', () => {
  const acid = { name: 'nitric acid', cas: '7697-37-2', formula: 'HNO3' };
  const strength = (value: number) => ({ kind: 'solution' as const, strength: { value, basis: '% w/w' as const } });

  test('makes a bottle that is out of date usable, and keeps what was there before', async () => {
    const { must, told } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ useBy: '2026-12-31' }));
    const before = (await must('shelf.snapshot', { materials: [BENZIL] })).bottles[0];
    expect(before && whyNotUsable(before, '2027-02-25', new Set())).toBe('out of date');
    await must('shelf.test', { id, done: 'tested', on: '2027-02-20', useBy: '2028-02-20', remark: ' mp 94-95 °C ' });
    const after = (await must('shelf.snapshot', { materials: [BENZIL] })).bottles[0];
    expect(after && whyNotUsable(after, '2027-02-25', new Set())).toBeNull();
    const { bottle, tests, ledger } = await must('shelf.bottle', { id });
    expect([bottle.useBy, bottle.left, ledger.length]).toEqual(['2028-02-20', 10, 1]);
    expect(tests).toEqual([
      {
        done: 'tested',
        on: '2027-02-20',
        before: { kind: 'neat' },
        form: { kind: 'neat' },
        useByBefore: '2026-12-31',
        useBy: '2028-02-20',
        remark: 'mp 94-95 °C',
      },
    ]);
    expect(told).toEqual(['shelf', 'shelf']);
  });

  test('makes an unknown strength known; a date that is not named stays, one taken away goes', async () => {
    const { must } = openBook({ empty: true });
    const unknown = newBottle({ material: acid, form: { kind: 'unknown' }, unit: 'mL', useBy: '2027-09-01' });
    const { id } = await must('shelf.add', unknown);
    await must('shelf.test', { id, done: 'titrated', on: '2027-02-20', form: strength(65), remark: '' });
    expect((await must('shelf.bottle', { id })).bottle).toMatchObject({ form: strength(65), useBy: '2027-09-01' });
    const serving = (await must('shelf.snapshot', { materials: [acid] })).bottles[0];
    expect(serving && whyNotUsable(serving, '2027-02-25', new Set())).toBeNull();
    await must('shelf.test', { id, done: 'titrated', on: '2027-02-24', form: strength(64), useBy: null, remark: '' });
    const { bottle, tests } = await must('shelf.bottle', { id });
    expect(bottle).toMatchObject({ form: strength(64), useBy: null });
    expect(tests.map((one) => [one.before, one.form])).toEqual([
      [{ kind: 'unknown' }, strength(65)],
      [strength(65), strength(64)],
    ]);
  });

  test.each([
    ['a date ahead', { on: '2027-02-26', form: strength(65) }, 'A test needs a date that is not ahead (got 2027-02-26).'],
    ['a titration that found nothing', {}, 'A titration needs the strength or assay it found.'],
    ['more than the pure material', { form: strength(130) }, 'A strength needs to be at most 100 % w/w (got 130 % w/w).'],
  ])('%s is refused, and nothing is changed', async (_what, more, detail) => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ material: acid, form: { kind: 'unknown' }, unit: 'mL' }));
    const refused = await call('shelf.test', { id, done: 'titrated', on: '2027-02-20', remark: '', ...more });
    expect(refused).toMatchObject({ ok: false, code: 'invalid input', detail });
    expect(await must('shelf.bottle', { id })).toMatchObject({ bottle: { form: { kind: 'unknown' } }, tests: [] });
  });

  test('stays for ever, and goes out in a file and comes in again', async () => {
    const { must, keeper } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ material: acid, form: strength(68), unit: 'mL' }));
    await must('shelf.test', { id, done: 'titrated', on: '2027-02-20', form: strength(66), remark: 'against borax' });
    await must('shelf.test', { id, done: 'purified', on: '2027-02-21', useBy: '2027-03-21', remark: '' });
    for (const sql of ["UPDATE bottle_test SET data = '{}'", 'DELETE FROM bottle_test'])
      expect(() => keeper.database().write(() => keeper.database().run(sql, []))).toThrow(/never/);
    const { text } = await must('shelf.export', {});
    const other = openBook({ empty: true });
    await other.must('shelf.import', { text });
    expect((await other.must('shelf.export', {})).text).toBe(text);
    expect((await other.must('shelf.bottle', { id })).tests).toHaveLength(2);
  });
});

describe('shelf files', () => {
  test('what is exported comes in again as the same shelf', async () => {
    const { must } = openBook();
    const { text } = await must('shelf.export', {});
    const other = openBook({ empty: true });
    const { bottles } = await other.must('shelf.import', { text });
    expect(bottles).toBeGreaterThan(10);
    expect((await other.must('shelf.export', {})).text).toBe(text);
  });

  test('materials whose names read alike in a file, one of them ending in a number, stay apart', async () => {
    const { must } = openBook({ empty: true });
    const names = [
      'Harz 3',
      'Harz',
      'harz!',
      '[Harz]',
      'Harz 2',
      'material 7',
      'ハルツ',
      'материал',
      'material 2',
      '松脂',
      '__proto__',
    ];
    for (const name of names) await must('shelf.add', newBottle({ material: { name, formula: 'C14H10O2' } }));
    const { text } = await must('shelf.export', {});
    const other = openBook({ empty: true });
    await other.must('shelf.import', { text });
    const { materials, bottles } = JSON.parse((await other.must('shelf.export', {})).text) as Shelf;
    expect(bottles.map(({ material }) => materials[material]?.name)).toEqual(names);
  });

  test('a file with a bottle that is on the shelf already is refused whole, with its place', async () => {
    const { call, must, keeper } = openBook();
    const { text } = await must('shelf.export', {});
    const before = keeper.database().get<{ count: number }>('SELECT count(*) AS count FROM ledger');
    const shelf = JSON.parse(text) as { bottles: { id: string }[] };
    const [, second] = shelf.bottles;
    for (const [index, bottle] of shelf.bottles.entries()) if (bottle !== second) bottle.id = `new-${index}`;
    const refused = await call('shelf.import', { text: JSON.stringify(shelf) });
    expect(refused).toMatchObject({
      ok: false,
      code: 'refused',
      problems: [{ at: '/bottles/1/id', words: `a bottle ${second?.id} is already on the shelf` }],
    });
    expect(keeper.database().get('SELECT count(*) AS count FROM ledger')).toEqual(before);
  });

  test('bottles that read alike but for their label are told; a kind that is none is told with those there are', async () => {
    const { call, must } = openBook({ empty: true });
    const twin = { material: 'm', form: { kind: 'neat', assayPercent: 98 }, left: 5, unit: 'g', lot: 'L1' };
    const file = (bottles: readonly unknown[]) => ({
      text: JSON.stringify({ backweigh: 'shelf', version: 1, materials: { m: { name: 'benzil' } }, bottles }),
    });
    const { lot, ...rest } = twin;
    const other = { ...twin, lot: 'L2' };
    const answer = await must(
      'shelf.import',
      file([
        { id: 'A', ...twin },
        { id: 'B', ...other },
        { id: 'C', lot, ...rest },
      ]),
    );
    expect(answer).toEqual({ intake: 1, bottles: 3, twins: [['A', 'C']] });
    const refused = await call('shelf.import', file([{ ...twin, id: 'D', form: { kind: 'powder' } }]));
    expect(refused).toMatchObject({
      problems: [{ at: '/bottles/0/form/kind', words: '"kind" needs to be "neat", "solution" or "unknown" (got "powder")' }],
    });
  });

  test('a strength above the pure material is refused: in a file at its place, and for a single bottle', async () => {
    const { call, keeper } = openBook({ empty: true });
    const peroxide = { name: 'hydrogen peroxide', cas: '7722-84-1', formula: 'H2O2' };
    const form = (value: number, basis: '% w/w' | 'mol/L') => ({ kind: 'solution' as const, strength: { value, basis } });
    const file = {
      backweigh: 'shelf',
      version: 1,
      materials: { peroxide },
      bottles: [
        { id: 'P1', material: 'peroxide', form: form(30, '% w/w'), left: 500, unit: 'mL' },
        { id: 'P2', material: 'peroxide', form: form(130, '% w/w'), left: 500, unit: 'mL' },
        { id: 'P3', material: 'peroxide', form: form(50, 'mol/L'), left: 500, unit: 'mL' },
      ],
    };
    const refused = await call('shelf.import', { text: JSON.stringify(file) });
    expect(refused).toMatchObject({
      ok: false,
      problems: [
        { at: '/bottles/1/form/strength/value', words: 'a strength needs to be at most 100 % w/w (got 130 % w/w)' },
        {
          at: '/bottles/2/form/strength/value',
          words: 'a strength needs to be at most that of the pure material, about 42.6 mol/L at 1.45 g/mL (got 50 mol/L)',
        },
      ],
    });
    const one = await call('shelf.add', newBottle({ material: peroxide, form: form(130, '% w/w'), unit: 'mL' }));
    expect(one).toMatchObject({ ok: false, code: 'invalid input' });
    expect(keeper.database().get('SELECT count(*) AS count FROM bottle')).toEqual({ count: 0 });
  });

  test('a structure that does not fit its formula is refused at its place, and nothing is taken in', async () => {
    const { call, keeper } = openBook({ empty: true });
    const shelf = (smiles: string) => ({
      backweigh: 'shelf',
      version: 1,
      materials: { m: { name: 'mesitylene', formula: 'C9H12', smiles } },
      bottles: [{ id: 'N1', material: 'm', form: { kind: 'neat' }, left: 5, unit: 'g' }],
    });
    const refused = await call('shelf.import', { text: JSON.stringify(shelf('Cc1ccccc1')) });
    expect(refused).toMatchObject({
      code: 'refused',
      problems: [{ at: '/materials/m/smiles', words: expect.stringContaining('C7H8') }],
    });
    expect(keeper.database().get('SELECT count(*) AS count FROM ledger')).toEqual({ count: 0 });
    expect(await call('shelf.import', { text: JSON.stringify(shelf('Cc1cc(C)cc(C)c1')) })).toEqual({
      ok: true,
      value: { intake: 1, bottles: 1, twins: [] },
    });
  });

  test('a large file is found again in every bottle, and so is what comes after it', async () => {
    const { must, keeper } = openBook({ empty: true });
    const count = 2500;
    const bottles = Array.from({ length: count }, (_none, index) => ({
      id: `N${index}`,
      material: 'm',
      form: { kind: 'neat' },
      left: index,
      unit: 'g',
      lot: `lot-${index}`,
    }));
    const shelf = { backweigh: 'shelf', version: 1, materials: { m: { name: 'mesitylene' } }, bottles };
    expect(await must('shelf.import', { text: JSON.stringify(shelf) })).toEqual({ intake: 1, bottles: count, twins: [] });
    await must('shelf.add', newBottle({ lot: 'lot-afterwards' }));
    const total = async (search: string) => (await must('shelf.list', { search, from: 0, count: 1, sort: 'name' })).total;
    expect([await total('mesityl'), await total('lot-2499'), await total('lot-afterwards')]).toEqual([count, 1, 1]);
    expect([damageIn(keeper.database(), 'full'), wrongSums(keeper.database())]).toEqual([[], []]);
  });
});
