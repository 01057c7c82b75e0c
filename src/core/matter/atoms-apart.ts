import { abbreviationAt } from './abbreviations.ts';

const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';
/** One symbol, bracket, dot or number at a time. */
const TOKEN = /([A-Z][a-z]?)|([([{])|([)\]}])|([·*.•⋅∙])|(\d+(?:\.\d+)?)|\s+/y;
const LONGEST = 300;

type Atoms = Map<string, number>;

/**
 * Whether two formulas are plainly of different atoms, as CuSO4 and CuSO4·5H2O, or CO and Co are. What cannot be read here
 * (a charge, an isotope, an abbreviation, "·xH2O") tells nothing, and nor does a formula that is not given.
 */
export function atomsApart(one: string | undefined, other: string | undefined): boolean {
  if (one === undefined || other === undefined || one === other) return false;
  const [a, b] = [atomsOf(one), atomsOf(other)];
  if (!a || !b) return false;
  return a.size !== b.size || [...a].some(([symbol, count]) => Math.abs((b.get(symbol) ?? 0) - count) > 1e-9);
}

function atomsOf(text: string): Atoms | null {
  if (text.length > LONGEST) return null;
  const plain = text.replaceAll(/[₀-₉]/g, (sign) => String(SUBSCRIPTS.indexOf(sign)));
  const whole: Atoms = new Map();
  for (const part of plain.split(/[·*•⋅∙]|(?<!\d)\.|\.(?!\d)|\.(?=\d+[A-Z])/)) {
    const [, factor = '1', rest = ''] = /^\s*(\d+(?:\.\d+)?)?\s*(.*?)\s*$/.exec(part) ?? [];
    const atoms = groupsOf(rest);
    if (!atoms || atoms.size === 0) return null;
    add(whole, atoms, Number(factor));
  }
  return whole;
}

/** The atoms of a text of symbols, brackets and counts; null where anything else stands in it. */
function groupsOf(text: string): Atoms | null {
  const open: Atoms[] = [new Map()];
  let last: Atoms | null = null;
  TOKEN.lastIndex = 0;
  while (TOKEN.lastIndex < text.length) {
    if (abbreviationAt(text, TOKEN.lastIndex)) return null;
    const [, symbol, opens, closes, dot, count] = TOKEN.exec(text) ?? [null, undefined, undefined, undefined, '?'];
    if (dot !== undefined) return null;
    if (count !== undefined) {
      if (!last) return null;
      // It stood there once already.
      add(open.at(-1) as Atoms, last, Number(count) - 1);
      last = null;
    } else if (opens !== undefined) {
      open.push(new Map());
      last = null;
    } else if (closes !== undefined || symbol !== undefined) {
      const inner = symbol === undefined ? open.pop() : new Map([[symbol, 1]]);
      const outer = open.at(-1);
      if (!inner || !outer) return null;
      add(outer, inner, 1);
      last = inner;
    }
  }
  return open.length === 1 ? (open[0] ?? null) : null;
}

function add(to: Atoms, from: Atoms, times: number): void {
  for (const [symbol, count] of from) to.set(symbol, (to.get(symbol) ?? 0) + count * times);
}
