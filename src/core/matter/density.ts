import { type Figure, sourced } from '../quantity/figure.ts';
import { densityKey, type DensityRow, type DensityTable, type Reference } from '../reference.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import type { Facts } from './facts.ts';
import { type Form, solventOf } from './form.ts';
import { interpolateMonotone } from './interpolate.ts';

const DIGITS = 4;

/** The table of a solute in a solvent; null where there is none. */
export function densityTable(facts: Facts, solvent: string, reference: Reference): DensityTable | null {
  return facts.cas === null ? null : (reference.densities.get(densityKey(facts.cas, solvent)) ?? null);
}

/**
 * Density of a solution at 20 °C, g/mL: measured on the bottle, else the table by monotone interpolation.
 * @param massPercent % w/w of solute, within the table's range.
 * @returns why not, where there is no table or the strength lies outside it. Nothing is extrapolated.
 */
export function solutionDensity(
  facts: Facts,
  form: Form & { kind: 'solution' },
  massPercent: number,
  reference: Reference,
): Maybe<'g/mL'> {
  const measured = measuredDensity(facts.name, form);
  if (measured) return known(measured);
  const table = densityTable(facts, solventOf(form), reference);
  if (!table) return unknown('no density table', { material: facts.name });
  const value = interpolateMonotone(table.percents, table.densities, massPercent);
  if (value === null) return unknown('outside density table', { material: facts.name, percent: massPercent, ...rangeOf(table) });
  const near = nearestRow(table, massPercent);
  const source = `table at 20 °C, ${near.source}`;
  return known(
    sourced(
      `density of ${facts.name} ${Number(massPercent.toPrecision(4))} % w/w`,
      value,
      'g/mL',
      source,
      DIGITS,
      near.mark ?? undefined,
    ),
  );
}

/** The density measured on the bottle, g/mL, where the form carries one. */
export function measuredDensity(name: string, form: Form): Figure<'g/mL'> | null {
  if (form.kind === 'unknown' || !form.density) return null;
  const { gramsPerMillilitre, celsius, source } = form.density;
  return sourced(`density of ${name}`, gramsPerMillilitre, 'g/mL', `${source ?? 'measured'}, ${celsius} °C`, DIGITS);
}

function rangeOf(table: DensityTable): { from: number; to: number } {
  return { from: table.percents[0] ?? 0, to: table.percents.at(-1) ?? 0 };
}

function nearestRow(table: DensityTable, massPercent: number): DensityRow {
  return table.rows.reduce((best, row) =>
    Math.abs(row.massPercent - massPercent) < Math.abs(best.massPercent - massPercent) ? row : best,
  );
}
