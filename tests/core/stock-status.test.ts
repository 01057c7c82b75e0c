import { describe, expect, test } from 'vitest';
import { sessionOf } from '../../src/core/paper/session.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { FetchLine, PlanResult } from '../../src/core/plan/result.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { onHandText } from '../../src/core/paper/on-hand-text.ts';
import { passedOverText } from '../../src/core/paper/passed-over-text.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { type Bottle, EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, planOf, route, settings, step, TODAY } from './build.ts';

// 1 mol of NaCl is 58.43976928 g, 1 mol of NaOH 39.997 g (CIAAW 2021, conventional where it gives an interval), so 200 g of 20 % lye.
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
const charge = (id: string, material: string, more: Partial<Operation> = {}): Operation =>
  ({ do: 'charge', id, stage: 'reaction', material, rule: { kind: 'equivalents', equivalents: 1 }, ...more }) as Operation;
const PAST = { useBy: '2026-11-24' };

function planned(charges: readonly Operation[], bottles: readonly Bottle[]): PlanResult {
  const one = route(
    {
      a: 'C6H6',
      b: 'C6H6',
      lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2', state: 'solid' },
      salt: { name: 'salt', formula: 'NaCl', state: 'solid' },
    },
    [step({ id: '1', basis: 'a', product: 'b', more: charges })],
  );
  return planOf(one, [draw('b', 1, 'mol')], bottles);
}
function lineOf(result: PlanResult, material: string): FetchLine {
  const found = result.fetch.find((line) => line.material === material);
  if (!found) throw new Error(`no line of ${material}`);
  return found;
}
const salt = (id: string, left: number, more: Partial<Bottle> = {}, form: Form = { kind: 'neat' }): Bottle =>
  bottle('salt', left, 'g', form, { id, lot: id, ...more });
const lye = (id: string, left: number, form: Form, more: Partial<Bottle> = {}): Bottle =>
  bottle('lye', left, 'g', form, { id, lot: id, ...more });
const saltOf = (bottles: readonly Bottle[], more: Partial<Operation> = {}) =>
  lineOf(planned([charge('s', 'salt', more)], bottles), 'salt');
const lyeOf = (bottles: readonly Bottle[]) =>
  lineOf(planned([charge('l', 'lye', { form: percent(20) } as never)], bottles), 'lye');

