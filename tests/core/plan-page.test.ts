import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Operation } from '../../src/core/route/route.ts';
import { bottle, chargeOf, draw, planOf, route, step, stepOf } from './build.ts';

const solution = (material: string, equivalents: number): Operation => ({
  do: 'charge',
  id: `add ${material}`,
  stage: 'reaction',
  material,
  form: { kind: 'solution', strength: { value: 6, basis: 'mol/L' } },
  rule: { kind: 'equivalents', equivalents },
});

/** The example of the page `src/core/plan/plan.ts`: two makers of salicylic acid, one step on, a shelf that half serves. */
const example = route(
  {
    salicylate: { name: 'sodium salicylate', formula: 'C7H5NaO3', state: 'solid' },
    ester: { name: 'methyl salicylate', formula: 'C8H8O3', state: 'liquid', density: { gramsPerMillilitre: 1.18, celsius: 20 } },
    acid: { name: 'salicylic acid', formula: 'C7H6O3', state: 'solid' },
    anhydride: {
      name: 'acetic anhydride',
      formula: 'C4H6O3',
      state: 'liquid',
      density: { gramsPerMillilitre: 1.08, celsius: 20 },
    },
    aspirin: { name: 'acetylsalicylic acid', formula: 'C9H8O4', state: 'solid' },
    lye: { name: 'sodium hydroxide', formula: 'NaOH', state: 'solid', cas: '1310-73-2' },
    hcl: { name: 'hydrochloric acid', formula: 'HCl', state: 'liquid', cas: '7647-01-0' },
  },
  [
    step({ id: 'from ester', basis: 'ester', product: 'acid', yieldPercent: 85, more: [solution('lye', 2.5)] }),
    step({
      id: 'from salt',
      basis: 'salicylate',
      product: 'acid',
      yieldPercent: 90,
      more: [solution('hcl', 1.1)],
    }),
    step({
      id: 'acetylation',
      basis: 'acid',
      product: 'aspirin',
      yieldPercent: 80,
      equivalents: { anhydride: 2 },
      extra: { lossPerBatch: { grams: 0.1, reason: 'film' }, batchLimit: { grams: 6, reason: 'small flask' } },
    }),
  ],
);
const shelf = [
  bottle('acid', 2, 'g', { kind: 'neat', assayPercent: 98 }),
  bottle('salicylate', 100),
  bottle('anhydride', 10, 'mL'),
  bottle('hcl', 500, 'mL', { kind: 'solution', strength: { value: 37, basis: '% w/w' } }),
];
const result = planOf(example, [draw('aspirin', 10), { ...draw('aspirin', 0.5), id: 'kept', kept: true }], shelf);

const page = readFileSync(join(import.meta.dirname, '../../src/core/plan/plan.ts'), 'utf8');
/** The picture, one line of text, so that what breaks over lines is found too. */
const picture = page
  .slice(page.indexOf('/**'), page.indexOf('*/'))
  .replaceAll(/\n \* */g, ' ')
  .replaceAll(/\s+/g, ' ');

