import * as z from 'zod/mini';

/** Signs that turn the direction of what follows; with them a name could look like another. */
const TURNING = /[\u202A-\u202E\u2066-\u2069]/;

function withoutControls(controls: RegExp) {
  return z.refine<string>((text) => !controls.test(text) && !TURNING.test(text), {
    error: 'control characters cannot stand in a text',
  });
}

/**
 * Text a person may type into a file: bounded, so that a hostile file cannot grow without limit, and without control
 * characters, which could hide or change what a terminal or a paper shows.
 */
export const ShortText = z.string().check(z.minLength(1), z.maxLength(300), withoutControls(/\p{Cc}/u));
export const LongText = z.string().check(z.maxLength(10_000), withoutControls(/(?![\t\n\r])\p{Cc}/u));
/** How a file refers to one of its materials, steps, operations, draws. */
export const Key = z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9_.-]{0,79}$/));
export const CasNumber = z.string().check(z.regex(/^\d{2,7}-\d{2}-\d$/));
const Density = z.strictObject({
  gramsPerMillilitre: z.number().check(z.gt(0), z.lte(25)),
  celsius: z.optional(z.number().check(z.gte(-100), z.lte(400))),
  source: z.optional(ShortText),
});

const Acidity = z
  .strictObject({
    pKa: z.array(z.number().check(z.gte(-20), z.lte(50))).check(z.maxLength(8)),
    protons: z.int().check(z.gte(0), z.lte(8)),
  })
  .check(z.refine((one) => one.protons <= one.pKa.length, { error: 'protons needs a pKa for each of them', path: ['protons'] }));

/**
 * A chemical substance as a route or a shelf names it. What is left out is looked up in the built-in table by CAS
 * number; what is given here is preferred to the table.
 */
export const Material = z.strictObject({
  name: ShortText,
  /** Needed wherever moles are needed; a mixture or "ice" may go without. */
  formula: z.optional(ShortText),
  cas: z.optional(CasNumber),
  smiles: z.optional(z.string().check(z.maxLength(2000))),
  synonyms: z.optional(z.array(ShortText).check(z.maxLength(50))),
  state: z.optional(z.enum(['solid', 'liquid', 'gas'])),
  /** Density of the pure substance as it is handled (a liquid), never of a melt. */
  density: z.optional(Density),
  /** Density of the solid, g/mL, for the room it takes in the vessel. */
  solidDensity: z.optional(z.number().check(z.gt(0), z.lte(25))),
  /** From the tap or the ice machine: needs no bottle. */
  utility: z.optional(z.boolean()),
  /** Hazard statements (H and EUH codes) where the built-in table has none or the person knows better. */
  hazards: z.optional(z.array(z.string().check(z.regex(/^(EUH|H)\d{3}[A-Za-z]{0,2}$/))).check(z.maxLength(40))),
  /**
   * Acid or base in water: pKa from the form with all its protons on, and how many of them it has as it is charged. No
   * pKa: neither acid nor base.
   */
  acidity: z.optional(Acidity),
  note: z.optional(LongText),
});
export type Material = z.infer<typeof Material>;
