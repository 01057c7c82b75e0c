import { type BenchLine, benchWords } from '../bench/bench-section.ts';
import type { Recrystallise } from '../route/route.ts';
import type { KnownSolubility } from './known-solubility.ts';
import { REACH, type SolubilityCurve, whereOn } from './solubility-curve.ts';
import type { SolventLimits } from './solvent-limits.ts';

/** Points this far off the fitted line, as a part, are worth a word: common practice, no source. */
const SCATTER = 0.15;

type Values = BenchLine['values'];

function caution(code: string, values: Values): BenchLine {
  return benchWords(code, { level: 'caution', values });
}

/** What is doubtful about the points themselves: two values for one temperature, a change of the solid, scatter. */
export function pointCautions(of: Recrystallise, known: KnownSolubility, curve: SolubilityCurve): readonly BenchLine[] {
  const conflicts = curve.conflicts.map((one) => caution('conflict', { ...one }));
  return [...conflicts, ...changeLines(of, known, curve), ...scatterLines(curve), ...beyondLines(of, curve)];
}

function changeLines(of: Recrystallise, { row, water }: KnownSolubility, { change }: SolubilityCurve): readonly BenchLine[] {
  if (change) {
    const across = of.hotCelsius > change.from && of.coldCelsius < change.to;
    const values = { from: change.from, to: change.to, near: Math.round(change.near) };
    const code = change.stated ? 'change stated' : 'change';
    return [caution(code, values), ...(across ? [caution('change crossed', { near: values.near })] : [])];
  }
  const marked = row?.changeNear;
  if (!marked || water !== null || marked[1] < of.coldCelsius || marked[0] > of.hotCelsius) return [];
  return [caution('change marked', { from: marked[0], to: marked[1] })];
}

function scatterLines({ sides }: SolubilityCurve): readonly BenchLine[] {
  const scatter = Math.max(0, ...sides.map((side) => side.fit?.scatter ?? 0));
  return scatter <= SCATTER ? [] : [caution('scatter', { percent: Math.round(100 * scatter) })];
}

function beyondLines({ hotCelsius, coldCelsius }: Recrystallise, curve: SolubilityCurve): readonly BenchLine[] {
  const values = { from: curve.points[0]?.celsius ?? 0, to: curve.points.at(-1)?.celsius ?? 0, reach: REACH };
  return [hotCelsius, coldCelsius].flatMap((celsius) =>
    curve.points.length > 1 && whereOn(curve, celsius) === 'beyond' ? [caution('beyond', { celsius, ...values })] : [],
  );
}

/** Temperatures at which the solvent is no liquid, or the product melts before it dissolves. */
export function temperatureCautions(of: Recrystallise, limits: SolventLimits, meltsAt: number | null): readonly BenchLine[] {
  const { solvent, hotCelsius: hot, coldCelsius: cold } = of;
  const { boils, freezes } = limits;
  return [
    ...(boils === null ? [benchWords('boiling unknown', { values: { solvent } })] : []),
    ...(boils !== null && hot > boils ? [caution('boils', { solvent, boils, hot })] : []),
    ...(freezes !== null && cold < freezes ? [caution('freezes', { solvent, freezes, cold })] : []),
    ...(meltsAt !== null && meltsAt <= hot ? [caution('oils out', { melts: meltsAt, hot })] : []),
  ];
}
