import { describe, expect, test } from 'vitest';
import { specificHeat } from '../../src/core/heat/specific-heat.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { NEAT } from '../../src/core/matter/form.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';

const materials = {
  a: { name: 'toluene', cas: '108-88-3' },
  b: { name: 'p-xylene', cas: '106-42-3' },
  chloride: { name: 'acetyl chloride', cas: '75-36-5' },
  thionyl: { name: 'thionyl chloride', cas: '7719-09-7' },
  acetate: { name: 'sodium acetate trihydrate', cas: '6131-90-4' },
  dry: { name: 'sodium acetate', cas: '127-09-3' },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
};
const charge = (material: keyof typeof materials): Operation => ({
  do: 'charge',
  id: material,
  stage: 'reaction',
  material,
  rule: { kind: 'equivalents', equivalents: 1 },
});

/** Cautions before the last of some charges. */
function before(...keys: readonly (keyof typeof materials)[]) {
  const one = step({ id: '1', basis: 'a', product: 'b', more: keys.map(charge) });
  const result = planOf(route(materials, [one]), [draw('b', 1, 'mol')]);
  return stepOf(result, '1').operations.at(-1)?.kind === 'charge' ? lastOf(stepOf(result, '1').operations.at(-1)) : [];
}
const lastOf = (operation: ReturnType<typeof stepOf>['operations'][number] | undefined) =>
  operation?.kind === 'charge' ? operation.before : [];

describe('water of crystallisation is water', () => {
  test('to an acid chloride, whichever goes in first', () => {
    for (const keys of [
      ['acetate', 'chloride'],
      ['chloride', 'acetate'],
      ['acetate', 'thionyl'],
    ] as const) {
      const found = before(...keys).filter(({ code }) => code === 'reacts with water');
      expect(found.map(({ values }) => `${values.material} ${values.other}`).join(' ')).toContain(
        'water (of the sodium acetate trihydrate)',
      );
    }
    expect(before('dry', 'chloride').map(({ code }) => code)).not.toContain('reacts with water');
  });

  test('but a solid hydrate is no water that an acid is poured into', () => {
    expect(before('sulfuric', 'acetate').map(({ code }) => code)).not.toContain('acid into water');
  });
});

test('an equation that uses the water does not ask to keep it out', () => {
  const uses = ['chloride', 'wet'].map((material) => ({ material, coefficient: 1 }));
  const of = (meant: boolean): string => {
    const more = [charge('chloride'), { ...charge('chloride'), id: 'wet', material: 'wet' }];
    const extra = meant ? { equation: { uses, makes: [{ material: 'b', coefficient: 1 }] } } : {};
    const one = step({ id: '1', basis: 'a', product: 'b', more, extra });
    const wet = { name: 'water', cas: '7732-18-5', utility: true };
    const result = planOf(route({ ...materials, wet }, [one]), [draw('b', 1, 'mol')]);
    return lastOf(stepOf(result, '1').operations.at(-1)).map(sentence).join(' ');
  };
  expect(of(true)).toMatch(/The first drops react hardest/);
  expect(of(true)).not.toMatch(/keep every trace/i);
  expect(of(false)).toMatch(/Unless the procedure itself puts water here, keep every trace of it out/);
});

// CRC, Standard Thermodynamic Properties, from memory: CuSO4·5H2O 280, MgSO4·7H2O 372, Na2CO3·10H2O 550 J/(mol·K).
test.each([
  ['copper(II) sulfate pentahydrate', '7758-99-8', 280 / 249.68],
  ['magnesium sulfate heptahydrate', '10034-99-8', 372 / 246.47],
  ['sodium carbonate decahydrate', '6132-02-1', 550 / 286.14],
])('heat capacity of %s: low, within a quarter', (name, cas, real) => {
  const { figure, estimated } = specificHeat(factsOf({ name, cas }, reference), NEAT, reference);
  expect(estimated).toBe(true);
  expect(figure.value).toBeLessThan(real);
  expect(figure.value).toBeGreaterThan(0.75 * real);
});
