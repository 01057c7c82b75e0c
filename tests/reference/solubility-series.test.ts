import { describe, expect, test } from 'vitest';
import { crystallise, leastSolvent } from '../../src/core/crystallise/crystallise.ts';
import { solubilityAt, solubilityCurve } from '../../src/core/crystallise/solubility-curve.ts';
import { fitted, inverseKelvin, vantHoffFit } from '../../src/core/crystallise/van-t-hoff.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { readRecrystallise } from '../../src/core/route/recrystallise-text.ts';
import { Route } from '../../src/core/route/route.ts';
import { route, step } from '../core/build.ts';

// Published solubilities, g per 100 g of water: each point left out must come back from its neighbours, and the last one
// from the line of the others.

type Series = readonly (readonly [celsius: number, grams: number])[];

/** Within this part a point inside comes back, and the last one. */
interface Published {
  readonly source: string;
  readonly points: Series;
  readonly inside: number;
  readonly beyond: number;
}

const SUPPLIER = 'supplier’s table “Solubility Table of Compounds in Water at Temperature” (sigmaaldrich.com)';
const PUBLISHED: Readonly<Record<string, Published>> = {
  'potassium nitrate': {
    source: 'table of solubility coefficients (tz.costsproject.org, 297)',
    points: [
      [0, 13.3],
      [10, 20.9],
      [20, 31.6],
      [30, 45.8],
      [40, 63.9],
      [50, 85.5],
      [60, 110],
      [70, 138],
      [80, 169],
      [90, 202],
      [100, 246],
    ],
    inside: 0.02,
    beyond: 0.06,
  },
  'ammonium chloride': {
    source: SUPPLIER,
    points: [
      [0, 29.7],
      [20, 37.56],
      [40, 46],
      [60, 55.3],
      [80, 65.6],
      [100, 77.3],
    ],
    inside: 0.02,
    beyond: 0.02,
  },
  'ammonium bromide': {
    source: SUPPLIER,
    points: [
      [0, 60.6],
      [20, 75.5],
      [40, 91.1],
      [60, 107.8],
      [80, 126.7],
      [100, 145.6],
    ],
    inside: 0.02,
    beyond: 0.02,
  },
  'ammonium dihydrogen phosphate': {
    source: SUPPLIER,
    points: [
      [0, 22.7],
      [20, 36.8],
      [40, 56.7],
      [60, 82.9],
      [80, 120.7],
      [100, 174],
    ],
    inside: 0.03,
    beyond: 0.06,
  },
  'potassium alum, counted without its water': {
    source: SUPPLIER,
    points: [
      [0, 2.96],
      [20, 6.01],
      [40, 13.6],
      [60, 33.3],
      [80, 72],
    ],
    inside: 0.16,
    beyond: 0.25,
  },
};

const curveOf = (points: Series) =>
  solubilityCurve(points.map(([celsius, grams]) => ({ celsius, grams, figure: entered('solubility', grams, 'g', 'a table') })));
const at = (points: Series, celsius: number): number => {
  const found = solubilityAt(curveOf(points), celsius);
  return found.ok ? found.figure.value : Number.NaN;
};

describe.each(Object.entries(PUBLISHED))('%s', (_, { points, inside, beyond }) => {
  test('every point comes back, and one that is left out lies near its neighbours’ line', () => {
    for (const [celsius, grams] of points) expect(at(points, celsius)).toBeCloseTo(grams, 9);
    for (const [celsius, grams] of points.slice(1, -1)) {
      const others = points.filter(([other]) => other !== celsius);
      expect(Math.abs(at(others, celsius) / grams - 1), `${celsius} °C`).toBeLessThan(inside);
    }
  });

  test('ten degrees beyond the last point but one, the line goes on and is an estimate', () => {
    const before = points.slice(0, -1);
    const end = before.at(-1)?.[0] ?? 0;
    const [last = [0, 0]] = points.slice(-1);
    const found = solubilityAt(curveOf(before), end + 10);
    if (!found.ok) throw new Error(found.why.code);
    // Between the two published ones, straight in ln S against 1/T.
    const part = (inverseKelvin(end) - inverseKelvin(end + 10)) / (inverseKelvin(end) - inverseKelvin(last[0]));
    const true10 = at(points, end) * (last[1] / at(points, end)) ** part;
    expect(Math.abs(found.figure.value / true10 - 1)).toBeLessThan(beyond);
    expect(solubilityAt(curveOf(before), end + 16).ok).toBe(false);
  });

  test('the recovery between the ends is 1 − cold ÷ hot', () => {
    const [[, cold] = [0, 0]] = points;
    const hot = points.at(-1)?.[1] ?? 0;
    const crop = crystallise({ grams: 100, solvent: leastSolvent(100, hot), hot, cold });
    expect(crop.recoveryPercent).toBeCloseTo(100 * (1 - cold / hot), 9);
  });
});

test('L-glutamic acid: points of a published van ’t Hoff line give its enthalpy back', () => {
  // ln x = −26 900/(R·T) + 35.94/R (Mo et al., Fluid Phase Equilib. 300 (2011) 105, as a public program has it).
  const [enthalpy, entropy, gas] = [26_900, 35.94, 8.3145];
  const share = (celsius: number): number => Math.exp(-enthalpy / (gas * (celsius + 273.15)) + entropy / gas);
  // g per 100 g of water: the acid 147.1, water 18.02 g/mol. Dilute, so that S runs with x.
  const grams = (celsius: number): number => (100 * 147.1 * share(celsius)) / (18.02 * (1 - share(celsius)));
  const fit = vantHoffFit([10, 20, 30, 40, 50].map((celsius) => ({ celsius, grams: grams(celsius) })));
  if (!fit) throw new Error('no fit');
  expect(Math.abs((-fit.slope * gas) / enthalpy - 1)).toBeLessThan(0.005);
  expect(fitted(fit, 60) / grams(60)).toBeCloseTo(1, 2);
});

describe('what cannot be a curve', () => {
  test('none, one, and one temperature twice', () => {
    for (const points of [
      [],
      [[20, 5]],
      [
        [20, 5],
        [20, 6],
      ],
    ] as const) {
      expect(solubilityAt(curveOf(points), 20)).toMatchObject({ ok: false, why: { code: 'too few solubility points' } });
    }
  });

  test('a solubility that is negative, zero or no number is refused, typed or in a file', () => {
    for (const text of ['−1', '-1', '0', 'x']) {
      expect(readRecrystallise(`from water per 100 mL; 0 °C ${text} g, 90 °C 5 g; hot 90 °C, cold 0 °C`).ok, text).toBe(false);
    }
    const recrystallise = { solvent: 'water', per: '100 mL solvent', hotCelsius: 90, coldCelsius: 0 };
    const file = (grams: number): unknown => {
      const points = [{ celsius: 0, grams }];
      return route({ a: 'C6H12', b: 'C6H6' }, [
        step({ id: '1', basis: 'a', product: 'b', extra: { recrystallise: { ...recrystallise, points } as never } }),
      ]);
    };
    expect(Route.safeParse(file(1)).success).toBe(true);
    for (const grams of [-1, 0, Number.NaN]) expect(Route.safeParse(file(grams)).success, String(grams)).toBe(false);
  });
});
