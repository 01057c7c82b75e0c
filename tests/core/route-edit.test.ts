import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { addCharge } from '../../src/core/procedure/add-charge.ts';
import { newRouteOf } from '../../src/core/procedure/enter-step.ts';
import { readChargeLine, withSaid } from '../../src/core/procedure/charge-line.ts';
import { materialChoices } from '../../src/core/route/choose-material.ts';
import { balancedEquation } from '../../src/core/route/balance-equation.ts';
import { compareRoutes } from '../../src/core/route/compare-routes.ts';
import { withBasis } from '../../src/core/route/edit-basis.ts';
import { changeMaterial, factsOfRoute, unnamedMaterials } from '../../src/core/route/edit-materials.ts';
import {
  addOperation,
  changeOperation,
  dropOperation,
  duplicateOperation,
  moveOperation,
  removeOperation,
} from '../../src/core/route/edit-operations.ts';
import {
  addStep,
  branchOf,
  duplicateStep,
  newRoute,
  noteRoute,
  removeStep,
  renameRoute,
} from '../../src/core/route/edit-steps.ts';
import { formulaChoice } from '../../src/core/route/formula-question.ts';
import { equationText, readEquation, withEquation } from '../../src/core/route/equation-text.ts';
import { CHARGE_FIELDS, HOLD_FIELDS, REMOVAL_FIELDS } from '../../src/core/route/operation-fields.ts';
import { MATERIAL_FIELDS } from '../../src/core/route/material-fields.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Charge, Route, Step } from '../../src/core/route/route.ts';
import { STEP_FIELDS } from '../../src/core/route/step-fields.ts';
import { toldApart } from '../../src/core/route/told-apart.ts';
import type { Written } from '../../src/core/route/text-field.ts';
import { STEP_MORE_FIELDS } from '../../src/core/route/step-more-fields.ts';
import { runStep } from '../../src/core/plan/step/run-step.ts';
import { computed } from '../../src/core/quantity/figure.ts';
import { withFormulaOrStructure, withStructure } from '../../src/core/structure/formula-or-structure.ts';
import { draw, planOf } from './build.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';

const RESOURCES = join(import.meta.dirname, '..', '..', 'resources');
const demo = JSON.parse(readFileSync(join(RESOURCES, 'demo', 'practicals.route.json'), 'utf8')) as Route;

function chosen(name: string, route: Route | null = null) {
  const [first] = materialChoices(name, route, reference);
  if (!first) throw new Error(`${name} means nothing`);
  return first.choice;
}

function line(route: Route, step: string, text: string): Route {
  const read = readChargeLine(text);
  if (!read.ok) throw new Error(`${text}: ${read.words}`);
  const added = addCharge(route, step, chosen(read.name, route), read, reference);
  if (!added.ok) throw new Error(`${text}: ${added.problems[0]?.words}`);
  return added.route;
}

function benzil(): { readonly route: Route; readonly step: string } {
  const made = newRoute('Benzil', { product: chosen('benzil'), basis: chosen('benzoin'), printed: '20.0 g (94.2 mmol)' });
  if (!made.ok) throw new Error(made.problems[0]?.words);
  return made;
}

const charges = (route: Route): readonly Charge[] =>
  route.steps.flatMap((step) => step.operations.flatMap((one) => (one.do === 'charge' ? [one] : [])));

