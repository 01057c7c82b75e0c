import type { Facts } from '../matter/facts.ts';
import { parseFormula } from '../matter/formula.ts';
import { type Hydrate, hydrateOf } from '../matter/hydrate.ts';
import { materialNamed } from '../matter/named.ts';
import { foldName } from '../matter/facts.ts';
import { computed, sourced } from '../quantity/figure.ts';
import { grouped } from '../grouped.ts';
import type { Reference } from '../reference.ts';
import type { SolubilityRow } from '../reference-rows.ts';
import { remember } from '../remember.ts';
import type { Recrystallise } from '../route/route.ts';
import { hydrateSolubility, perSolvent } from './solubility.ts';
import { type CurvePoint } from './solubility-curve.ts';

/** The solubilities that hold, and whose they are. */
export interface KnownSolubility {
  readonly points: readonly CurvePoint[];
  readonly per: '100 mL solvent' | '100 g solvent';
  /** The row of the built-in table; null where the points are the person's own, which always go first. */
  readonly row: SolubilityRow | null;
  /** The table counts the anhydrous substance, the product is its hydrate: mol of water per mol. */
  readonly water: number | null;
}

const DIGITS = 3;

/** The step's own points; without any, the built-in table's for its product in that solvent; null where it has none. */
export function knownSolubility(
  of: Pick<Recrystallise, 'points' | 'per' | 'solvent'>,
  product: Facts | null,
  reference: Reference,
): KnownSolubility | null {
  if (of.points.length > 0) return ownPoints(of);
  if (!product) return null;
  const row = rowFor(product, of.solvent, reference);
  if (row) return { points: tablePoints(row, null), per: row.per, row, water: null };
  const hydrate = hydrateOf(product, reference);
  const dry = hydrate && rowFor(hydrate.anhydrous, of.solvent, reference);
  if (!hydrate || !dry) return null;
  return { points: tablePoints(dry, ratioOf(product, hydrate)), per: dry.per, row: dry, water: hydrate.water };
}

function ownPoints({ points, per }: Pick<Recrystallise, 'points' | 'per'>): KnownSolubility {
  return {
    points: points.map(({ celsius, grams }) => ({
      celsius,
      grams: perSolvent(grams, per),
      figure: {
        label: `solubility at ${celsius} °C, per ${per}`,
        value: grams,
        unit: 'g',
        digits: DIGITS,
        from: { kind: 'entered', where: 'the solubility points of the step' },
      },
    })),
    per: per === '100 mL solvent' ? per : '100 g solvent',
    row: null,
    water: null,
  };
}

/** The table's points; those at which a hydrate dissolves in its own water are left out. */
function tablePoints(row: SolubilityRow, ratio: number | null): readonly CurvePoint[] {
  return row.points.flatMap(([celsius, grams]) => {
    const label = `solubility of ${row.solute} at ${celsius} °C, per ${row.per}`;
    const printed = sourced(label, grams, 'g', row.source, DIGITS, row.mark ?? undefined);
    if (ratio === null) return [{ celsius, grams, figure: printed }];
    const whole = hydrateSolubility(grams, ratio);
    if (whole === null) return [];
    const how = 'as the hydrate: its water of crystallisation goes to the solvent';
    return [{ celsius, grams: whole, figure: computed(`${label}, as the hydrate`, whole, 'g', how, [printed]) }];
  });
}

function ratioOf(product: Facts, { anhydrous }: Hydrate): number {
  return (product.molarMass?.value ?? Number.NaN) / (anhydrous.molarMass?.value ?? Number.NaN);
}

function rowFor(product: Facts, solvent: string, reference: Reference): SolubilityRow | null {
  const rows = indexOf(reference.rows, reference);
  const key = product.formula === null ? null : atomsOf(product.formula, reference);
  const found = [...(rows.get(product.cas ?? '') ?? []), ...(key === null ? [] : (rows.get(key) ?? []))];
  return found.find((row) => sameSolvent(row.solvent, solvent, reference)) ?? null;
}

function sameSolvent(one: string, other: string, reference: Reference): boolean {
  if (foldName(one) === foldName(other)) return true;
  const [a, b] = [materialNamed(one, reference), materialNamed(other, reference)];
  return a !== null && a.cas === b?.cas;
}

/** Rows by CAS number; salts, which have none in the table, by what their formula is made of. */
const indexOf = remember((rows: Reference['rows'], reference: Reference) =>
  grouped(rows.solubility, (row) => (row.formula === null ? row.cas : (atomsOf(row.formula, reference) ?? ''))),
);

function atomsOf(formula: string, reference: Reference): string | null {
  const read = parseFormula(formula, reference);
  if (!read.ok || read.charge !== 0) return null;
  return [...read.atoms]
    .map(([symbol, count]) => `${symbol}${count}`)
    .sort()
    .join(' ');
}
