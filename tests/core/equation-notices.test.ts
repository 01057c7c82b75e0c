import { expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Operation, Term } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { solution } from '../reference/amounts.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, stepOf, TODAY } from './build.ts';
import { each, quenchCharge } from './quench-fixture.ts';

const MATERIALS: Readonly<Record<string, Material>> = {
  nitrile: { name: 'benzonitrile', formula: 'C7H5N', state: 'liquid' },
  amide: { name: 'benzamide', formula: 'C7H7NO', acidity: { pKa: [], protons: 0 }, state: 'solid' },
  carbamate: { name: 'phenylcarbamic acid', formula: 'C7H7NO2', state: 'solid' },
  aniline: { name: 'aniline', cas: '62-53-3' },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  dioxide: { name: 'carbon dioxide', cas: '124-38-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
const terms = (...materials: readonly string[]): Term[] => materials.map((material) => ({ material, coefficient: 1 }));
function planned(uses: readonly string[], makes: readonly Term[], more: readonly Operation[]) {
  const [basis, product] = [uses[0] ?? '', makes[0]?.material ?? ''];
  const one = step({ id: '1', basis, product, more, extra: { equation: { uses: terms(...uses), makes: [...makes] } } });
  const input = {
    route: route(MATERIALS, [one]),
    ask: { name: 't', draws: [draw(product, 0.1, 'mol')] },
    shelf: EMPTY_SHELF,
    settings,
    reference,
    asOf: TODAY,
  };
  const result = plan(input);
  const codes = stepOf(result, '1').notices.map(({ code }) => code);
  return { codes, sections: () => benchNumbers(input, result, '1') };
}
const acid = quenchCharge('sulfuric', each(20, 'g'), solution(75, '% w/w'));

test('water that comes with an acid is charged', () => {
  expect(planned(['nitrile', 'water'], terms('amide'), [acid]).codes).not.toContain('never charged');
  expect(planned(['nitrile', 'water'], terms('amide'), []).codes).toContain('never charged');
});

test('a gas of the equation that is not marked as leaving is said; marked, or said to stay, it is not', () => {
  const with_ = (gas?: boolean) =>
    planned(
      ['carbamate'],
      [...terms('aniline'), { material: 'dioxide', coefficient: 1, ...(gas === undefined ? {} : { gas }) }],
      [],
    ).codes;
  expect(with_()).toContain('gas not marked');
  expect(with_(true)).not.toContain('gas not marked');
  expect(with_(false)).not.toContain('gas not marked');
});

test('an equation that does not balance: its quench says that what is left out is not counted', () => {
  const quench = quenchCharge('lye', { kind: 'to neutralise', endPH: 7 }, solution(15, '% w/w'));
  const said = (uses: readonly string[]) =>
    planned(uses, terms('amide'), [acid, quench])
      .sections()
      .flatMap(({ lines }) => lines)
      .filter(({ code }) => code === 'not balanced');
  expect(said(['nitrile'])).toMatchObject([{ operation: 'lye', level: 'caution' }]);
  expect(said(['nitrile', 'water'])).toEqual([]);
});