describe('a route from nothing', () => {
  test('a step from a printed procedure: ratios follow from the prints', () => {
    const { route, step } = benzil();
    const lines = [
      '68 % w/w nitric acid 100 mL',
      'water 400 mL, quench',
      'ethanol 3 × 40 mL, wash',
      'sodium sulfate 5 g, drying',
    ];
    const full = lines.reduce((now, text) => line(now, step, text), route);
    expect(charges(full).map((one) => [full.materials[one.material]?.name, one.stage, one.rule.kind])).toEqual([
      ['benzoin', 'reaction', 'basis'],
      ['nitric acid', 'reaction', 'equivalents'],
      ['water', 'quench', 'volumes'],
      ['ethanol', 'work-up', 'volumes'],
      ['sodium sulfate', 'work-up', 'mass ratio'],
    ]);
    const acid = charges(full)[1];
    expect(acid?.form).toMatchObject({ kind: 'solution', strength: { value: 68, basis: '% w/w' } });
    // 100 mL × 1.405 g/mL × 0.68 ÷ 63.013 g/mol = 1.516 mol, over 94.2 mmol (rounded prints).
    expect(acid?.rule.kind === 'equivalents' && acid.rule.equivalents).toBeCloseTo(16.09, 1);
    const wash = charges(full)[3];
    expect(wash?.portions).toBe(3);
    expect(wash?.rule.kind === 'volumes' && wash.rule.millilitresPerGram).toBeCloseTo(6, 2);
    expect(full.steps[0]?.yieldSource).toContain('not entered');
    expect(readRoute(JSON.stringify(full)).ok).toBe(true);
  });

  test('"concentrated" is a question where the trade knows two strengths, a marked strength where it knows one', () => {
    const { route, step } = benzil();
    const acid = readChargeLine('conc. nitric acid 20 mL');
    const sulfuric = readChargeLine('conc. sulfuric acid 20 mL');
    if (!acid.ok || !sulfuric.ok) throw new Error('not read');
    const asked = addCharge(route, step, chosen('nitric acid', route), acid, reference);
    expect(asked.ok ? '' : asked.problems[0]?.words).toContain('65 % w/w or 70 % w/w');
    const added = addCharge(route, step, chosen('sulfuric acid', route), sulfuric, reference);
    expect(added.ok && charges(added.route)[1]).toMatchObject({
      form: { kind: 'solution', strength: { value: 96, basis: '% w/w' } },
      note: '“concentrated” taken as 96 % w/w, the usual strength',
    });
  });

  test('a solution in another solvent keeps it; how a material looks is a note; a bare "solution" is of unknown strength', () => {
    const { route, step } = benzil();
    const add = (text: string) => {
      const read = readChargeLine(text);
      const first = read.ok ? materialChoices(read.name, route, reference)[0] : undefined;
      if (!read.ok || !first) throw new Error(text);
      const added = addCharge(route, step, first.choice, withSaid(read, first.said), reference);
      if (!added.ok) throw new Error(added.problems[0]?.words);
      return { name: added.route.materials[charges(added.route)[1]?.material ?? '']?.name, charge: charges(added.route)[1] };
    };
    expect(add('n-BuLi 2.5 M in hexane 40 mL')).toMatchObject({
      name: 'butyllithium',
      charge: { form: { kind: 'solution', strength: { value: 2.5, basis: 'mol/L' }, solvent: 'hexane' } },
    });
    expect(add('anhydrous magnesium sulfate 5 g, drying')).toMatchObject({
      name: 'magnesium sulfate',
      charge: { note: 'anhydrous, drying', stage: 'work-up' },
    });
    expect(add('sodium chloride solution 50 mL, wash').charge?.form).toEqual({ kind: 'unknown' });
    expect(add('saturated NaHCO3 50 mL, wash').charge?.form).toEqual({ kind: 'unknown' });
  });

  test('a yield that nobody entered is said in the plan, until it is', () => {
    const { route, step } = benzil();
    const codes = (one: Route, yields?: Record<string, number>) =>
      planOf(one, [draw('benzil', 1)], [], yields ? { ask: { yields } } : {}).steps.flatMap((each) =>
        each.notices.map((notice) => notice.code),
      );
    expect(codes(route)).toContain('yield not entered');
    expect(codes(route, { [step]: 80 })).not.toContain('yield not entered');
  });

  test('a dissolved reagent without a strength is of unknown strength, never neat', () => {
    const { route, step } = benzil();
    const read = readChargeLine('hydrogen chloride 0.2 mol');
    if (!read.ok) throw new Error(read.words);
    const added = addCharge(route, step, chosen('hydrogen chloride', route), read, reference);
    expect(added.ok && charges(added.route)[1]?.form).toEqual({ kind: 'unknown' });
  });

  test('what makes and what uses a material: steps stand in order, and one material is one', () => {
    const { route } = benzil();
    const before = addStep(route, { product: { key: 'benzoin' }, basis: chosen('benzaldehyde', route) });
    if (!before.ok) throw new Error('refused');
    const after = addStep(before.route, { product: chosen('2,3-diphenylquinoxaline'), basis: chosen('benzil', before.route) });
    expect(after.ok && after.route.steps.map((one) => one.title)).toEqual([
      'Benzoin from benzaldehyde',
      'Benzil from benzoin',
      '2,3-diphenylquinoxaline from benzil',
    ]);
    expect(after.ok && Object.keys(after.route.materials)).toHaveLength(4);
  });

  test('another name of what is in the route already is that material, not a new one', () => {
    const names = ['dichloromethane', 'DCM', 'methylene chloride', 'hydrochloric acid', 'hydrogen chloride', 'HCl'];
    const after = names.reduce((made, name) => line(made, 'benzil', `${name} 2 equiv`), demo);
    const added = Object.keys(after.materials).filter((key) => demo.materials[key] === undefined);
    expect(added).toEqual(['dichloromethane', 'hydrogen-chloride']);
    // What begins so is still offered from the route first, and each material once.
    const found = materialChoices('methylene', after, reference);
    expect(found[0]).toMatchObject({ choice: { key: 'dichloromethane' }, from: 'route', exact: false });
    expect(found.filter((one) => one.cas === '75-09-2')).toHaveLength(1);
  });

  test("a material of one's own can bring its formula along; without one the basis says what it lacks", () => {
    const named = materialChoices('4-nitroacetanilide (C8H8N2O3)', null, reference)[0];
    expect(named).toMatchObject({ from: 'own', name: '4-nitroacetanilide', formula: 'C8H8N2O3' });
    expect(materialChoices('benzil (C14H10O2)', null, reference)[0]).toMatchObject({ from: 'table', name: 'benzil' });
    const bare = newRouteOf('x', chosen('benzil'), { choice: chosen('some resin'), line: null, printed: '2.0 g' }, reference);
    if (!bare.ok) throw new Error('refused');
    const read = readChargeLine('bromine 1.0 g');
    if (!read.ok) throw new Error(read.words);
    const added = addCharge(bare.route, bare.step, chosen('bromine'), read, reference);
    expect(added.ok ? '' : added.problems[0]?.words).toContain('the basis some resin needs a formula');
  });

  test('what cannot be is refused with words, and nothing is changed', () => {
    expect(newRoute('  ', { product: chosen('benzil'), basis: chosen('benzoin') })).toMatchObject({ ok: false });
    expect(newRoute('x', { product: chosen('benzil'), basis: chosen('benzil') })).toMatchObject({ ok: false });
    const { route, step } = benzil();
    expect(removeStep(route, step)).toMatchObject({ ok: false });
    expect(removeOperation(route, step, 'charge')).toMatchObject({ ok: false });
    expect(renameRoute(route, '')).toMatchObject({ ok: false });
    expect(changeMaterial(route, 'benzoin', { name: 'benzoin', cas: '100-52-8' })).toMatchObject({
      ok: false,
      problems: [{ at: '/materials/benzoin/cas' }],
    });
  });
});