describe('what a line says, and to the milligram', () => {
  test('short by a milligram is short; not short at all is enough', () => {
    expect(saltOf([salt('B1', 58.43876928)])).toMatchObject({ status: 'short', short: { value: expect.closeTo(0.001, 9) } });
    expect(saltOf([salt('B1', 30), salt('B2', 28.43976928)]).status).toBe('enough');
  });

  test('out of date: what would cover it is past its date, the day before', () => {
    const line = saltOf([salt('B1', 60, PAST), salt('B2', 10)]);
    expect(line).toMatchObject({ status: 'out of date', onHand: { value: 10 } });
    expect(line.passedOver).toEqual([
      { bottle: 'B1', lot: 'B1', why: 'out of date', left: 60, unit: 'g', useBy: '2026-11-24', wouldCover: true },
    ]);
    expect(saltOf([salt('B1', 60, { useBy: TODAY })]).status).toBe('enough');
  });

  test('hexanes are not hexane: neither is taken for the other, both as material and as solvent, and that they are there is told', () => {
    const one = route({ a: 'C6H6', b: 'C6H6', hex: { name: 'hexane', cas: '110-54-3', formula: 'C6H14' } }, [
      step({ id: '1', basis: 'a', product: 'b', more: [charge('h', 'hex', { rule: { kind: 'equivalents', equivalents: 1 } })] }),
    ]);
    const shelf = (name: string, left: number) => ({
      ...EMPTY_SHELF,
      materials: { x: { name } },
      bottles: [{ id: 'H', lot: 'H', material: 'x', form: { kind: 'neat' as const }, left, unit: 'mL' as const }],
    });
    const lineWith = (name: string, left = 2500) =>
      lineOf(
        plan({
          route: one,
          ask: { name: 'p', draws: [draw('b', 1, 'mol')] },
          shelf: shelf(name, left),
          settings,
          reference,
          asOf: TODAY,
        }),
        'hex',
      );
    for (const name of ['hexanes', 'Hexanes', 'n-hexanes']) {
      const line = lineWith(name);
      expect(line).toMatchObject({ status: 'short', onHand: { value: 0 }, bottles: [] });
      expect(line.passedOver.map((each) => passedOverText(each, '.'))).toEqual([
        `entered as “${name}”, another material: not counted (2500\u00a0mL)`,
      ]);
    }
    expect(lineWith('hexane')).toMatchObject({ status: 'enough', passedOver: [] });
    expect(lineWith('heptane').passedOver).toEqual([]);
    // As the solvent of a solution.
    const molar = (solvent: string): Form => ({ kind: 'solution', strength: { value: 2, basis: 'mol/L' }, solvent });
    const inHexanes = (left: number) =>
      lineOf(
        planned(
          [charge('l', 'lye', { form: molar('hexane') } as never)],
          [
            bottle('lye', left, 'mL', molar('hexanes'), { id: 'L', lot: 'L' }),
            bottle('lye', 600, 'mL', molar('hexane'), { id: 'M', lot: 'M', heldBack: left > 100 }),
          ],
        ),
        'lye',
      );
    expect(inHexanes(600).passedOver.map((each) => passedOverText(each, '.'))).toEqual([
      expect.stringContaining('held back'),
      'in hexanes, another solvent than asked for: not counted (600\u00a0mL)',
    ]);
    // Where there is enough, it is no news.
    expect(inHexanes(50)).toMatchObject({ status: 'enough', passedOver: [] });
  });

  test('what several assays cover is said as it is weighed in all, what one covers as that one, also where another would come first', () => {
    const of = (assayPercent: number): Form => ({ kind: 'neat', assayPercent });
    // 58.44 g of pure salt: 50 g of 98 % hold 49 g, and 9.937 g of 95 % the other 9.44 g.
    const both = saltOf([salt('B1', 50, { useBy: '2027-01-31' }, of(98)), salt('B2', 20, {}, of(95))]);
    expect(both).toMatchObject({ status: 'enough', form: { kind: 'neat' }, formWords: 'assay 98 % w/w and assay 95 % w/w' });
    expect(both.form).not.toHaveProperty('assayPercent');
    const weighed = 50 + (58.43976928 - 49) / 0.95;
    expect(both.need.value).toBeCloseTo(weighed, 8);
    expect(both.bottles.map(({ amount }) => amount)).toEqual([50, expect.closeTo((58.43976928 - 49) / 0.95, 8)]);
    expect(both.bottles.reduce((sum, { worth }) => sum + worth, 0)).toBeCloseTo(weighed, 8);
    // The first to expire does not suffice, the other does alone.
    const one = saltOf([salt('B1', 5, { useBy: '2027-01-31' }, of(80)), salt('B2', 100, {}, of(95))]);
    expect(one).toMatchObject({ status: 'enough', formWords: 'assay 95 % w/w', bottles: [{ bottle: 'B2' }] });
    expect(one.need.value).toBeCloseTo(58.43976928 / 0.95, 8);
  });

  test('on hand is what stands in the bottles, not a sum corrected for assay that nobody could weigh', () => {
    const neat = (assayPercent?: number): Form => ({ kind: 'neat', ...(assayPercent ? { assayPercent } : {}) });
    // 25 g at 97 % and 12.5 g of pure salt are 37.9 g at 97 %: no balance ever shows that.
    const line = saltOf([salt('A-9', 25, { useBy: '2027-01-31' }, neat(97)), salt('A-2', 12.5, {}, neat())]);
    expect(onHandText(line, '.').replaceAll('\u00a0', ' ')).toBe('25.0 g (assay 97 % w/w) in lot A-9, 12.5 g in lot A-2');
    // One of them is enough: the line is said in its assay, the other's own stands beside it.
    const one = planned(
      [charge('s', 'salt', { rule: { kind: 'equivalents', equivalents: 0.1 } })],
      [salt('A-9', 25, { useBy: '2027-01-31' }, neat(97)), salt('A-2', 12.5, {}, neat())],
    );
    expect(onHandText(lineOf(one, 'salt'), '.').replaceAll('\u00a0', ' ')).toBe('25.0 g in lot A-9, 12.5 g (neat) in lot A-2');
    // All alike: one sum.
    expect(onHandText(saltOf([salt('B1', 50), salt('B2', 20)]), '.')).toBe('70.0\u00a0g');
    const many = ['1', '2', '3', '4', '5', '6'].map((id) => salt(id, 5, {}, neat(97)));
    expect(onHandText(saltOf(many), '.')).toMatch(/, 2 more bottles$/);
  });

  test('a solvent by another of its names is the same solvent; another one is not', () => {
    const molar = (solvent: string): Form => ({ kind: 'solution', strength: { value: 2, basis: 'mol/L' }, solvent });
    // Synonyms from the built-in table: THF, Et2O. 1 mol of 2 mol/L is 500 mL.
    const inSolvent = (there: string, asked: string) =>
      lineOf(
        planned(
          [charge('l', 'lye', { form: molar(asked) } as never)],
          [bottle('lye', 600, 'mL', molar(there), { id: 'L', lot: 'L' })],
        ),
        'lye',
      );
    expect(inSolvent('THF', 'tetrahydrofuran')).toMatchObject({ status: 'enough', onHand: { value: 600 } });
    expect(inSolvent('diethyl  ether', 'Et2O').status).toBe('enough');
    expect(inSolvent('Some solvent', 'some solvent').status).toBe('enough');
    for (const other of ['tetrahydrofuran', 'hexanes', 'nothing known']) expect(inSolvent('Et2O', other).status).toBe('short');
  });

  test('past its date but too little even so is short', () => {
    expect(saltOf([salt('B1', 40, PAST), salt('B2', 10)])).toMatchObject({
      status: 'short',
      passedOver: [{ why: 'out of date', wouldCover: false }],
    });
  });

  test('held back: short, and said that the bottle would cover it', () => {
    expect(saltOf([salt('B1', 60, { heldBack: true })])).toMatchObject({
      status: 'short',
      passedOver: [{ bottle: 'B1', why: 'held back', wouldCover: true }],
    });
  });

  test('too impure stays too impure, also past its date', () => {
    const line = saltOf([salt('B1', 90, PAST, { kind: 'neat', assayPercent: 97 })], { leastAssayPercent: 99 } as never);
    expect(line).toMatchObject({ status: 'short', passedOver: [{ why: 'assay too low', assayPercent: 97, wouldCover: null }] });
  });

  test('what is covered says nothing of what a bottle passed over would do', () => {
    expect(saltOf([salt('B1', 90, PAST), salt('B2', 90)])).toMatchObject({
      status: 'enough',
      short: null,
      passedOver: [{ bottle: 'B1', wouldCover: null }],
    });
  });

  test('unknown strength only where it would be enough at the strength asked for', () => {
    expect(lyeOf([lye('U', 250, { kind: 'unknown' })])).toMatchObject({
      status: 'unknown strength',
      passedOver: [{ why: 'unknown strength', wouldCover: true }],
    });
    expect(lyeOf([lye('U', 150, { kind: 'unknown' })])).toMatchObject({
      status: 'short',
      passedOver: [{ why: 'unknown strength', wouldCover: false }],
    });
    expect(lyeOf([lye('U', 150, { kind: 'unknown' }), lye('L', 60, percent(20))]).status).toBe('unknown strength');
  });

  test('a stronger bottle past its date counts by what it contains: 90 g of 50 % lye make 225 g of 20 %', () => {
    expect(lyeOf([lye('S', 90, percent(50), PAST)])).toMatchObject({ status: 'out of date', passedOver: [{ wouldCover: true }] });
    expect(lyeOf([lye('S', 70, percent(50), PAST)])).toMatchObject({ status: 'short', passedOver: [{ wouldCover: false }] });
  });

  test('a make-up is better than a test of what is past its date', () => {
    expect(lyeOf([lye('P', 900, percent(20), PAST), lye('S', 90, percent(50))]).status).toBe('make up');
  });
});

