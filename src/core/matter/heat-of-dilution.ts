import { computed, type Figure, type Mark, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { HeatRow } from '../reference-rows.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import type { Facts } from './facts.ts';
import { interpolateMonotone } from './interpolate.ts';

/**
 * Heat of dissolving, diluting and mixing in water, from integral heats of solution ΔH(r): kJ per mole of solute when
 * it is brought from the pure state into r moles of water, at 25 °C. Between r₁ and r₂ a mole gives off ΔH(r₁) − ΔH(r₂).
 */

const DIGITS = 3;
/** A table whose first row lies this far out tells little of what is between it and the pure solute. */
const WIDE_GAP = 2;
/** From here on, mol of water per mol, the heat at great dilution stands in for one that no table has. */
const GREAT_DILUTION = 50;

/**
 * Where r stands on the axis that heats are interpolated on: 0 for the pure solute, 1 at infinite dilution. The
 * limiting law of dilute electrolytes (heat of dilution as the square root of molality, r^−½) is a straight line there.
 * @param water mol of water per mol of solute, ≥ 0 or Infinity.
 */
export function placeOnDilution(water: number): number {
  return 1 - 1 / Math.sqrt(1 + water);
}

/**
 * Integral heat of solution in water at 25 °C, kJ per mol of solute, by monotone interpolation; the pure solute is 0.
 * @param water mol of water per mol of solute, ≥ 0.
 * @returns why not, where the table has no such solute or ends before. Nothing is extrapolated; between the pure
 * solute and a far first row, and where only the heat at great dilution is known, the figure is marked an estimate.
 * Source: resources/tables/heats-of-solution.csv, where each row names its own.
 */
export function integralHeat(facts: Facts, water: number, reference: Reference): Maybe<'kJ/mol'> {
  if (!(water >= 0)) throw new RangeError(`integralHeat needs 0 or more mol of water per mol (got ${water})`);
  const rows = facts.cas === null ? undefined : reference.heats.get(facts.cas);
  const last = rows?.at(-1);
  if (!rows || !last) return unknown('no heat of solution', { material: facts.name });
  const label = `heat of solution of ${facts.name} in ${waterText(water)} mol of water per mol`;
  if (water === 0) return known(pureSolute(facts, rows, undefined));
  if (rows.length === 1) return atGreatDilution(facts, water, last, label);
  if (last.water !== null && water > last.water) {
    return unknown('outside heat table', { material: facts.name, water, to: last.water });
  }
  const places = [0, ...rows.map((row) => placeOnDilution(row.water ?? Infinity))];
  const heats = [0, ...rows.map((row) => row.heat)];
  const value = interpolateMonotone(places, heats, placeOnDilution(water));
  if (value === null) return unknown('outside heat table', { material: facts.name, water, to: last.water ?? Infinity });
  return known(computed(label, value, 'kJ/mol', 'interpolated between these points at 25 °C', around(facts, rows, water)));
}

/** The two points a heat lies between, with their sources and marks. */
function around(facts: Facts, rows: readonly HeatRow[], water: number): readonly Figure[] {
  const next = rows.findIndex((row) => (row.water ?? Infinity) >= water);
  const above = rows[next];
  const below = rows[next - 1];
  const gap: Mark | undefined = !below && (above?.water ?? 0) >= WIDE_GAP ? 'estimate' : undefined;
  return [below ? point(below) : pureSolute(facts, rows, gap), ...(above ? [point(above)] : [])];
}

function point(row: HeatRow): Figure<'kJ/mol'> {
  const where = row.water === null ? 'at infinite dilution' : `at ${row.water} mol of water per mol`;
  return sourced(`heat of solution ${where}`, row.heat, 'kJ/mol', row.source, DIGITS, row.mark ?? undefined);
}

function pureSolute(facts: Facts, rows: readonly HeatRow[], mark: Mark | undefined): Figure<'kJ/mol'> {
  const label = `heat of solution of pure ${facts.name} (${rows[0]?.pure ?? ''})`;
  return sourced(label, 0, 'kJ/mol', 'the zero all heats of solution are counted from', DIGITS, mark);
}

function atGreatDilution(facts: Facts, water: number, row: HeatRow, label: string): Maybe<'kJ/mol'> {
  if (water < GREAT_DILUTION) return unknown('heat at great dilution only', { material: facts.name, heat: row.heat });
  const source = `${row.source}, at infinite dilution, taken for this dilution`;
  return known(sourced(label, row.heat, 'kJ/mol', source, DIGITS, row.water === null ? 'estimate' : (row.mark ?? undefined)));
}

/** Where the last two rows of a table differ by less, kJ/mol, little is left to come. */
const FLAT = 1;

/**
 * Heat of solution as far out as the table goes, kJ/mol: at infinite dilution; where it has no such row but is flat at 50
 * mol of water per mol or more, its last row, marked an estimate. What a weak acid takes up when it falls apart is not in it.
 * @param water mol of water per mol it already has: at least that much, so that it is never past the end.
 */
export function heatToTheEnd(
  facts: Facts,
  water: number,
  reference: Reference,
): { readonly start: Maybe<'kJ/mol'>; readonly end: Maybe<'kJ/mol'> } {
  const rows = facts.cas === null ? undefined : reference.heats.get(facts.cas);
  const [before, last] = [rows?.at(-2), rows?.at(-1)];
  const flat = before && last && last.water !== null && last.water >= GREAT_DILUTION && Math.abs(last.heat - before.heat) < FLAT;
  if (!flat || last.water === null)
    return { start: integralHeat(facts, water, reference), end: integralHeat(facts, Infinity, reference) };
  const source = `${last.source}, taken for any greater dilution`;
  const label = `heat of solution at ${last.water} mol of water per mol`;
  const end = sourced(label, last.heat, 'kJ/mol', source, DIGITS, 'estimate');
  return { start: integralHeat(facts, Math.min(water, last.water), reference), end: known(end) };
}

function waterText(water: number): string {
  return water === Infinity ? 'unlimited' : String(Number(water.toPrecision(3)));
}

/** What goes into a mixture: so much solute with the water it already has. */
export interface Dissolved {
  /** Solute, mol, ≥ 0. */
  readonly moles: Figure<'mol'>;
  /** Water that comes with it, mol, ≥ 0; 0 for the pure solute. */
  readonly waterMoles: number;
  /** The substance itself: the solute, or a hydrate of it that dissolves. */
  readonly facts: Facts;
}

/**
 * Heat given off, kJ, when these are brought into one solution with `water` mol of water in all (theirs counted);
 * negative where it is taken up. q = Σ nᵢ·ΔH(rᵢ) − n·ΔH(r), n = Σ nᵢ, r = water ÷ n.
 * @param solute whose table holds for the solutions. @param water mol, ≥ what the parts bring.
 * @returns why not, where one of the heats is not known.
 */
export function heatOfMixing(solute: Facts, parts: readonly Dissolved[], water: number, reference: Reference): Maybe<'kJ'> {
  const moles = parts.reduce((sum, part) => sum + part.moles.value, 0);
  if (!(moles > 0)) throw new RangeError(`heatOfMixing needs solute to mix (got ${moles} mol)`);
  const crystal = parts.find((part) => part.facts.cas !== solute.cas);
  if (crystal) return heatOfCrystal(crystal, parts.length, water / moles, reference);
  const end = integralHeat(solute, water / moles, reference);
  if (!end.ok) return end;
  let heat = -moles * end.figure.value;
  const of: Figure[] = [end.figure];
  for (const part of parts) {
    if (part.moles.value === 0) continue;
    const start = integralHeat(solute, part.waterMoles / part.moles.value, reference);
    if (!start.ok) return start;
    heat += part.moles.value * start.figure.value;
    of.push(part.moles, start.figure);
  }
  return known(computed('heat given off', heat, 'kJ', 'moles × (heat of solution before − after)', of));
}

/** A hydrate's crystal has a heat of its own, known at great dilution only. */
function heatOfCrystal(part: Dissolved, parts: number, ratio: number, reference: Reference): Maybe<'kJ'> {
  if (parts > 1) return unknown('no heat of solution', { material: part.facts.name });
  const heat = integralHeat(part.facts, ratio, reference);
  if (!heat.ok) return heat;
  const { moles } = part;
  return known(
    computed('heat given off', -moles.value * heat.figure.value, 'kJ', 'moles × heat of solution', [moles, heat.figure]),
  );
}
