import type { BenchPlot } from '../bench/bench-section.ts';
import type { Recrystallise } from '../route/route.ts';
import type { KnownSolubility } from './known-solubility.ts';
import { inSaturated } from './solubility.ts';
import { REACH, type Side, type SolubilityCurve, solubilityAt, whereOn } from './solubility-curve.ts';
import { fitted } from './van-t-hoff.ts';

const STEPS = 24;

/** Points, the line of each side between its points, dashed where amounts are taken beyond; hot and cold marked. */
export function solubilityPlot(of: Recrystallise, known: KnownSolubility, curve: SolubilityCurve): BenchPlot | null {
  const [first, last] = [curve.points[0]?.celsius, curve.points.at(-1)?.celsius];
  if (first === undefined || last === undefined || first === last) return null;
  return {
    name: 'solubility',
    values: { solvent: of.solvent, per: known.per },
    x: '°C',
    y: 'g',
    points: curve.points.map((point) => ({ x: point.celsius, y: point.grams })),
    lines: [...curve.sides.flatMap(lineOf), ...dashesOf(of, curve)],
    inside: { from: first, to: last },
    marks: [of.coldCelsius, of.hotCelsius].map((x, at) => ({ x, name: at === 0 ? 'cold' : 'hot' })),
    table: {
      columns: ['celsius', 'grams', 'line', ...(known.per === '100 g solvent' ? ['share'] : [])],
      rows: curve.sides.flatMap((side) =>
        side.points.map((point) => [
          point.celsius,
          point.grams,
          side.fit ? fitted(side.fit, point.celsius) : null,
          ...(known.per === '100 g solvent' ? [inSaturated(100, point.grams).solute] : []),
        ]),
      ),
    },
  };
}

type Line = BenchPlot['lines'][number];

function spread(from: number, to: number, of: (x: number) => number): Line['at'] {
  return Array.from({ length: STEPS + 1 }, (_, at) => {
    const x = from + ((to - from) * at) / STEPS;
    return { x, y: of(x) };
  });
}

function lineOf({ points, fit }: Side): readonly Line[] {
  const [from, to] = [points[0]?.celsius, points.at(-1)?.celsius];
  if (!fit || from === undefined || to === undefined) return [];
  return [{ dashed: false, at: spread(from, to, (x) => fitted(fit, x)) }];
}

/** What is taken beyond the points and in the gap of a change: the very values the amounts use. */
function dashesOf({ hotCelsius, coldCelsius }: Recrystallise, curve: SolubilityCurve): readonly Line[] {
  const [first, last] = [curve.points[0]?.celsius ?? 0, curve.points.at(-1)?.celsius ?? 0];
  const at = (x: number): number => {
    const found = solubilityAt(curve, x);
    return found.ok ? found.figure.value : Number.NaN;
  };
  const beyond = (x: number, end: number): readonly Line[] =>
    whereOn(curve, x) === 'beyond' ? [{ dashed: true, at: spread(Math.min(x, end), Math.max(x, end), at) }] : [];
  const low = Math.max(Math.min(hotCelsius, coldCelsius), first - REACH);
  const high = Math.min(Math.max(hotCelsius, coldCelsius), last + REACH);
  const gap = curve.change ? [{ dashed: true, at: spread(curve.change.from, curve.change.to, at) }] : [];
  return [...(low < first ? beyond(low, first) : []), ...gap, ...(high > last ? beyond(high, last) : [])];
}