describe('equations in one line', () => {
  test('read, written and read again', () => {
    const { route, step } = benzil();
    const text = 'benzoin + 2 HNO3 -> C14H10O2 + 2 NO2 (g) + 2 H2O';
    const read = readEquation(text, route, reference);
    if (!read.ok) throw new Error(read.words);
    const edited = withEquation(route, step, read);
    if (!edited.ok) throw new Error(edited.problems[0]?.words);
    const [only] = edited.route.steps;
    expect(equationText(only as Step, edited.route)).toBe('benzoin + 2 nitric acid → benzil + 2 nitrogen dioxide ↑ + 2 water');
    expect(only?.product).toBe('benzil');
    const again = readEquation(equationText(only as Step, edited.route), edited.route, reference);
    expect(again.ok && withEquation(edited.route, step, again)).toEqual(edited);
  });

  test.each([
    ['benzoin', 7, 'arrow'],
    ['benzoin -> benzil -> water', 17, 'one arrow'],
    ['benzoin + nonsensium -> benzil', 10, 'nonsensium'],
    ['benzoin + -> benzil', 9, 'expected|not a material'],
    ['benzoin + benzoin -> benzil', 10, 'twice'],
  ])('%s is refused at its place', (text, at, words) => {
    const read = readEquation(text, benzil().route, reference);
    expect(read.ok).toBe(false);
    if (!read.ok) expect([read.at, read.words]).toEqual([at, expect.stringMatching(new RegExp(words))]);
  });
});

