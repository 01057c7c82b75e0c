// `npm run bench`: no test, a measurement. Ratios are reported, since machines differ.
import type { Operation } from '../../src/core/route/route.ts';
import { bottle, draw, planOf, route, step } from '../core/build.ts';

// How long a keystroke takes to plan, against the bare arithmetic of the same chain in the same run.
const STEPS = 60;
const keys = Array.from({ length: STEPS + 1 }, (_, i) => `m${i}`);
const reagents = ['r0', 'r1', 'r2', 'r3', 'r4'];
const solvent: Operation = {
  do: 'charge',
  id: 'solvent',
  stage: 'reaction',
  material: 'ethanol',
  form: { kind: 'solution', strength: { value: 96, basis: '% v/v' } },
  rule: { kind: 'volumes', millilitresPerGram: 3 },
};
const sixty = route(
  {
    ...Object.fromEntries(keys.map((key) => [key, 'C6H12'])),
    ...Object.fromEntries(reagents.map((key) => [key, 'NaCl'])),
    ethanol: { name: 'ethanol', formula: 'C2H6O', cas: '64-17-5' },
  },
  Array.from({ length: STEPS }, (_, i) =>
    step({
      id: `s${i}`,
      basis: keys[i] ?? '',
      product: keys[i + 1] ?? '',
      yieldPercent: 95,
      equivalents: Object.fromEntries(reagents.map((key) => [key, 1.1])),
      more: [solvent],
    }),
  ),
);
const bottles = [
  ...reagents.map((key) => bottle(key, 1e5)),
  bottle('ethanol', 1e5, 'mL', { kind: 'solution', strength: { value: 96, basis: '% v/v' } }),
];

/** Median milliseconds of one call. */
function median(work: (round: number) => void, rounds: number): number {
  const times = Array.from({ length: rounds }, (_, round) => {
    const start = performance.now();
    work(round);
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)] ?? Number.NaN;
}

const FRAME = 1000 / 60;
const keystroke = median((round) => {
  planOf(sixty, [draw(keys[STEPS] ?? '', 20 + round / 100)], bottles);
}, 60);
const json = median(() => {
  JSON.parse(JSON.stringify(sixty));
}, 60);
console.log(
  `a keystroke on ${STEPS} steps of 7 charges: ${keystroke.toFixed(1)} ms, ${(keystroke / FRAME).toFixed(2)} of a frame`,
);
console.log(`against copying the route as JSON (${json.toFixed(2)} ms) in the same run: ${(keystroke / json).toFixed(1)} times`);
