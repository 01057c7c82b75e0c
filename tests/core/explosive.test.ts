import { describe, expect, test } from 'vitest';
import { chartGroupsOf } from '../../src/core/bench/chart.ts';
import { explosiveIn } from '../../src/core/bench/explosive.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { type Form, NEAT } from '../../src/core/matter/form.ts';
import { makeSolution } from '../../src/core/matter/make-solution.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { mostTarget } from '../../src/core/plan/forward/most-target.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { indexReference } from '../../src/core/reference.ts';
import { mostTargetWords } from '../../src/core/words/most-target-words.ts';
import { planText } from '../../src/core/words/plan-text.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, planOf, route, settings, shelfOf, step, TODAY } from './build.ts';

/** Neutral structures with statements of their own: what they are does not matter here. */
const named = (name: string, hazards: readonly string[]) => ({ name, formula: 'C8H8O2', hazards: [...hazards] });
const chain = (made: readonly string[], charged: readonly string[] = []) =>
  route({ a: 'C8H8O2', b: named('intermediate', made), c: 'C8H8O2', r: named('reagent', charged) }, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
    step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80, equivalents: { r: 1 } }),
  ]);
const refusals = (result: ReturnType<typeof planOf>) => result.notices.filter((one) => one.code === 'explosive not scaled');

