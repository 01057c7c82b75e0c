import { computed, type Figure } from '../quantity/figure.ts';
import type { Step } from '../route/route.ts';

/** How far one reagent reaches: moles charged ÷ coefficient, and how much of the basis' reach that is. */
export interface Reach {
  readonly material: string;
  readonly name: string;
  /** mol ÷ coefficient: what the equation could turn over if this alone decided. */
  readonly turnover: Figure<'mol'>;
}

export interface Limiting {
  /** The reagent that runs out first. */
  readonly first: Reach;
  /** Every reagent of the equation whose moles are known, in order of the equation. */
  readonly reaches: readonly Reach[];
  /** Names of reagents of the equation whose moles are not known: they might limit. */
  readonly unknown: readonly string[];
}

/**
 * Which reagent limits, from the coefficients of the equation: fewest mol ÷ coefficient, not fewest mol. Of two that
 * reach equally far the basis is named. Null where no reagent's moles are known.
 * @param moles charged of a material in the whole step, mol; null where not known. @param nameOf its name.
 */
export function limitingOf(
  step: Pick<Step, 'equation' | 'basis'>,
  moles: (material: string) => Figure<'mol'> | null,
  nameOf: (material: string) => string,
): Limiting | null {
  const reaches: Reach[] = [];
  const unknown: string[] = [];
  for (const { material, coefficient } of step.equation.uses) {
    const charged = moles(material);
    if (!charged) unknown.push(nameOf(material));
    else {
      const label = `what ${nameOf(material)} can turn over`;
      const turnover = computed(label, charged.value / coefficient, 'mol', `moles ÷ coefficient ${coefficient}`, [charged]);
      reaches.push({ material, name: nameOf(material), turnover });
    }
  }
  const basis = reaches.find((one) => one.material === step.basis);
  const least = reaches.toSorted((a, b) => a.turnover.value - b.turnover.value)[0];
  const first = basis && least && basis.turnover.value <= least.turnover.value * (1 + 1e-12) ? basis : least;
  return first ? { first, reaches, unknown } : null;
}