test('another basis: every amount in the vessel stays what it was', () => {
  const step = demo.steps.find(
    (one) => one.operations.filter((each) => each.do === 'charge' && each.rule.kind === 'equivalents').length > 0,
  ) as Step;
  const other = step.operations.find((one) => one.do === 'charge' && one.rule.kind === 'equivalents') as Charge;
  const facts = factsOfRoute(demo, reference);
  const changed = withBasis({ ...step, yieldPercent: 10 }, other.material, facts);
  if (!changed.ok) throw new Error(changed.words);
  const moles = other.rule.kind === 'equivalents' ? other.rule.equivalents : Number.NaN;
  const amounts = (one: Step, basisMoles: number) =>
    runStep({
      step: one,
      facts,
      reference,
      basisMoles: computed('basis', basisMoles, 'mol', 'test', []),
      batches: 1,
    }).charges.map(({ amount }) => (amount?.grams.ok ? amount.grams.figure.value : null));
  const before = amounts(step, 1);
  amounts(changed.step, moles).forEach((grams, index) => {
    const was = before[index];
    if (was === null || was === undefined) expect(grams).toBeNull();
    else expect(grams).toBeCloseTo(was, 6);
  });
});

describe('every field', () => {
  const context = { route: demo };
  test('writes what it reads: taking a text in unchanged changes nothing', () => {
    for (const step of demo.steps) {
      for (const field of [...STEP_FIELDS, ...STEP_MORE_FIELDS])
        expect([field.name, field.write(step, field.read(step, context), context)]).toEqual([
          field.name,
          { ok: true, value: step },
        ]);
      for (const one of step.operations) {
        const fields: readonly {
          name: string;
          read: (of: never, c: typeof context) => string;
          write: (of: never, t: string, c: typeof context) => unknown;
        }[] = one.do === 'charge' ? CHARGE_FIELDS : one.do === 'hold' ? HOLD_FIELDS : REMOVAL_FIELDS;
        for (const field of fields) {
          const text = field.read(one as never, context);
          expect([one.id, field.name, field.write(one as never, text, context)]).toEqual([
            one.id,
            field.name,
            { ok: true, value: one },
          ]);
        }
      }
    }
  });

  const charge = charges(demo)[1] as Charge;
  const hold = { do: 'hold', id: 'h', stage: 'reaction', until: 'clear' } as const;
  test.each([
    ['temperature', '0–5 °C', { temperature: { from: 0, to: 5 } }],
    ['temperature', '-10 to -5', { temperature: { from: -10, to: -5 } }],
    ['overMinutes', '1.5 h', { overMinutes: 90 }],
    ['form', '2 mol/L in ethanol', { form: { kind: 'solution', strength: { value: 2, basis: 'mol/L' }, solvent: 'ethanol' } }],
    [
      'limit',
      'above 10 °C: stop the addition and cool',
      { limit: { celsius: 10, side: 'above', action: 'stop the addition and cool' } },
    ],
    ['limit', 'below -5: warm', { limit: { celsius: -5, side: 'below', action: 'warm' } }],
    ['until', 'pH 8, at most 1.5 ×', { rule: { kind: 'until', endPoint: 'pH 8', atMost: 1.5 } }],
  ])('%s takes "%s"', (code, text, expected) => {
    const field = CHARGE_FIELDS.find((one) => one.name === code);
    expect(field?.write(charge, text, context)).toMatchObject({ ok: true, value: expected });
  });

  test.each([
    ['temperature', 'warm'],
    ['temperature', '5–0'],
    ['overMinutes', 'a while'],
    ['limit', '10 °C'],
    ['portions', '2.5'],
    ['form', '68 %'],
    ['until', 'pH 8'],
  ])('%s refuses "%s" with words', (code, text) => {
    const field = CHARGE_FIELDS.find((one) => one.name === code);
    expect(field?.write(charge, text, context)).toMatchObject({ ok: false, words: expect.stringMatching(/\w{4}/) });
  });

  test('a hold needs to say until when', () => {
    expect(HOLD_FIELDS[0]?.write(hold, ' ', context).ok).toBe(false);
  });
});

