import type { BenchInput } from '../bench/bench-section.ts';
import { momentsOf } from '../bench/moments.ts';
import type { Facts } from '../matter/facts.ts';
import { type Dissolved, heatOfMixing } from '../matter/heat-of-dilution.ts';
import { solventFacts } from '../matter/named.ts';
import { anhydrousOf } from '../matter/solution-parts.ts';
import { computed, type Figure, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Charge } from '../route/route.ts';
import { type Maybe, known, type Why } from '../words/why.ts';
import { type Charged, chargedBy } from './charged.ts';
import { hydrolysisNow, meetingHeat } from './meeting-heat.ts';

/** Heat that a charge gives beside the reaction: thinning with water what is dissolved, water that hydrolyses, acid meeting base. */
export interface ExtraHeat {
  readonly charge: Charge;
  readonly kind: 'dilution' | 'hydrolysis' | 'neutralisation';
  /** One batch, kJ; negative where heat is taken up. */
  readonly heat: Maybe<'kJ'>;
  /** Of a neutralisation: what is there and not counted, because its pKa is not known. */
  readonly uncounted: readonly string[];
}

const WATER = '7732-18-5';
/** g/mol; from the standard atomic weights of hydrogen and oxygen. */
const WATER_MASS = 18.015;
const DIGITS = 2;
/** Solutes that never give or take so much in water, kJ/mol, are not followed. */
const LEAST_HEAT = 5;

/** What is in the water of the vessel. */
interface Bath {
  /** Why what is in it is not known any more. */
  blind: Why | null;
  water: number;
  readonly solutes: Map<string, { readonly facts: Facts; readonly parts: Dissolved[] }>;
}

/**
 * Heats of dilution and of neutralisation of one batch, charge by charge: dilution to the first removal of anything but a
 * gas, since what is left after it is not followed; acids and bases by what is in the vessel, beside what the equation uses.
 */
export function extraHeats(of: BenchInput): readonly ExtraHeat[] {
  const order = new Map(of.step.operations.map((one, at) => [one.id, at]));
  const at = ({ charge }: ExtraHeat): number => order.get(charge.id) ?? 0;
  return [...dilutions(of), ...meetings(of)].toSorted((a, b) => at(a) - at(b));
}

function dilutions(of: BenchInput): readonly ExtraHeat[] {
  const bath: Bath = { blind: null, water: 0, solutes: new Map() };
  const found: ExtraHeat[] = [];
  for (const operation of of.step.operations) {
    if (operation.do === 'removal' && operation.how !== 'vent') break;
    if (operation.do !== 'charge') continue;
    for (const one of chargedBy(operation, of)) {
      const heat = dilution(one, bath, of.reference);
      if (heat) found.push({ charge: operation, kind: 'dilution', heat, uncounted: [] });
    }
  }
  return found;
}

function meetings(of: BenchInput): readonly ExtraHeat[] {
  const moments = momentsOf(of);
  let later = moments.reduce((sum, moment) => sum + moment.extent, 0);
  return moments.flatMap((moment): readonly ExtraHeat[] => {
    const charge = of.step.operations.find((one): one is Charge => one.do === 'charge' && one.id === moment.operation);
    const met = charge && meetingHeat(moment, later, of);
    const water = charge && hydrolysisNow(moment, later, of);
    later -= moment.extent;
    return [
      ...(water ? [{ charge, kind: 'hydrolysis' as const, heat: water, uncounted: [] }] : []),
      ...(met ? [{ charge, kind: 'neutralisation' as const, ...met }] : []),
    ];
  });
}

/** The heat when a charge joins the bath; null where nothing is thinned by it. Leaves the bath with the charge in it. */
function dilution(one: Charged, bath: Bath, reference: Reference): Maybe<'kJ'> | null {
  const wasThere = bath.water > 0 || bath.solutes.size > 0 || bath.blind !== null;
  if (couldThin(one, reference)) {
    if (!one.grams.ok) bath.blind = one.grams.why;
    if (bath.blind) return wasThere ? { ok: false, why: bath.blind } : null;
  }
  const [solute, water] = waterAndSolute(one, reference);
  const empty = bath.water === 0 && bath.solutes.size === 0;
  const before = mixedSoFar(bath, reference);
  bath.water += water;
  if (solute) {
    const key = anhydrousOf(solute.facts, reference).cas ?? '';
    const held = bath.solutes.get(key) ?? { facts: solute.facts, parts: [] };
    bath.solutes.set(key, { ...held, parts: [...held.parts, solute] });
  }
  // Its own water alone thins nothing, and without water or solute nothing changes.
  if (empty || bath.water === 0 || bath.solutes.size === 0 || (water === 0 && !solute)) return null;
  const after = mixedSoFar(bath, reference);
  if (!after.ok) return after;
  if (!before.ok) return before;
  const value = after.figure.value - before.figure.value;
  return known(computed('heat of dilution', value, 'kJ', 'heat of solution after − before', [after.figure, before.figure]));
}

/**
 * Heat given off since the parts stood in their bottles, kJ. Several solutes in one water: each as if it had all of the
 * water for itself, which is the most they can give together.
 */
function mixedSoFar(bath: Bath, reference: Reference): Maybe<'kJ'> {
  const heats: Figure<'kJ'>[] = [];
  for (const { facts, parts } of bath.solutes.values()) {
    const own = parts.reduce((sum, part) => sum + part.waterMoles, 0);
    const one = heatOfMixing(facts, parts, Math.max(bath.water, own), reference);
    if (!one.ok) return one;
    heats.push(one.figure);
  }
  const total = heats.reduce((sum, figure) => sum + figure.value, 0);
  if (heats.length < 2) return known(computed('heat of solution so far', total, 'kJ', 'Σ over the solutes', heats));
  const shared = sourced('solutes in one water', heats.length, '', 'each counted with all of the water', DIGITS, 'estimate');
  return known(computed('heat of solution so far', total, 'kJ', 'Σ over the solutes', [...heats, shared]));
}

/** Whether a charge can thin or be thinned: water, what is dissolved in it, and solutes that are followed. */
function couldThin({ facts, form }: Charged, reference: Reference): boolean {
  const own = anhydrousOf(facts, reference).cas;
  const inWater = form.kind === 'solution' && solventFacts(form, reference)?.cas === WATER;
  return facts.cas === WATER || inWater || (own !== null && isHot(own, reference));
}

/** True where water makes so much of a solute's heat that it is followed. */
function isHot(cas: string, reference: Reference): boolean {
  return (reference.heats.get(cas) ?? []).some((row) => Math.abs(row.heat) >= LEAST_HEAT);
}

/** What a charge brings into the water: a solute that the table of heats has, and mol of water. */
function waterAndSolute(one: Charged, reference: Reference): readonly [Dissolved | null, number] {
  if (!one.grams.ok) return [null, 0];
  const grams = one.grams.figure.value;
  if (one.facts.cas === WATER) return [null, grams / WATER_MASS];
  const own = anhydrousOf(one.facts, reference);
  const inWater = one.form.kind === 'solution' && solventFacts(one.form, reference)?.cas === WATER;
  const mass = own.molarMass && one.moles ? own.molarMass.value * one.moles.value : grams;
  const water = inWater ? Math.max(0, grams - mass) / WATER_MASS : 0;
  if (!one.moles || own.cas === null || !isHot(own.cas, reference)) return [null, water];
  if (one.form.kind === 'solution' && !inWater) return [null, 0];
  if (one.moles.value === 0) return [null, water];
  return [{ moles: one.moles, waterMoles: water, facts: inWater ? own : one.facts }, water];
}
