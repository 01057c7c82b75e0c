import type { Facts } from '../matter/facts.ts';
import { parseFormula, prettyFormula } from '../matter/formula.ts';
import type { Reference } from '../reference.ts';
import type { Step, Term } from '../route/route.ts';
import type { EquationPlan } from './result.ts';

export interface Balance extends EquationPlan {
  /** What the two sides differ by, e.g. "2 H more on the left"; empty where it balances or cannot be told. */
  readonly difference: string;
  /** Names of materials whose formula is missing or cannot be read: then nothing is claimed. */
  readonly unknown: readonly string[];
}

/** Whether a step's equation balances in atoms and charge, and by what it does not. */
export function balanceOf(step: Step, facts: ReadonlyMap<string, Facts>, reference: Reference): Balance {
  const side = (terms: readonly Term[]): string => terms.map((term) => termText(term, facts)).join(' + ');
  const text = `${side(step.equation.uses)} → ${side(step.equation.makes)}`;
  const counts = new Map<string, number>();
  const unknown: string[] = [];
  const count = (terms: readonly Term[], sign: number): void => {
    for (const term of terms) {
      const one = facts.get(term.material);
      const formula = one?.formula ? parseFormula(one.formula, reference) : null;
      if (!formula?.ok) unknown.push(one?.name ?? term.material);
      else {
        for (const [symbol, atoms] of formula.atoms)
          counts.set(symbol, (counts.get(symbol) ?? 0) + sign * atoms * term.coefficient);
        counts.set('charge', (counts.get('charge') ?? 0) + sign * formula.charge * term.coefficient);
      }
    }
  };
  count(step.equation.uses, 1);
  count(step.equation.makes, -1);
  const differences = unknown.length > 0 ? [] : [...counts].filter(([, difference]) => Math.abs(difference) > 1e-9);
  const difference = differences
    .map(([symbol, by]) => `${Number(Math.abs(by).toPrecision(6))} ${symbol} more on the ${by > 0 ? 'left' : 'right'}`)
    .join(', ');
  return { text, balanced: unknown.length === 0 && differences.length === 0, difference, unknown };
}

function termText(term: Term, facts: ReadonlyMap<string, Facts>): string {
  const one = facts.get(term.material);
  const name = one?.formula ? prettyFormula(one.formula) : (one?.name ?? term.material);
  return term.coefficient === 1 ? name : `${term.coefficient} ${name}`;
}
