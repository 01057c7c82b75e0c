import { describe, expect, test } from 'vitest';
import { labelElements } from '../../src/core/label/label-elements.ts';
import { labelPaper } from '../../src/core/label/label-paper.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { Paper } from '../../src/core/paper/paper.ts';
import { indexReference } from '../../src/core/reference.ts';
import { readReferenceRows } from '../../src/main/tables.ts';

const reference = indexReference(readReferenceRows());
const NEAT: Form = { kind: 'neat' };
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });

describe('label elements', () => {
  test('follow from the statements as every harmonised entry has them, but for the gas cylinder', () => {
    const rows = reference.rows.hazards.filter((row) => row.fromPercent === null && row.toPercent === null);
    expect(rows.length).toBeGreaterThan(150);
    const wrong = rows.flatMap((row) => {
      if ((reference.hazards.get(row.cas) ?? []).length > 1 || reference.hazardLimits.has(row.cas)) return [];
      const { pictograms, signal } = labelElements({ name: row.cas, cas: row.cas }, NEAT, reference);
      const same = pictograms.join() === row.pictograms.toSorted().join() && signal === (row.signal ?? '');
      return same ? [] : [{ row, pictograms, signal }];
    });
    expect(wrong).toEqual([]);
  });

  // CLP Annex VI, hydrochloric acid: C ≥ 25 %: H314, H335; 10 % ≤ C < 25 %: H315, H319, H335.
  test('go by the strength', () => {
    const acid = { name: 'hydrochloric acid', cas: '7647-01-0', formula: 'HCl' };
    const strong = labelElements(acid, percent(37), reference);
    const weak = labelElements(acid, percent(12), reference);
    expect([strong.pictograms, strong.signal]).toEqual([['GHS05', 'GHS07'], 'Danger']);
    expect([weak.pictograms, weak.signal, weak.statements]).toEqual([['GHS07'], 'Warning', ['H315', 'H319', 'H335']]);
    const weakest = labelElements(acid, percent(3.6), reference);
    expect([weakest.pictograms, weakest.signal, weakest.statements]).toEqual([[], '', []]);
  });

  test('what has no harmonised entry says so, the solvent too', () => {
    const benzil = { name: 'my compound', formula: 'C14H10O2' };
    expect(labelElements(benzil, NEAT, reference)).toMatchObject({ pictograms: [], signal: '', unlisted: ['my compound'] });
    const inSome: Form = { kind: 'solution', strength: { value: 1, basis: 'mol/L' }, solvent: 'perfluorothing' };
    expect(labelElements(benzil, inSome, reference).unlisted).toEqual(['my compound', 'perfluorothing']);
    const inTetrahydrofuran: Form = { kind: 'solution', strength: { value: 1, basis: 'mol/L' }, solvent: 'tetrahydrofuran' };
    const solved = labelElements(benzil, inTetrahydrofuran, reference);
    expect([solved.unlisted, solved.pictograms.includes('GHS02')]).toEqual([['my compound'], true]);
  });

  test('a person’s own statements give their pictograms', () => {
    const own = { name: 'diazo stock', hazards: ['H240', 'H302', 'H361d'] };
    expect(labelElements(own, NEAT, reference)).toMatchObject({ pictograms: ['GHS01', 'GHS07', 'GHS08'], signal: 'Danger' });
  });
});

describe('label paper', () => {
  const size = reference.rows.labelSizes.find((one) => one.name.startsWith('A4 3 × 7'));
  const bottle = {
    id: 'B-12',
    material: { name: 'nitric acid', cas: '7697-37-2', formula: 'HNO3' },
    form: percent(68),
    lot: 'N-117',
    place: 'Acids',
    received: '2026-09-01',
    opened: null,
    useBy: '2027-08-31',
  };
  const ask = { start: 1, paper: 'A4', asOf: '2026-11-25', day: (iso: string) => `day ${iso}` } as const;

  test('says the strength with its basis and solvent, and each date or a line to write on', () => {
    if (!size) throw new Error('no such labels');
    const paper = labelPaper([bottle], { ...ask, size }, reference);
    expect(Paper.safeParse(paper).success).toBe(true);
    expect(paper.labels[0]).toMatchObject({
      code: 'BWB.B-12.14',
      strength: '68 % w/w in water',
      received: 'day 2026-09-01',
      opened: '',
      useBy: 'day 2027-08-31',
      signal: 'Danger',
    });
    expect(() => labelPaper([bottle], { ...ask, size, start: 22 }, reference)).toThrow('1 to 21 (got 22)');
    expect(() => labelPaper([], { ...ask, size }, reference)).toThrow('got none');
  });

  test('no label lies outside its page, and none upon another', () => {
    const page = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
    for (const one of reference.rows.labelSizes) {
      const [width, height] = one.page === 'single' ? [one.width, one.height] : page[one.page];
      expect(one.left + (one.columns - 1) * one.across + one.width, one.name).toBeLessThanOrEqual(width + 1e-6);
      expect(one.top + (one.rows - 1) * one.down + one.height, one.name).toBeLessThanOrEqual(height + 1e-6);
      expect([one.columns === 1 || one.across >= one.width, one.rows === 1 || one.down >= one.height]).toEqual([true, true]);
    }
  });
});
