import type { BenchInput } from '../bench/bench-section.ts';
import { type BoilsFirst, boilsFirst } from '../matter/boiling.ts';
import { solventFacts } from '../matter/named.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Charge, Removal } from '../route/route.ts';
import type { Why } from '../words/why.ts';
import type { Feed } from './adiabatic.ts';
import { type Charged, chargedBy } from './charged.ts';
import { specificHeat, type SpecificHeat } from './specific-heat.ts';

/** What takes up the heat of the reaction: everything in the vessel when the last reactant is in, one batch. */
export interface Mixture {
  readonly grams: Figure<'g'>;
  /** Of the whole mixture, J/(g·K). */
  readonly capacity: Figure<'J/(g·K)'>;
  /** Share of the mass whose heat capacity is assumed, %, with the names and values. */
  readonly assumedPercent: number;
  readonly assumed: readonly string[];
  /** The last reactant against the rest. */
  readonly feed: Feed;
  readonly boiling: Boiling;
}

/** The liquid that boils first. */
export interface Boiling {
  readonly lowest: BoilsFirst | null;
  /** Liquids whose boiling point is not known. */
  readonly unknown: readonly string[];
}

interface Part extends Charged {
  readonly mass: Figure<'g'>;
  /** What removals have left of it. */
  readonly left: number;
}

type Found = { readonly ok: true; readonly mixture: Mixture } | { readonly ok: false; readonly why: Why };

/**
 * The mixture in which a step reacts: charged up to and with the last reactant, less what was taken away before. What is
 * charged later takes up nothing, gases are left out, what gas carries away is left in: the rise is the higher for it.
 * @returns why not, where the mass of a charge is not known or nothing is charged.
 */
export function reactingMixture(of: BenchInput, last: Charge): Found {
  let parts: readonly Part[] = [];
  for (const operation of of.step.operations) {
    if (operation.do === 'removal') parts = parts.map((part) => ({ ...part, left: part.left * kept(part, operation, of) }));
    if (operation.do !== 'charge') continue;
    for (const one of chargedBy(operation, of)) {
      if (one.facts.state === 'gas' && one.form.kind !== 'solution') continue;
      if (!one.grams.ok) return one.grams;
      parts = [...parts, { ...one, mass: one.grams.figure, left: 1 }];
    }
    if (operation.id === last.id) break;
  }
  const total = parts.reduce((sum, part) => sum + massOf(part), 0);
  if (!(total > 0)) return { ok: false, why: { code: 'nothing in the vessel', values: {} } };
  return { ok: true, mixture: mixtureOf(parts, total, last, of) };
}

const massOf = (part: Part): number => part.mass.value * part.left;

function mixtureOf(parts: readonly Part[], total: number, last: Charge, of: BenchInput): Mixture {
  const heats = parts.map((part): readonly [Part, SpecificHeat] => [part, specificHeat(part.facts, part.form, of.reference)]);
  const masses = parts.map((part) => part.mass);
  const grams = computed('mixture, one batch', total, 'g', 'everything charged, less what was taken away', masses);
  const weighed = heats.reduce((sum, [part, heat]) => sum + massOf(part) * heat.figure.value, 0);
  const how = 'Σ mass × heat capacity ÷ mass';
  const capacity = computed('heat capacity of the mixture', weighed / total, 'J/(g·K)', how, [
    ...masses,
    ...heats.map(([, heat]) => heat.figure),
  ]);
  const guessed = heats.filter(([, heat]) => heat.estimated);
  const added = parts.filter((part) => part.charge.id === last.id).reduce((sum, part) => sum + massOf(part), 0);
  const side = (label: string, value: number): Figure<'g'> => computed(label, value, 'g', 'of the mixture', [grams]);
  return {
    grams,
    capacity,
    assumedPercent: (100 * guessed.reduce((sum, [part]) => sum + massOf(part), 0)) / total,
    assumed: guessed.map(([part, heat]) => `${part.facts.name} ${Number(heat.figure.value.toPrecision(2))}`),
    feed: { before: side('in the vessel before the addition', total - added), added: side('added', added) },
    boiling: boilingOf(parts, of),
  };
}

/** What a removal leaves of one part. */
function kept(part: Part, removal: Removal, of: BenchInput): number {
  return removal.takes.reduce((left, { what, percent }) => {
    const taken =
      what === 'liquids'
        ? part.liquid
        : what === 'solids'
          ? !part.liquid
          : what === 'all but the product'
            ? part.charge.material !== of.step.basis
            : of.facts.get(what) === part.facts;
    return taken ? left * (1 - percent / 100) : left;
  }, 1);
}

function boilingOf(parts: readonly Part[], { reference }: BenchInput): Boiling {
  const liquids = parts.flatMap(({ facts, form, liquid, left, mass }) => {
    if (!liquid || left === 0 || mass.value === 0) return [];
    const solvent = solventFacts(form, reference);
    if (form.kind !== 'solution') return [facts];
    // What the trade sells dissolved boils with its solvent, not as the pure substance.
    const own = facts.state === 'liquid' && !facts.usuallyDissolved ? [facts] : [];
    return solvent ? [solvent, ...own] : own;
  });
  return {
    lowest: boilsFirst(liquids, reference),
    unknown: [...new Set(liquids.filter((facts) => facts.boilingPoint === null).map((facts) => facts.name))],
  };
}