describe('several charges of one material', () => {
  test('the purest asked for chooses first: 96 % serves whoever does not mind', () => {
    const bottles = [
      salt('pure', 58.5, { useBy: '2026-12-01' }, { kind: 'neat', assayPercent: 100 }),
      salt('usual', 70, {}, { kind: 'neat', assayPercent: 96 }),
    ];
    const result = planned([charge('any', 'salt'), charge('best', 'salt', { leastAssayPercent: 99 } as never)], bottles);
    expect(result.fetch.filter((line) => line.material === 'salt').map((line) => [line.status, line.bottles[0]?.bottle])).toEqual(
      [
        ['enough', 'usual'],
        ['enough', 'pure'],
      ],
    );
  });

  test('two strengths from one bottle: what would only stay in the glass is given up before anything is short', () => {
    // 1 mol as 10 % and 1 mol as 20 %: 79.994 g of pellets; 81 g are there, 5 % more for the first would leave 39.0 g.
    const two = (left: number) =>
      planned(
        [charge('w', 'lye', { form: percent(10) } as never), charge('s', 'lye', { form: percent(20) } as never)],
        [lye('P', left, { kind: 'neat' })],
      );
    expect(two(81).makeUps.map((one) => one.excessPercent)).toEqual([0, 0]);
    expect(
      two(81)
        .fetch.filter((line) => line.material === 'lye')
        .map((line) => line.status),
    ).toEqual(['make up', 'make up']);
    expect(two(90).makeUps.map((one) => one.excessPercent)).toEqual([5, 5]);
    expect(
      two(79)
        .fetch.filter((line) => line.material === 'lye')
        .map((line) => line.status)
        .sort(),
    ).toEqual(['make up', 'short']);
  });
});

