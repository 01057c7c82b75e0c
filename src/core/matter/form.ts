import * as z from 'zod/mini';
import { ShortText } from './material.ts';

/** Bases a strength can be stated on. A percentage never stands without one. */
export const StrengthBasis = z.enum(['% w/w', '% w/v', '% v/v', 'mol/L', 'mol/kg', 'g/L', 'eq/L']);
export type StrengthBasis = z.infer<typeof StrengthBasis>;

/**
 * Concentration with its basis. % w/v and % v/v are at 20 °C; mol/kg is per kilogram of solvent; eq/L (an acid's, a
 * base's or a redox reagent's equivalents) says how many equivalents a mole has in the use that is meant.
 */
export const Strength = z
  .strictObject({
    value: z.number().check(z.gt(0), z.lte(1_000_000)),
    basis: StrengthBasis,
    /** Only with eq/L: equivalents per mole, e.g. 2 for sulfuric acid as an acid. */
    equivalentsPerMole: z.optional(z.number().check(z.gt(0), z.lte(100))),
    /** Date of titration, ISO. */
    titrated: z.optional(z.iso.date()),
  })
  .check(
    z.refine((one) => (one.basis === 'eq/L') === (one.equivalentsPerMole !== undefined), {
      error: 'a strength in eq/L, and only that, needs equivalentsPerMole',
      path: ['equivalentsPerMole'],
    }),
  );
export type Strength = z.infer<typeof Strength>;

/** Name of a solution's solvent for comparing: water where none is named, spelling of case and spaces aside. */
export function solventOf(form: { readonly solvent?: string | undefined }): string {
  const name = (form.solvent ?? 'water').trim().toLowerCase().replaceAll(/\s+/g, ' ');
  return name === 'h2o' || name === 'h₂o' ? 'water' : name;
}

/** A basis that needs nothing else to be understood. */
export type PlainBasis = Exclude<StrengthBasis, 'eq/L'>;

/** Equivalents per litre as moles per litre; every other basis as it is. */
export function plainStrength(strength: Strength): { readonly value: number; readonly basis: PlainBasis } {
  const { value, basis, equivalentsPerMole } = strength;
  return basis === 'eq/L' ? { value: value / (equivalentsPerMole ?? 1), basis: 'mol/L' } : { value, basis };
}

export const MeasuredDensity = z.strictObject({
  gramsPerMillilitre: z.number().check(z.gt(0), z.lte(25)),
  celsius: z.number().check(z.gte(-100), z.lte(400)),
  source: z.optional(ShortText),
});

/** How a material is presented: neat with an assay, a solution with a strength, or not known. */
export const Form = z.discriminatedUnion('kind', [
  z
    .strictObject({
      kind: z.literal('neat'),
      /** % w/w of the material in what is weighed, or in that without its water; 100 where it is not given. */
      assayPercent: z.optional(z.number().check(z.gt(0), z.lte(100))),
      /** Where the assay counts what is there without its water ("anhydrous" or "dried substance"). */
      assayOn: z.optional(z.literal('anhydrous')),
      /** Only with an assay on the anhydrous basis: water in what is weighed, % w/w. On a bottle it is the bottle's own. */
      waterPercent: z.optional(z.number().check(z.gte(0), z.lt(100))),
      density: z.optional(MeasuredDensity),
    })
    .check(
      z.refine((one) => one.waterPercent === undefined || one.assayOn !== undefined, {
        error: 'water is taken off an assay on the anhydrous basis only: say assayOn',
        path: ['waterPercent'],
      }),
    ),
  z.strictObject({
    kind: z.literal('solution'),
    strength: Strength,
    /** Name of the solvent; water where it is not given. */
    solvent: z.optional(ShortText),
    density: z.optional(MeasuredDensity),
  }),
  z.strictObject({ kind: z.literal('unknown'), solvent: z.optional(ShortText) }),
]);
export type Form = z.infer<typeof Form>;

/** As it is, taken as 100 %: the form where none is named. */
export const NEAT: Form = { kind: 'neat' };

/**
 * Mass fraction of a neat material in what is weighed, 0 … 1: its assay, less the water where the assay leaves that out;
 * null where that water is not known. The pharmacopoeias' convention: anhydrous assay = assay as it is × 100 ÷ (100 − water).
 * Source: EDQM, answer on "dried" and "anhydrous" substance (faq.edqm.eu, page 1376913), for what the terms leave out; the
 * equation as given at tech-publish.com, "Potency on as is basis".
 */
export function neatFraction(form: Form & { readonly kind: 'neat' }): number | null {
  const assay = (form.assayPercent ?? 100) / 100;
  if (form.assayOn === undefined) return assay;
  return form.waterPercent === undefined ? null : assay * (1 - form.waterPercent / 100);
}