describe('operations', () => {
  test('move within a stage, and over its border into the next stage first', () => {
    const { route, step } = benzil();
    const two = line(line(route, step, 'nitric acid 70 % w/w 50 mL'), step, 'water 100 mL, quench');
    const id = charges(two)[1]?.id ?? '';
    const over = moveOperation(two, step, id, 1);
    expect(over.ok && charges(over.route).map((one) => one.stage)).toEqual(['reaction', 'quench', 'quench']);
    const past = over.ok && moveOperation(over.route, step, id, 1);
    expect(past && past.ok && charges(past.route).map((one) => one.material)).toEqual(['benzoin', 'water', 'nitric-acid']);
  });

  test('dropped on another it takes that place and its stage', () => {
    const { route, step } = benzil();
    const three = line(line(route, step, 'nitric acid 70 % w/w 50 mL'), step, 'water 100 mL, quench');
    const [first, , last] = charges(three).map((one) => one.id);
    const dropped = dropOperation(three, step, first ?? '', last ?? '');
    expect(dropped.ok && charges(dropped.route).map((one) => `${one.material} ${one.stage}`)).toEqual([
      'nitric-acid reaction',
      'water quench',
      'benzoin quench',
    ]);
  });

  test('a removed charge takes its material along; one that was unnamed before stays', () => {
    const { route, step } = benzil();
    const more = line({ ...route, materials: { ...route.materials, spare: { name: 'spare' } } }, step, 'toluene 50 mL');
    const less = removeOperation(more, step, charges(more)[1]?.id ?? '');
    expect(less.ok && Object.keys(less.route.materials).sort()).toEqual(['benzil', 'benzoin', 'spare']);
    expect(less.ok && unnamedMaterials(less.route)).toEqual(['spare']);
  });
});

test('a branch says where it comes from', () => {
  expect(branchOf(benzil().route, 3, 'Benzil at scale')).toMatchObject({
    name: 'Benzil at scale',
    note: 'Branched from “Benzil”, revision 3.',
  });
});

test('what differs is said by step and operation', () => {
  const { route, step } = benzil();
  const two = line(route, step, 'nitric acid 70 % w/w 50 mL at 20 °C');
  const acid = charges(two)[1] as Charge;
  const changed = changeOperation(two, step, { ...acid, temperature: { from: 60, to: 65 } });
  if (!changed.ok) throw new Error('refused');
  expect(compareRoutes(two, changed.route)).toEqual([
    { step: 'Benzil from benzoin', of: 'nitric acid', what: 'Temperature', before: '20 °C', after: '60 to 65 °C' },
  ]);
  expect(compareRoutes(route, two).map((one) => [one.of, one.what, one.after])).toEqual([
    [null, 'Material', 'nitric acid'],
    ['nitric acid', 'Operation', 'new'],
  ]);
  expect(compareRoutes(demo, demo)).toEqual([]);
});