describe('a step classed as explosive is not scaled', () => {
  test.each(['H200', 'H201', 'H203', 'H206', 'H211', 'H240', 'H241'])(
    'its product carries %s: no amounts at all, and the reason',
    (code) => {
      const result = planOf(chain([code]), [draw('c', 10)]);
      expect(result.solved).toBe(false);
      expect(result.steps).toEqual([]);
      expect(result.fetch).toEqual([]);
      const [notice] = refusals(result);
      expect(notice).toMatchObject({ level: 'error', at: { step: '1', material: 'b' } });
      expect(notice && sentence(notice)).toMatch(
        new RegExp(
          `makes intermediate, which is classed as (?:explosive|a desensitised explosive) \\(${code}\\).*licensed people`,
        ),
      );
      // Nothing with a unit of amount is printed for any step.
      expect(planText(result, { kind: 'unknown' }, () => [])).not.toMatch(/\d\s*(g|mL|mol)\b.*intermediate/);
    },
  );

  test('is refused before its formula is asked for', () => {
    const one = route({ a: 'C8H8O2', b: { name: 'picric acid' } }, [step({ id: '1', basis: 'a', product: 'b' })]);
    const result = planOf(one, [draw('b', 10, 'g')]);
    expect(result.solved).toBe(false);
    expect(result.notices.map(({ code }) => code)).toEqual(['explosive not scaled']);
    const without = planOf(one, [draw('b', 10, 'g')], [], { ask: { leaveOut: ['1'] } });
    expect(refusals(without)).toEqual([]);
  });

  test.each(['H202', 'H205'])('a charge that is an explosive (%s) makes the mixture one', (code) => {
    const result = planOf(chain([], [code]), [draw('c', 10)]);
    expect(refusals(result)[0]).toMatchObject({ at: { step: '2', material: 'r' }, values: { how: 'charged' } });
  });

  describe('a mixture that the table names as explosive from a strength on', () => {
    const cas = '9999999-99-9';
    const hazards = [
      { cas, statements: ['H201'], pictograms: [], signal: null, fromPercent: 30, toPercent: null, source: 'a test' },
      { cas, statements: ['H302'], pictograms: [], signal: null, fromPercent: null, toPercent: 30, source: 'a test' },
    ];
    const tables = indexReference({ ...reference.rows, hazards: [...reference.rows.hazards, ...hazards] });
    const facts = new Map([['mix', factsOf({ name: 'mixture', cas }, tables)]]);
    const charging = (form: Form | undefined) =>
      explosiveIn(
        step({
          id: '1',
          basis: 'a',
          product: 'b',
          more: [
            {
              do: 'charge',
              id: 'm',
              stage: 'reaction',
              material: 'mix',
              ...(form ? { form } : {}),
              rule: { kind: 'equivalents', equivalents: 1 },
            },
          ],
        }),
        facts,
        tables,
      );
    const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });

    test('refused at and above it, and where its strength is not known; told of below', () => {
      expect(charging(percent(40))).toMatchObject({ name: 'mixture', codes: 'H201', how: 'charged' });
      expect(charging(undefined)).toMatchObject({ codes: 'H201' });
      expect(charging({ kind: 'unknown' })).toMatchObject({ codes: 'H201' });
      expect(charging(percent(10))).toBeNull();
    });
    test('made by a step it counts as pure, whatever it is isolated as', () => {
      expect(explosiveIn(step({ id: '1', basis: 'a', product: 'mix' }), facts, tables)).toMatchObject({ how: 'made' });
    });
    test('in a waste container or vessel its statement makes it an explosive of the chart', () => {
      const one = facts.get('mix');
      expect(one && chartGroupsOf(one, tables)).toEqual([102]);
    });
  });

  test('joined codes are looked at one by one', () => {
    expect(refusals(planOf(chain(['H240+H301']), [draw('c', 10)]))).toHaveLength(1);
  });

  test.each(['H224', 'H242', 'H271', 'H272', 'H300'])('%s alone is told of, not refused', (code) => {
    const result = planOf(chain([code], [code]), [draw('c', 10)]);
    expect(refusals(result)).toEqual([]);
    expect(result.solved).toBe(true);
  });

  test.each(['H209', 'H210', 'H211'])('%s of a charge makes the mixture one', (code) => {
    expect(refusals(planOf(chain([], [code]), [draw('c', 10)]))).toHaveLength(1);
  });

  describe('ways around it', () => {
    const structured = (smiles: string, formula: string, more: Partial<Material> = {}): Material => ({
      name: 'intermediate',
      formula,
      smiles,
      ...more,
    });
    const through = (b: Material) =>
      planOf(
        route({ a: 'C8H8O2', b, c: 'C8H8O2', d: 'C8H8O2' }, [
          step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
          step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
          step({ id: '3', basis: 'c', product: 'd', yieldPercent: 80 }),
        ]),
        [draw('d', 10)],
      );
    // Textbook structures, each of a kind whose known members are classed H200 or H201; azides by (C + O) ÷ N below 3.
    test.each([
      ['three nitro groups', 'Cc1c([N+](=O)[O-])cc([N+](=O)[O-])cc1[N+](=O)[O-]', 'C7H5N3O6'],
      ['nitrate esters', 'O=[N+]([O-])OCCO[N+](=O)[O-]', 'C2H4N2O6'],
      ['an azide, C + O to N 7 to 3', '[N-]=[N+]=NCc1ccccc1', 'C7H7N3'],
      ['an azide of silver', '[Ag+].[N-]=[N+]=[N-]', 'AgN3'],
      ['two nitro groups on one carbon', 'NC(N)=C([N+](=O)[O-])[N+](=O)[O-]', 'C2H4N4O4'],
      ['two nitramines', 'O=N(=O)NCCNN(=O)=O', 'C2H6N4O4'],
      ['a small nitramine', 'NC(=N)N[N+](=O)[O-]', 'CH4N4O2'],
      ['a small nitrate', 'CO[N+](=O)[O-]', 'CH3NO3'],
      ['a perchlorate ester', 'CCO[Cl](=O)(=O)=O', 'C2H5ClO4'],
      ['a diazonium perchlorate', 'c1ccccc1[N+]#N.[O-]Cl(=O)(=O)=O', 'C6H5ClN2O4'],
    ])(
      'by its structure alone, without a statement or a number, two steps before what is wanted: %s',
      (_what, smiles, formula) => {
        const result = through(structured(smiles, formula));
        expect(result.solved).toBe(false);
        expect(result.steps).toEqual([]);
        const [notice] = refusals(result);
        expect(notice && sentence(notice)).toMatch(
          /makes intermediate, which by its structure .* counts as explosive here.*licensed people/,
        );
      },
    );
    test.each([
      ['one nitro group', 'O=[N+]([O-])c1ccccc1', 'C6H5NO2'],
      ['a long azide', '[N-]=[N+]=NCCCCCCCCCCC', 'C11H23N3'],
      ['one peroxide', 'CC(C)(C)OOC(C)(C)C', 'C8H18O2'],
      ['a dinitroarene', 'Cc1ccc([N+](=O)[O-])cc1[N+](=O)[O-]', 'C7H6N2O4'],
      ['a long nitrate', 'CCCCC(CC)CO[N+](=O)[O-]', 'C8H17NO3'],
      ['a diazonium salt with one nitro group', 'N#[N+]c1ccc([N+](=O)[O-])cc1.F[B-](F)(F)F', 'C6H4BF4N3O2'],
      ['a perchlorate', '[Li+].[O-]Cl(=O)(=O)=O', 'ClLiO4'],
    ])('%s is told of, not refused', (_what, smiles, formula) => {
      expect(refusals(through(structured(smiles, formula)))).toEqual([]);
    });

    const cas = '9999999-99-9';
    const row = { cas, statements: ['H201'], pictograms: [], signal: null, fromPercent: null, toPercent: null, source: 'a test' };
    const tables = indexReference({ ...reference.rows, hazards: [...reference.rows.hazards, row] });
    test('statements written with a material take nothing from its harmonised entry', () => {
      const facts = new Map([['b', factsOf({ name: 'own', cas, hazards: ['H302'] }, tables)]]);
      expect(explosiveIn(step({ id: '1', basis: 'a', product: 'b' }), facts, tables)).toMatchObject({
        codes: 'H201',
        how: 'made',
      });
    });
    test('as a solvent of a charge, or that comes along with one', () => {
      const facts = new Map([
        ['x', factsOf({ name: 'Odd Solvent', hazards: ['H201'] }, reference)],
        ['r', factsOf({ name: 'reagent', formula: 'C8H8O2' }, reference)],
      ]);
      const rule = { kind: 'equivalents' as const, equivalents: 1 };
      const one = { do: 'charge' as const, id: 'r', stage: 'reaction' as const, material: 'r', rule };
      const form: Form = { kind: 'solution', strength: { value: 5, basis: '% w/w' }, solvent: 'odd solvent' };
      for (const charge of [
        { ...one, form },
        { ...one, carriedWith: { material: 'x', millilitresPerGram: 2 } },
      ]) {
        expect(explosiveIn(step({ id: '1', basis: 'a', product: 'b', more: [charge] }), facts, reference)).toMatchObject({
          name: 'Odd Solvent',
          how: 'charged',
        });
      }
    });
    test('asked the other way round, how much the shelf allows: the same refusal, and no amount', () => {
      const chained = chain(['H201']);
      const input = {
        route: chained,
        ask: { name: 'a plan', draws: [draw('c', 1)] },
        shelf: shelfOf(chained, [bottle('a', 500), bottle('r', 500)]),
        settings,
        reference,
        asOf: TODAY,
      };
      const most = mostTarget(input, 'draw-c', new Set(['a', 'r']));
      expect(most.kind).toBe('refused');
      expect(mostTargetWords(most).join()).toMatch(/classed as explosive \(H201\).*No amounts/);
    });
    test('made up into a solution: no amounts, and why', () => {
      const solute = factsOf({ name: 'own', formula: 'C8H8O2', hazards: ['H201'] }, reference);
      const form: Form = { kind: 'solution', strength: { value: 5, basis: '% w/w' } };
      const amount = { by: 'g', figure: entered('wanted', 100, 'g', 'a test') } as const;
      const made = makeSolution(
        { solute, form, amount, source: { facts: solute, form: NEAT }, weaker: null, celsius: 20 },
        reference,
      );
      expect(made.problem?.code).toBe('explosive not made up');
    });
    test('another maker of the same is no way round, and what is made apart from it can be planned', () => {
      const two = route({ a: 'C8H8O2', b: named('intermediate', ['H201']), c: 'C8H8O2', e: 'C8H8O2' }, [
        step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
        step({ id: '1b', basis: 'e', product: 'b', yieldPercent: 90 }),
        step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
      ]);
      expect(planOf(two, [draw('c', 10)]).solved).toBe(false);
      expect(planOf(two, [draw('c', 10)], [], { ask: { leaveOut: ['1'] } }).solved).toBe(false);
    });
  });

  test('left out, or covered by stock, the rest can be planned', () => {
    const one = chain(['H240']);
    expect(planOf(one, [draw('c', 10)], [], { ask: { leaveOut: ['1'] } }).solved).toBe(true);
    expect(planOf(one, [draw('c', 10)], [bottle('b', 500)]).solved).toBe(true);
  });
});
