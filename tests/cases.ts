/** Set by `npm run check`. */
const VARIABLE = 'BACKWEIGH_CASES';

/** Environment in which slow properties try the first tenth of their cases. */
export const FEW_CASES: Readonly<Record<string, string>> = { [VARIABLE]: 'few' };

/**
 * How many random cases a slow property tries: all of them in `npm test` and where its file is run by itself, the first
 * tenth of the same cases in `npm run check`, which must not take longer than somebody waits.
 */
export const cases = (all: number): number => (process.env[VARIABLE] === 'few' ? Math.ceil(all / 10) : all);
