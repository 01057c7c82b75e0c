import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hasRightCheckDigit } from '../../src/core/matter/cas.ts';
import { neatDensity } from '../../src/core/matter/density.ts';
import { type DensityCurve, densityCurve, pieceAt } from '../../src/core/matter/density-curve.ts';
import { type Facts, factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { interpolateMonotone } from '../../src/core/matter/interpolate.ts';
import { modelDensity } from '../../src/core/matter/laliberte.ts';
import { gramsPerMillilitre, massFraction, strengthOn } from '../../src/core/matter/solution.ts';
import { marksOf } from '../../src/core/quantity/figure.ts';
import type { DensityTable } from '../../src/core/reference-rows.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';

const { rows } = reference;
// A formula, so that moles can be counted; which one does not matter to a density.
const facts = (cas: string): Facts => factsOf({ name: cas, cas, formula: 'NaCl' }, reference);
const solution = (value: number, basis: '% w/w' | 'mol/L' | 'g/L' | '% w/v' = '% w/w'): Form & { kind: 'solution' } => ({
  kind: 'solution',
  strength: { value, basis },
});
const curveOf = (cas: string, celsius = 20): DensityCurve => {
  const curve = densityCurve(facts(cas), 'water', celsius, reference);
  if (!curve) throw new Error(`a curve is needed for ${cas} at ${celsius} °C`);
  return curve;
};
const modelAt = (cas: string, percent: number): number | null => {
  const row = reference.laliberte.get(cas);
  return row ? modelDensity(row, percent / 100, 20, rows.water) : null;
};
/** Every solute some source at 20 °C knows. */
const solutes = [...new Set([...rows.densities, ...rows.laliberte, rows.ethanolWater].map((one) => one.cas))].filter(
  (cas) => densityCurve(facts(cas), 'water', 20, reference) !== null,
);
/** Where two sources say the same, they differ by no more than this, relative. */
const AGREE = 0.005;

describe('the tables', () => {
  test.each(rows.densities.map((table) => [`${table.cas} at ${table.celsius} °C`, table] as const))('%s', (_, table) => {
    const { percents, densities, sourceOf, sources } = table;
    expect(percents.length).toBeGreaterThan(1);
    expect(densities).toHaveLength(percents.length);
    expect(sourceOf.every((index) => sources[index])).toBe(true);
    expect(percents.every((percent, i) => i === 0 || percent > (percents[i - 1] ?? Number.NaN))).toBe(true);
    expect(percents.every((percent) => percent >= 0 && percent <= 100)).toBe(true);
    expect(densities.every((density) => density > 0.7 && density < 2.5)).toBe(true);
    if (table.celsius === 20) expect([percents[0], densities[0]]).toEqual([0, 0.9982]);
  });
  test('one table for a solute and a temperature, and none for ethanol, which has its formula', () => {
    const names = rows.densities.map((table) => `${table.cas} ${table.solvent} ${table.celsius}`);
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((name) => name.startsWith(rows.ethanolWater.cas))).toEqual([]);
    expect(rows.densities.filter((table) => table.celsius === 20)).toHaveLength(66);
  });
  test('what counts as another solute has sound numbers and leads to one that is known', () => {
    for (const { cas, countsAs } of rows.sameInSolution) {
      expect([hasRightCheckDigit(cas), hasRightCheckDigit(countsAs)], cas).toEqual([true, true]);
      expect(reference.densities.has(`${countsAs} in water`) || reference.laliberte.has(countsAs), cas).toBe(true);
      expect(reference.sameInSolution.has(countsAs), countsAs).toBe(false);
    }
  });
  test('rows computed with the model are the model, to their last digit', () => {
    let found = 0;
    for (const table of rows.densities) {
      table.percents.forEach((percent, i) => {
        if (table.sources[table.sourceOf[i] ?? -1]?.mark !== 'model') return;
        found += 1;
        expect(Math.abs((modelAt(table.cas, percent) ?? Number.NaN) - (table.densities[i] ?? Number.NaN))).toBeLessThan(5.1e-5);
      });
    }
    expect(found).toBeGreaterThan(30);
  });
  test('between two points the value lies between theirs', () => {
    const between = fc.tuple(fc.constantFrom(...rows.densities), fc.nat(), fc.double({ min: 0, max: 1, noNaN: true }));
    fc.assert(
      fc.property(between, ([{ percents, densities }, at, part]) => {
        const i = at % (percents.length - 1);
        const [x0, x1] = [percents[i] ?? 0, percents[i + 1] ?? 0];
        const ends = [densities[i] ?? Number.NaN, densities[i + 1] ?? Number.NaN];
        const y = interpolateMonotone(percents, densities, Math.min(x1, x0 + part * (x1 - x0))) ?? Number.NaN;
        expect(y).toBeGreaterThanOrEqual(Math.min(...ends) - 1e-12);
        expect(y).toBeLessThanOrEqual(Math.max(...ends) + 1e-12);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('where two sources reach', () => {
  test(`table and model agree within ${AGREE * 100} % wherever the model is used, nine tenths within 0.25 %`, () => {
    const differences: number[] = [];
    for (const table of rows.densities.filter((one) => one.celsius === 20)) {
      table.percents.forEach((percent, i) => {
        const model = modelAt(table.cas, percent);
        if (model === null) return;
        differences.push(Math.abs(model / (table.densities[i] ?? Number.NaN) - 1));
        expect(differences.at(-1), `${table.cas} at ${percent} %`).toBeLessThan(AGREE);
      });
    }
    differences.sort((a, b) => a - b);
    expect(differences.length).toBeGreaterThan(700);
    expect(differences[Math.floor(differences.length * 0.9)]).toBeLessThan(0.0025);
  });
  test('ethanol: formula and model agree within that too', () => {
    for (let percent = 0; percent <= 100; percent += 5) {
      const formula = pieceAt(curveOf('64-17-5'), percent)?.density(percent) ?? Number.NaN;
      expect(Math.abs((modelAt('64-17-5', percent) ?? Number.NaN) / formula - 1), `${percent} %`).toBeLessThan(AGREE);
    }
  });
  test('from one source to the next there is no step, and the model is moved by 0.3 % at most to meet a table', () => {
    let switches = 0;
    for (const cas of solutes) {
      const { pieces } = curveOf(cas);
      for (const [i, piece] of pieces.entries()) {
        const next = pieces[i + 1];
        if (!next) continue;
        switches += 1;
        expect(next.from, cas).toBe(piece.to);
        expect(next.density(next.from), cas).toBeCloseTo(piece.density(piece.to), 12);
        expect(Math.abs((modelAt(cas, piece.to) ?? Number.NaN) / piece.density(piece.to) - 1), cas).toBeLessThan(0.003);
      }
    }
    expect(switches).toBeGreaterThan(20);
  });
  test.each([
    ['NaOH above 40 %', '1310-73-2', 0.4],
    ['SrCl2 above 20 %', '10476-85-4', 0.2],
  ])('the model is not used where it is known to fail: %s', (_, cas, most) => {
    const row = reference.laliberte.get(cas);
    if (!row) throw new Error(cas);
    expect(modelDensity(row, most, 25, rows.water)).not.toBeNull();
    expect(modelDensity(row, most + 0.001, 25, rows.water)).toBeNull();
  });
});

describe('grams of solute in a millilitre', () => {
  test.each([20, 15, 25, 40])('grow with strength for every solute, and no strength has two densities, at %d °C', (celsius) => {
    for (const cas of solutes) {
      const curve = densityCurve(facts(cas), 'water', celsius, reference);
      for (const piece of curve?.pieces ?? []) {
        let before = -1;
        for (let i = 0; i <= 400; i += 1) {
          const percent = Math.min(piece.to, piece.from + ((piece.to - piece.from) * i) / 400);
          const content = percent * piece.density(percent);
          expect(content, `${cas} at ${percent} %`).toBeGreaterThan(before);
          before = content;
        }
      }
    }
  });
  test('give the strength back at the very end of every curve', () => {
    for (const cas of solutes) {
      const { to } = curveOf(cas);
      for (const basis of ['mol/L', 'g/L', '% w/v'] as const) {
        const there = strengthOn(basis, facts(cas), solution(to), reference);
        if (!there.ok) throw new Error(there.why.code);
        const back = strengthOn('% w/w', facts(cas), solution(there.figure.value, basis), reference);
        expect(back.ok && back.figure.value, `${cas}, ${basis}`).toBeCloseTo(to, 9);
        const beyond = strengthOn('% w/w', facts(cas), solution(there.figure.value * (1 + 1e-9), basis), reference);
        expect(beyond.ok, `${cas}, ${basis}`).toBe(false);
      }
    }
  });
  test('give the strength back, to 1e-12, for every solute at any strength a source reaches', () => {
    const strength = fc.tuple(fc.constantFrom(...solutes), fc.double({ min: 0.001, max: 1, noNaN: true }));
    fc.assert(
      fc.property(strength, ([cas, part]) => {
        const percent = part * curveOf(cas).to;
        const molar = strengthOn('mol/L', facts(cas), solution(percent), reference);
        if (!molar.ok) throw new Error(molar.why.code);
        const back = strengthOn('% w/w', facts(cas), solution(molar.figure.value, 'mol/L'), reference);
        expect(back.ok && Math.abs(back.figure.value / percent - 1), `${cas} at ${percent} %`).toBeLessThan(1e-12);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('which source answers', () => {
  const said = (cas: string, percent: number, celsius?: number): string => {
    const found = gramsPerMillilitre(facts(cas), solution(percent), reference, celsius);
    if (!found.ok) return found.why.code;
    const { from } = found.figure;
    return from.kind === 'source' ? `${from.source} [${from.mark ?? ''}]` : from.kind;
  };
  test.each([
    ['a table', '7647-14-5', 10, undefined, 'table at 20 °C, CRC Handbook, 102nd ed. []'],
    ['half a kelvin away', '7647-14-5', 10, 20.5, 'table at 20 °C, CRC Handbook, 102nd ed. []'],
    ['the model further away', '7647-14-5', 10, 20.6, 'model at 20.6 °C, Laliberté 2009 [model]'],
    [
      'the model above a table',
      '7681-11-0',
      50,
      20,
      /^model at 20 °C, Laliberté 2009, times 1\.0001 to meet the table at 40 % w\/w \[model\]$/,
    ],
    [
      'between two sources both',
      '7697-37-2',
      40.5,
      20,
      "table at 20 °C, CRC Handbook, 102nd ed. and Perry's Handbook [from memory]",
    ],
    ['on a row that row alone', '7697-37-2', 40, 20, 'table at 20 °C, CRC Handbook, 102nd ed. []'],
    ['a table of another temperature', '7664-93-9', 98, 25, "table at 25 °C, Perry's Handbook [from memory]"],
    ['no table at that temperature', '7664-93-9', 98, 22, 'outside density table'],
    ['between a model and a table', '7664-93-9', 85, 25, 'outside density table'],
    ['beyond all', '7647-14-5', 27, 20, 'outside density table'],
    ['a solute the model knows at 25 °C only', '7772-98-7', 10, 21, 'no density table'],
    ['potassium hydroxide: the model, also in its table', '1310-58-3', 45, 20, 'table at 20 °C, model of Laliberté 2009 [model]'],
    ['ethanol', '64-17-5', 50, 30, /^30 °C, OIML International Recommendation R 22 .*\[formula\]$/],
    ['ethanol warmer than the formula', '64-17-5', 50, 45, 'model at 45 °C, Laliberté 2009 [model]'],
  ] as const)('%s', (_, cas, percent, celsius, wanted) => {
    if (typeof wanted === 'string') expect(said(cas, percent, celsius)).toBe(wanted);
    else expect(said(cas, percent, celsius)).toMatch(wanted);
  });

  test('at the end of every curve there is a value, just beyond it none', () => {
    for (const cas of solutes) {
      const { to } = curveOf(cas);
      expect(gramsPerMillilitre(facts(cas), solution(to), reference).ok, cas).toBe(true);
      if (to < 100) {
        expect(gramsPerMillilitre(facts(cas), solution(to + 1e-6), reference), cas).toMatchObject({
          ok: false,
          why: { code: 'outside density table' },
        });
      }
    }
  });

  test('the sentence of a strength in a gap names the nearer reach', () => {
    const found = gramsPerMillilitre(facts('7664-93-9'), solution(88), reference, 25);
    if (found.ok) throw new Error('no density was expected');
    expect(sentence(found.why)).toContain('(90 to 100 % w/w)');
  });

  test('in another solvent a table for water says nothing', () => {
    const found = gramsPerMillilitre(facts('7647-01-0'), { ...solution(10), solvent: 'dioxane' }, reference);
    expect(found).toMatchObject({ ok: false, why: { code: 'no density table' } });
  });
});

describe('a density measured on the bottle', () => {
  const bottle: Form = { ...solution(10), density: { gramsPerMillilitre: 1.08, celsius: 25 } };
  const value = (celsius?: number): number => {
    const found = gramsPerMillilitre(facts('7647-14-5'), bottle, reference, celsius);
    return found.ok ? found.figure.value : Number.NaN;
  };
  test('is believed first, and says its temperature', () => {
    expect([value(), value(25), value(25.4)]).toEqual([1.08, 1.08, 1.08]);
    const found = gramsPerMillilitre(facts('7647-14-5'), bottle, reference);
    expect(found.ok && found.figure.from).toMatchObject({ kind: 'source', source: 'measured, 25 °C' });
  });
  test('says nothing of another temperature that is asked for', () => {
    expect(value(20)).toBeCloseTo(1.0707, 6);
    expect(value(40)).toBeCloseTo(1.0628, 3);
  });
});

describe('solids that dissolve to the same solution', () => {
  const vitriol = factsOf({ name: 'copper(II) sulfate pentahydrate', cas: '7758-99-8' }, reference);
  test('a hydrate counts its water: 10 % w/w of the pentahydrate is 6.392 % w/w of copper sulfate', () => {
    const found = gramsPerMillilitre(vitriol, solution(10), reference);
    const anhydrous = gramsPerMillilitre(facts('7758-98-7'), solution((10 * 159.602) / 249.677), reference);
    expect(found.ok && anhydrous.ok && found.figure.value / anhydrous.figure.value).toBeCloseTo(1, 5);
  });
  test('moles are the same: 0.5 mol/L of it and of the anhydrous salt hold 159.6 : 249.7 by mass', () => {
    const dry = factsOf({ name: 'copper(II) sulfate', cas: '7758-98-7' }, reference);
    const [own, other] = [vitriol, dry].map((one) => massFraction(one, solution(0.5, 'mol/L'), reference));
    const ratio = own?.ok && other?.ok ? other.figure.value / own.figure.value : Number.NaN;
    expect(ratio).toBeCloseTo(159.602 / 249.677, 5);
  });
  test('disodium edetate and sodium citrate: the handbook counts the anhydrous salt, a bottle of the dihydrate does not', () => {
    const edta = factsOf({ name: 'EDTA disodium salt dihydrate', cas: '6381-92-6' }, reference);
    const found = strengthOn('% w/w', edta, solution(0.1, 'mol/L'), reference);
    // CRC Handbook 102nd ed.: 3.5 % w/w of the anhydrous salt (336.21 g/mol) is 0.106 mol/L at 1.0169 g/mL.
    expect(found.ok && found.figure.value).toBeCloseTo((0.1 * 372.24) / 1.016 / 10, 2);
  });
  test('α-D-glucose, the name in the handbook, and glucose are one', () => {
    const [one, other] = ['26655-34-5', '50-99-7'].map((cas) => gramsPerMillilitre(facts(cas), solution(20), reference));
    expect(one?.ok && other?.ok && one.figure.value).toBe(other?.ok && other.figure.value);
  });
});

describe('pure liquids', () => {
  const methanol = factsOf({ name: 'methanol', cas: '67-56-1' }, reference);
  test('near 20 °C the table, to 35 °C and down to 10 °C corrected with the expansion, further nothing', () => {
    const at20 = neatDensity(methanol, reference)?.value ?? Number.NaN;
    expect(neatDensity(methanol, reference, 20.4)?.value).toBe(at20);
    expect(neatDensity(methanol, reference, 30)?.value).toBeLessThan(at20);
    expect(neatDensity(methanol, reference, 10)?.value).toBeGreaterThan(at20);
    expect([neatDensity(methanol, reference, 9.9), neatDensity(methanol, reference, 35.1)]).toEqual([null, null]);
    expect(neatDensity(methanol, reference, 30)?.from).toMatchObject({ kind: 'computed', of: [{ value: at20 }] });
  });
  test('a density given with the material stands at its own temperature, and is no other one’s', () => {
    const oil = factsOf({ name: 'oil', density: { gramsPerMillilitre: 1.1, celsius: 60 } }, reference);
    expect(neatDensity(oil, reference)?.value).toBe(1.1);
    expect(neatDensity(oil, reference, 60)?.value).toBe(1.1);
    expect(neatDensity(oil, reference, 20)).toBeNull();
  });
  test('a solid has none, nor has what the trade sells dissolved, at any temperature', () => {
    expect(neatDensity(factsOf({ name: 'benzil', cas: '134-81-6' }, reference), reference)).toBeNull();
    for (const row of rows.materials.filter((one) => one.suppliedAs === 'solution')) {
      const dissolved = factsOf({ name: row.name, cas: row.cas }, reference);
      for (const celsius of [undefined, 20, 25]) {
        expect(gramsPerMillilitre(dissolved, { kind: 'neat' }, reference, celsius), row.name).toMatchObject({ ok: false });
      }
    }
  });
  test('a value from memory says so, corrected or not', () => {
    const remembered = rows.materials.find((row) => row.expansion !== null && `${row.densitySource}`.includes('from memory'));
    if (!remembered) throw new Error('the table needs a liquid from memory with an expansion');
    const liquid = neatDensity(factsOf({ name: remembered.name, cas: remembered.cas }, reference), reference, 25);
    expect(liquid && marksOf(liquid)).toEqual(['from memory']);
  });
});

test('the table type keeps a solute, a temperature and its sources together', () => {
  const table: DensityTable | undefined = reference.densities.get('10035-10-6 in water')?.[0];
  expect(table?.sources.map(({ source, mark }) => `${source}|${mark ?? ''}`)).toEqual(['water|', "Perry's Handbook|from memory"]);
});