test('however it is edited, a route stays one its own reader takes, or the edit is refused', () => {
  const step = fc.integer({ min: 0, max: 3 });
  const nth = fc.integer({ min: 0, max: 30 });
  const edit = fc.oneof(
    fc.record({ do: fc.constantFrom('remove', 'duplicate', 'up', 'down', 'hold', 'removal', 'stage'), step, nth }),
    fc.record({ do: fc.constantFrom('drop step', 'copy step', 'line'), step, nth }),
  );
  fc.assert(
    fc.property(fc.array(edit, { maxLength: 12 }), (edits) => {
      let route = demo;
      for (const one of edits) {
        const at = route.steps[one.step % route.steps.length] as Step;
        const operation = at.operations[one.nth % at.operations.length];
        if (!operation) continue;
        const result = {
          remove: () => removeOperation(route, at.id, operation.id),
          duplicate: () => duplicateOperation(route, at.id, operation.id),
          up: () => moveOperation(route, at.id, operation.id, -1),
          down: () => moveOperation(route, at.id, operation.id, 1),
          hold: () => addOperation(route, at.id, { do: 'hold', until: 'it is clear' }, 'work-up', operation.id),
          removal: () => addOperation(route, at.id, { do: 'removal', takes: 'liquids' }, 'quench'),
          stage: () => changeOperation(route, at.id, { ...operation, stage: 'purification' }),
          'drop step': () => removeStep(route, at.id),
          'copy step': () => duplicateStep(route, at.id),
          line: () => noteRoute(route, `note ${one.nth}`),
        }[one.do]();
        if (!result.ok) {
          expect(result.problems[0]?.words).toMatch(/\w{4}/);
          continue;
        }
        route = result.route;
        expect(readRoute(JSON.stringify(route)).ok).toBe(true);
      }
    }),
    { numRuns: cases(150) },
  );
});

describe('a formula or a structure in one field', () => {
  const own = { name: 'own' };
  test.each([
    ['C8H8N2O3', { ok: true, material: { name: 'own', formula: 'C8H8N2O3' } }],
    ['CC(=O)Nc1ccc(cc1)[N+](=O)[O-]', { ok: true, material: { smiles: 'CC(=O)Nc1ccc(cc1)[N+](=O)[O-]', formula: 'C8H8N2O3' } }],
    ['NaCl', { ok: true, material: { formula: 'NaCl' } }],
    ['CCO', { ok: false, words: expect.stringContaining('C2O, or the structure of C2H6O') }],
    ['Xx5', { ok: false }],
  ])('%s', (text, expected) => {
    expect(withFormulaOrStructure(own, text, reference)).toMatchObject(expected);
  });

  test('a pasted structure that does not fit the formula is refused', () => {
    expect(withStructure({ name: 'benzil', formula: 'C14H10O2' }, 'CCO', undefined, reference).ok).toBe(false);
    expect(withStructure({ name: 'benzil' }, 'CCO', 'C14H10O2', reference).ok).toBe(false);
  });
});

test('whatever is typed into a field: refused with words, or kept so that it reads back the same', () => {
  const piece = fc.constantFrom(
    ...'1 0 - 5 . , °C % g / : ; mL min h above benzil toluene until × 1e9 999999 yes __proto__ constructor'.split(' '),
    ' ',
    'at most',
  );
  const text = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc.string({ unit: 'binary', maxLength: 30 }),
    fc.array(piece, { maxLength: 10 }).map((pieces) => pieces.join('')),
  );
  type Any = {
    readonly name: string;
    read: (of: never, c: never) => string;
    write: (of: never, text: string, c: never) => Written<never>;
  };
  const context = { route: demo } as never;
  fc.assert(
    fc.property(text, fc.nat(3), fc.nat(40), fc.nat(200), (typed, stepAt, operationAt, fieldAt) => {
      const step = demo.steps[stepAt] as Step;
      const operation = step.operations[operationAt % step.operations.length] as Step['operations'][number];
      const fields = operation.do === 'charge' ? CHARGE_FIELDS : operation.do === 'hold' ? HOLD_FIELDS : REMOVAL_FIELDS;
      const all = [
        ...[...STEP_FIELDS, ...STEP_MORE_FIELDS].map((field) => ({ field: field as unknown as Any, of: step as never })),
        ...fields.map((field) => ({ field: field as unknown as Any, of: operation as never })),
        ...MATERIAL_FIELDS.map((field) => ({ field: field as unknown as Any, of: demo.materials['benzil'] as never })),
      ];
      const { field, of } = all[fieldAt % all.length] as (typeof all)[number];
      const written = field.write(of, typed, context);
      if (!written.ok) {
        expect(written.words).toMatch(/\w{4}/);
        return;
      }
      const again = field.write(written.value, field.read(written.value, context), context);
      expect([field.name, typed, again]).toEqual([field.name, typed, written]);
      readEquation(typed, demo, reference);
      materialChoices(typed, demo, reference);
    }),
    { numRuns: cases(2000) },
  );
});