describe('the masses of a make-up, worked out by hand', () => {
  // 1 mol of NaOH is 39.99676928 g; made up with 5 % more, 41.996607744 g.
  const made = (bottles: readonly Bottle[]) => planned([charge('l', 'lye', { form: percent(20) } as never)], bottles).makeUps[0];

  test('20 % from 50 %: ÷ 0.2 is the whole, ÷ 0.5 what is taken, the rest water', () => {
    const one = made([lye('L', 300, percent(50))]);
    expect(one?.grams.value).toBeCloseTo(209.98303872, 8);
    expect(one?.parts.map((part) => part.takeGrams.value)).toEqual([expect.closeTo(83.993215488, 8)]);
    expect(one?.waterGrams.value).toBeCloseTo(125.989823232, 8);
  });

  test('20 % from 10 g of pellets and 50 %: (41.996607744 − 10) ÷ 0.5 of the lye', () => {
    const one = made([lye('P', 10, { kind: 'neat' }, { useBy: '2027-01-31' }), lye('L', 70, percent(50))]);
    expect(one?.parts.map((part) => part.takeGrams.value)).toEqual([10, expect.closeTo(63.993215488, 8)]);
    expect(one?.waterGrams.value).toBeCloseTo(135.989823232, 8);
  });

  test('a stronger bottle chosen by hand is used first, though another alone would do', () => {
    const one = route({ a: 'C6H6', b: 'C6H6', lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2' } }, [
      step({ id: '1', basis: 'a', product: 'b', more: [charge('l', 'lye', { form: percent(20) } as never)] }),
    ]);
    const bottles = [lye('L', 300, percent(50)), lye('P', 10, { kind: 'neat' })];
    const result = planOf(one, [draw('b', 1, 'mol')], bottles, { ask: { useFirst: ['P'] } });
    expect(result.makeUps[0]?.parts.map((part) => part.from.bottle)).toEqual(['P', 'L']);
  });
});

describe('what goes on until an end point', () => {
  const until = charge('w', 'salt', {
    rule: { kind: 'until', endPoint: 'clear', estimate: { kind: 'equivalents', equivalents: 1 }, atMost: 3 },
  } as never);

  test('is short where the largest amount is not in hand, though the estimate is', () => {
    const result = planned([until], [salt('B1', 100)]);
    const line = lineOf(result, 'salt');
    expect(line).toMatchObject({ status: 'short', onHand: { value: expect.closeTo(100, 9) } });
    expect(line.short?.value).toBeCloseTo(3 * 58.43976928 - 100, 6);
    expect(sessionOf(result, [{ step: '1', batch: 1 }]).lines.find((one) => one.line === line)?.status).toBe('short');
    expect(lineOf(planned([until], [salt('B1', 176)]), 'salt').status).toBe('enough');
  });

  test('what is kept ready for it is not counted for another', () => {
    const [first, second] = planned(
      [until, charge('x', 'salt', { leastAssayPercent: 99 } as never)],
      [salt('B1', 200)],
    ).fetch.filter((line) => line.material === 'salt');
    expect([first?.status, second?.status]).toEqual(['short', 'enough']);
    expect(first?.short?.value).toBeCloseTo(4 * 58.43976928 - 200, 6);
  });
});
