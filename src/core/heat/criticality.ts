import { type Why, unknown } from '../words/why.ts';

export type Severity = 'negligible' | 'medium' | 'critical' | 'catastrophic';

/** Bounds between the words, K; a value on a bound takes the worse word. */
const MEDIUM = 50;
const CRITICAL = 200;
const CATASTROPHIC = 400;

/**
 * The word for an adiabatic rise: below 50 K negligible, to 200 K medium, to 400 K critical, above catastrophic. Where gas
 * is freed, pressure can build up or something boils, nothing is negligible: then medium at least.
 * Source: Stoessel, Thermal Safety of Chemical Processes (2008), severity criteria (from memory). @param rise K.
 */
export function severityOf(rise: number, gasOrPressure: boolean): Severity {
  if (!Number.isFinite(rise)) throw new RangeError(`severityOf needs a rise (got ${rise} K)`);
  if (rise >= CATASTROPHIC) return 'catastrophic';
  if (rise >= CRITICAL) return 'critical';
  return rise >= MEDIUM || gasOrPressure ? 'medium' : 'negligible';
}

export interface Criticality {
  /** Process temperature, °C. */
  readonly process: number;
  /** MTSR, °C. */
  readonly synthesis: number;
  /** Highest temperature for technical reasons (MTT), °C; null where it is not known. */
  readonly technical: number | null;
  /** Temperature at which the decomposition takes a day to run away (T_D24), °C; null where it is not known. */
  readonly decomposition: number | null;
}

type Class = { readonly ok: true; readonly value: 1 | 2 | 3 | 4 | 5 } | { readonly ok: false; readonly why: Why };

/**
 * Criticality class 1 to 5 from the order of four temperatures; of equal ones the worse order is taken.
 * Source: Stoessel, Chem. Eng. Prog. 89 (1993) No. 10, 68.
 * @returns why not, where MTT or T_D24 is not known, or the process already runs at or above T_D24.
 */
export function criticalityClass({ process, synthesis, technical, decomposition }: Criticality): Class {
  if (technical === null && decomposition === null) return unknown('no MTT and no T_D24');
  if (technical === null) return unknown('no MTT');
  if (decomposition === null) return unknown('no T_D24');
  if (process >= decomposition) return unknown('process above T_D24', { process, decomposition });
  const reachesBoth = synthesis >= decomposition;
  if (technical < decomposition) {
    if (reachesBoth) return { ok: true, value: 4 };
    return { ok: true, value: synthesis < technical ? 1 : 3 };
  }
  return { ok: true, value: reachesBoth ? 5 : 2 };
}