describe('coefficients that balance an equation', () => {
  const balanced = (text: string): string | null => {
    const { route, step } = benzil();
    const read = readEquation(text, route, reference);
    if (!read.ok) throw new Error(read.words);
    const edited = withEquation(route, step, { ...read });
    if (!edited.ok) throw new Error(edited.problems[0]?.words);
    const only = edited.route.steps[0] as Step;
    const equation = balancedEquation(only, factsOfRoute(edited.route, reference), reference);
    return equation && equationText({ ...only, equation }, edited.route);
  };

  test.each([
    ['benzoin + HNO3 -> benzil + NO2 + H2O', 'benzoin + 2 nitric acid → benzil + 2 nitrogen dioxide + 2 water'],
    // Permanganate in acid: the textbook case for half reactions, with charges.
    ['benzoin + MnO4⁻ + H⁺ -> benzil + Mn²⁺ + H2O', '5 benzoin + 2 MnO4⁻ + 6 H⁺ → 5 benzil + 2 Mn²⁺ + 8 water'],
  ])('%s', (text, expected) => {
    expect(balanced(text)).toBe(expected);
  });

  test('nothing is offered where nothing balances, where more than one set does, and where a formula is missing', () => {
    expect(balanced('benzoin -> benzil')).toBeNull();
    expect(balanced('benzoin + O2 + H2O2 -> benzil + H2O')).toBeNull();
    const { route, step } = benzil();
    const bare = { ...route, materials: { ...route.materials, benzil: { name: 'unknown stuff' } } };
    expect(
      balancedEquation(bare.steps.find((one) => one.id === step) as Step, factsOfRoute(bare, reference), reference),
    ).toBeNull();
  });
});

test('no two operations of a step go by one name: the second water of the demonstration is "water (2)"', () => {
  const names = demo.steps.map((step) => step.operations.map((one) => toldApart(one, step, demo)));
  for (const of of names) expect(new Set(of).size).toBe(of.length);
  expect(names[0]).toEqual(expect.arrayContaining(['water', 'water (2)', 'ethanol']));
});

describe('a bare formula for a material', () => {
  const made = (): ReturnType<typeof benzil> => benzil();

  test('which several share is asked about, with their names, at its place', () => {
    const text = '4-nitroaniline + propanoic anhydride -> benzil + C3H6O2';
    const read = readEquation(text, made().route, reference);
    if (read.ok) throw new Error('the first isomer was taken');
    expect(read.at).toBe(text.indexOf('C3H6O2'));
    expect(read.words).toMatch(/methyl acetate, ethyl formate or propanoic acid/);
  });

  test('is no question by a name, nor by its name with the formula behind it', () => {
    const read = readEquation('benzoin -> propanoic acid + lactaldehyde (C3H6O2) + NaHCO3 + H2O', made().route, reference);
    expect(read.ok && [read.makes.map((one) => one.name), read.taken]).toEqual([
      ['propanoic acid', 'lactaldehyde', 'sodium hydrogen carbonate', 'water'],
      [],
    ]);
  });

  test('which only one has is taken as that one, and said so', () => {
    const read = readEquation('benzoin -> C14H10O2', made().route, reference);
    expect(read.ok && read.taken).toEqual([expect.stringMatching(/^C14H10O2 taken as benzil, the only material/)]);
  });

  test('an isomer of the route is asked about beside those of the table', () => {
    const { route } = made();
    const within = { ...route, materials: { ...route.materials, own: { name: 'lactaldehyde', formula: 'C3H6O2' } } };
    expect(formulaChoice('C3H6O2', within, reference)).toMatch(/lactaldehyde, methyl acetate, ethyl formate or/);
    expect(formulaChoice('NaOH', within, reference)).toBeNull();
    expect(formulaChoice('DMF', within, reference)).toBeNull();
  });
});
