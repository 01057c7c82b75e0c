import * as z from 'zod/mini';
import { ShortText } from '../matter/material.ts';
import { MEASURE_KINDS } from '../reference-rows.ts';

const Positive = z.number().check(z.gt(0), z.lte(1e9));

/** A balance: readability, largest load, and repeatability (standard deviation of repeated weighings) if known, in grams. */
const Balance = z.strictObject({
  name: ShortText,
  readability: Positive,
  largest: Positive,
  repeatability: z.optional(Positive),
});
export type Balance = z.infer<typeof Balance>;
/** A measure: nominal volume and what can be read on it, mL; the standard with its class gives its tolerance. */
const Measure = z.strictObject({
  name: ShortText,
  nominal: Positive,
  readability: Positive,
  /** E.g. "ISO 4788, class A". */
  standard: z.optional(ShortText),
  /** What it is; from the standard where it is not given. */
  kind: z.optional(z.enum(MEASURE_KINDS)),
});
export type Measure = z.infer<typeof Measure>;
/** What cools a vessel: heat transfer W/(m²·K), wetted and cooled surface m², coolant °C. */
const VesselCooling = z.strictObject({
  wattsPerSquareMetreKelvin: Positive,
  squareMetres: Positive,
  coolantCelsius: z.number().check(z.gte(-200), z.lte(400)),
});
/** A vessel: nominal volume, mL; how it is cooled, where that is known. */
const Vessel = z.strictObject({ name: ShortText, nominal: Positive, cooling: z.optional(VesselCooling) });

/** What the laboratory has and the limits it keeps. */
export const Settings = z.strictObject({
  balances: z.array(Balance).check(z.minLength(1), z.maxLength(50)),
  measures: z.array(Measure).check(z.minLength(1), z.maxLength(100)),
  vessels: z.array(Vessel).check(z.minLength(1), z.maxLength(200)),
  /** Largest fill as a fraction of nominal; the second where a stage foams, gases or is strongly exothermic. */
  fill: z.strictObject({ most: Positive, lively: Positive, least: Positive }),
  /** Heat the usual cooling bath takes away from a batch, W; not checked where it is not known. */
  coolingWatts: z.optional(Positive),
  /** Accepted range where a charge names none, ± %. */
  tolerance: z.strictObject({ reagentPercent: Positive, solventPercent: Positive }),
  /** How far a bottle's strength may be from the one asked for and still be taken as it, relative %. */
  strengthMatchPercent: z.number().check(z.gte(0), z.lte(50)),
  paper: z.enum(['A4', 'Letter']),
});
export type Settings = z.infer<typeof Settings>;
