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
  z.strictObject({
    kind: z.literal('neat'),
    /** % w/w of the material in what is weighed; 100 where it is not given. */
    assayPercent: z.optional(z.number().check(z.gt(0), z.lte(100))),
    density: z.optional(MeasuredDensity),
  }),
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