describe('the page of the algorithm', () => {
  const digits = (value: number | undefined, count: number): string => (value ?? Number.NaN).toPrecision(count);
  const mmol = (moles: number | undefined): string => digits(1000 * (moles ?? Number.NaN), 4);
  const acetylation = stepOf(result, 'acetylation');
  const fromSalt = stepOf(result, 'from salt');
  const fromShelf = result.flow.bands.find((band) => band.from.kind === 'stock')?.moles.value ?? Number.NaN;
  const handed = result.flow.bands.find((band) => band.from.kind === 'step' && band.from.step === 'from salt')?.moles.value;
  const anhydride = result.fetch.find((line) => line.material === 'anhydride');
  const hcl = chargeOf(result, 'from salt', 'hcl');
  const acid = chargeOf(result, 'acetylation', 'acid');
  const [choice] = result.choices;
  const costOf = (id: string): string => digits(choice?.makers.find((maker) => maker.step === id)?.cost ?? Number.NaN, 3);
  const wanted = result.draws.reduce((sum, one) => sum + (one.moles?.value ?? Number.NaN), 0);
  const lost = 0.1 / (result.materials['aspirin']?.molarMass?.value ?? Number.NaN);
  const made = wanted + 2 * lost;

  test.each([
    ['1 draws', `÷ ${result.materials['aspirin']?.molarMass?.value} g/mol = ${mmol(wanted)} mmol of aspirin wanted`],
    ['3 order', `loops together: ${result.steps.map((one) => one.id).join(', ')}`],
    ['4 stock', `÷ ${result.materials['acid']?.molarMass?.value} g/mol = ${mmol(fromShelf)} mmol of salicylic acid there`],
    ['5 needs', `${mmol(wanted)} + 2 × ${digits(1000 * lost, 3)} lost = ${mmol(made)} mmol of aspirin to make`],
    ['5 division', `${mmol(made)} ÷ 0.80 = ${mmol(acetylation.basis.moles.value)} mmol of salicylic acid into acetylation`],
    [
      '5 needs again',
      `${mmol(acetylation.basis.moles.value)} − ${mmol(fromShelf)} = ${mmol(fromSalt.product.moles.value)} mmol of salicylic acid to make`,
    ],
    ['5 makers', `from ester for ${costOf('from ester')} g of bought materials, from salt for ${costOf('from salt')} g`],
    ['5 the maker', `${mmol(fromSalt.product.moles.value)} ÷ 0.90 = ${mmol(fromSalt.basis.moles.value)} mmol`],
    [
      '6 batches',
      `${digits(acetylation.basis.grams.value, 4)} g of salicylic acid, 6 g at most: ${acetylation.batches.count} batches`,
    ],
    [
      'the picture',
      `${mmol(fromSalt.basis.moles.value)} ◀── ÷ 0.90 ── ${mmol(fromSalt.product.moles.value)} ◀─── − ${mmol(fromShelf)} ─── ${mmol(acetylation.basis.moles.value)} ◀── ÷ 0.80 ── ${mmol(made)} ◀── + ${acetylation.batches.count} × ${digits(1000 * lost, 3)} ── ${mmol(wanted)}`,
    ],
    ['6 again', `stays in each flask: the ${acetylation.batches.count} × ${digits(1000 * lost, 3)} above`],
    ['7 start', `× ${result.start.multiplier.value}, the likeliest yields`],
    ['8 handed out', `${mmol(fromShelf)} mmol of the shelf and ${mmol(handed)} mmol of from salt into acetylation`],
    [
      '9 charges',
      `1.1 equiv × ${mmol(fromSalt.basis.moles.value)} = ${mmol(hcl.moles?.value)} mmol of HCl, ÷ 6 mol/L = ${digits(hcl.perBatch.exact?.value, 4)} mL`,
    ],
    ['10 make-up', `made up from the bottle of ${result.makeUps[0]?.parts[0]?.fromWords}`],
    [
      '10 short',
      `${digits(anhydride?.peak.value, 4)} mL needed, ${digits(anhydride?.onHand.value, 3)} mL on hand, ${digits(anhydride?.short?.value, 3)} mL short`,
    ],
    ['11 rounding', `${digits(acid.perBatch.exact?.value, 4)} g of salicylic acid, on the balance ${acid.perBatch.target} g`],
  ])('%s', (_, said) => {
    expect(picture).toContain(said);
  });

  test('the example is whole: from ester stands still, two batches, nothing left short', () => {
    expect(stepOf(result, 'from ester')).toMatchObject({ active: false, whyIdle: 'another makes it' });
    expect(chargeOf(result, 'from salt', 'hcl').supply).toMatchObject({ kind: 'make up' });
    expect(result.notices.some(({ code }) => code === 'left short')).toBe(false);
  });

  test('every file it names is there', () => {
    const named = [...picture.matchAll(/(?:\.\.\/)?[a-z-]+(?:\/[a-z-]+)?\.ts\b/g)].map(([path]) => path);
    const files = named.filter((path) => !path.includes('plan-page') && !path.includes('test'));
    expect(files.length).toBeGreaterThan(15);
    for (const path of files) expect(existsSync(join(import.meta.dirname, '../../src/core/plan', path)), path).toBe(true);
  });
});
