import { describe, expect, test } from 'vitest';
import { stepCautions } from '../../src/core/caution/step-cautions.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';
import { each, quenchCharge } from './quench-fixture.ts';

const materials = {
  a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  acid: { name: 'hydrogen chloride', cas: '7647-01-0' },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
const molar = (value: number): Form => ({
  kind: 'solution',
  strength: { value, basis: 'mol/L' },
  density: { gramsPerMillilitre: 1, celsius: 20 },
});

/** Cautions before the last charge, by code, and its sentences. */
function before(more: readonly Operation[]) {
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
  const ask = { name: 't', draws: [draw('b', 1e-9, 'mol')] };
  const input = { route: one, ask, shelf: EMPTY_SHELF, settings, reference, asOf: TODAY };
  const found = stepCautions(input, plan(input), '1', []).get(more.at(-1)?.id ?? '') ?? [];
  return { codes: found.map(({ code }) => code).filter((code) => code !== 'hazards'), notices: found };
}
const meet = (acid: Form, lye: Form) =>
  before([quenchCharge('acid', each(100, 'mL'), acid), quenchCharge('lye', each(100, 'mL'), lye)]);

describe('acid meets base', () => {
  test('0.01 M into 0.01 M: 1 mmol × 55.8 kJ/mol in 200 g of water is 0.07 K, said as a note in place of the caution', () => {
    const { codes, notices } = meet(molar(0.01), molar(0.01));
    expect(codes).toEqual(['little heat']);
    const note = notices.find(({ code }) => code === 'little heat');
    expect(note?.level).toBe('note');
    expect(Number(note?.values.kelvin)).toBeGreaterThan(0.06);
    expect(Number(note?.values.kelvin)).toBeLessThan(0.08);
    expect(note && sentence(note)).toContain('0.07 K');
  });

  test('at 1 M and above the caution stays', () => {
    expect(meet(molar(1), molar(1)).codes).toContain('neutralisation heat');
    expect(meet(molar(6), molar(0.01)).codes).toContain('neutralisation heat');
    expect(meet(molar(0.01), molar(6)).codes).toContain('neutralisation heat');
  });

  test('acid and water: from 10 % down no order matters, above it and in two strengths it does', () => {
    const water = (id: string) => ({ ...quenchCharge('water', each(100, 'mL')), id });
    const acid = (id: string, percent: number) => ({
      ...quenchCharge('sulfuric', each(50, 'mL'), { kind: 'solution', strength: { value: percent, basis: '% w/w' } }),
      id,
    });
    const said = (...more: readonly Operation[]) =>
      before(more).notices.flatMap((one) => (/into water/.test(one.code) ? [`${one.level}: ${sentence(one)}`] : []));
    expect(said(water('w'), acid('s', 10))).toEqual(['note: Add sulfuric acid slowly, with stirring.']);
    expect(said(acid('s', 10), water('w'))).toEqual(['note: Add water slowly, with stirring, to the thin acid (sulfuric acid).']);
    expect(said(water('w'), acid('s', 20)).join()).toMatch(/^caution: .*never the other way round/);
    expect(said(acid('s', 10), acid('s2', 96), water('w')).join()).toMatch(/^caution: Acid into water, never water into acid/);
  });

  test('a drop of strong acid into much water warms little in all, and spits all the same: the caution stays', () => {
    const strong: Form = { kind: 'solution', strength: { value: 96, basis: '% w/w' } };
    const { codes } = before([quenchCharge('water', each(1000, 'mL')), quenchCharge('sulfuric', each(0.5, 'mL'), strong)]);
    expect(codes).toContain('acid slowly into water');
  });

  test('of an unknown strength nothing is known, and the caution stays', () => {
    expect(meet(molar(0.01), { kind: 'unknown' }).codes).toContain('neutralisation heat');
  });

  test('0.01 M acid into water', () => {
    const { codes } = before([quenchCharge('water', each(100, 'mL')), quenchCharge('acid', each(100, 'mL'), molar(0.01))]);
    expect(codes).toEqual(['little heat']);
  });
});
