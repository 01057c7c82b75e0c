import { describe, expect, test } from 'vitest';
import { strengthBefore } from '../../src/core/procedure/line-strength.ts';
import { materialChoices } from '../../src/core/route/choose-material.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';

const materials = {
  a: 'C14H12O2',
  b: 'C14H10O2',
  bicarbonate: { name: 'sodium bicarbonate', cas: '144-55-8' },
  own: { name: 'a salt of my own', formula: 'C19H15NaO3', state: 'solid' as const },
  ether: { name: 'diethyl ether', cas: '60-29-7' },
};

function said(material: keyof typeof materials, note = 'saturated'): readonly string[] {
  const charge = {
    do: 'charge' as const,
    id: 'x',
    stage: 'quench' as const,
    material,
    rule: { kind: 'volumes' as const, millilitresPerGram: 5 },
    form: { kind: 'unknown' as const },
    note,
  };
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [charge] })]);
  const { notices } = stepOf(planOf(one, [draw('b', 10)]), '1');
  return notices.filter(({ code }) => code.startsWith('saturated')).map(sentence);
}

describe('a saturated solution', () => {
  // CRC Handbook, aqueous solubility: 9.565 g per 100 g of water at 20 °C; × 0.9982 g/mL of water.
  test('of what the table knows: how much solid water dissolves at 20 °C', () => {
    expect(said('bicarbonate')).toEqual([
      expect.stringMatching(/At 20 °C 100 g of water dissolve 9\.5[67] g of it \(CRC Handbook.*\), 0\.0955 g per mL/),
    ]);
  });
  test('of what it does not know: not known', () => expect(said('own')).toEqual([expect.stringMatching(/is not known here/)]));
  test('nothing is said of a liquid, nor where nothing is called saturated', () => {
    expect(said('ether')).toEqual([]);
    expect(said('bicarbonate', 'cold')).toEqual([]);
  });
});

describe('a strength before a name, as it is typed', () => {
  test.each([
    ['5 % w/w sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['5% sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['2 M aqueous sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['10 wt% aq. sodium bicarbonate solution', 'sodium hydrogen carbonate'],
    ['15 % w/w solution of caustic soda', 'sodium hydroxide'],
  ])('%s finds %s', (typed, name) => {
    const [first] = materialChoices(typed.slice(strengthBefore(typed).length), null, reference);
    expect(first?.name).toBe(name);
  });
  test.each(['2-butanone', '1,4-dioxane 5 mL', '4 Å molecular sieves', '5 % w/w', 'sodium bicarbonate'])(
    'none in %s',
    (typed) => {
      expect(strengthBefore(typed)).toBe('');
    },
  );
});
