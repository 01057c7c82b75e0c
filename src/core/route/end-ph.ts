import type { ChargeRule } from './route.ts';

const PH = /\bpH\s*(?:of\s+)?[<>≤≥~≈]?\s*(\d+(?:[.,]\d+)?)(?:\s*(?:-|–|to)\s*(\d+(?:[.,]\d+)?))?/i;
const [LEAST, NEUTRAL, MOST] = [2, 7, 12];

/**
 * The pH a charge goes to, from 2 to 12: that of its rule "to neutralise", or the one its end point names ("until pH 8");
 * of a range the end further from 7, which needs the most. Null where it names none.
 */
export function endPHOf(rule: ChargeRule): number | null {
  if (rule.kind === 'until') return endPHOf(rule.estimate) ?? namedPH(rule.endPoint);
  return rule.kind === 'to neutralise' ? rule.endPH : null;
}

function namedPH(text: string): number | null {
  const found = PH.exec(text);
  const ends = [found?.[1], found?.[2]].flatMap((one) => (one === undefined ? [] : [Number(one.replace(',', '.'))]));
  const [end] = ends.sort((a, b) => Math.abs(b - NEUTRAL) - Math.abs(a - NEUTRAL));
  return end !== undefined && end >= LEAST && end <= MOST ? end : null;
}
