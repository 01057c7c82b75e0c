import type { Facts } from '../../matter/facts.ts';
import { parseFormula, prettyFormula } from '../../matter/formula.ts';
import type { Reference } from '../../reference.ts';
import type { Step, Term } from '../../route/route.ts';
import type { EquationPlan } from '../result.ts';
import { remember, rememberOfThree } from '../../remember.ts';

export interface Balance extends EquationPlan {
  /** What the two sides differ by, e.g. "2 H more on the left"; empty where it balances or cannot be told. */
  readonly difference: string;
  /** Names of materials whose formula is missing or cannot be read: then nothing is claimed. */
  readonly unknown: readonly string[];
}

const formulaOf = remember((one: Facts, reference: Reference) =>
  one.formula ? { read: parseFormula(one.formula, reference), text: prettyFormula(one.formula) } : null,
);

/** Whether a step's equation balances in atoms and charge, and by what it does not. */
export const balanceOf = rememberOfThree((step: Step, facts: ReadonlyMap<string, Facts>, reference: Reference): Balance => {
  const side = (terms: readonly Term[]): string => terms.map((term) => termText(term, facts, reference)).join(' + ');
  const text = `${side(step.equation.uses)} → ${side(step.equation.makes)}`;
  const counts = new Map<string, number>();
  const unknown: string[] = [];
  const count = (terms: readonly Term[], sign: number): void => {
    for (const term of terms) {
      const one = facts.get(term.material);
      const formula = one ? formulaOf(one, reference)?.read : null;
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
});

function termText(term: Term, facts: ReadonlyMap<string, Facts>, reference: Reference): string {
  const one = facts.get(term.material);
  const name = one ? (formulaOf(one, reference)?.text ?? one.name) : term.material;
  return term.coefficient === 1 ? name : `${term.coefficient} ${name}`;
}
