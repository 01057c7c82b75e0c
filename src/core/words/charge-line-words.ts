/** What is said of a charge typed as one line of a procedure. */
export const chargeLineWords = {
  empty: 'a charge is expected here, such as benzaldehyde 20.0 g (0.188 mol)',
  amount: 'an amount is expected behind the name, such as 20.0 g (0.188 mol), 35 mL or 1.2 equiv',
  name: 'a material is expected here, such as benzaldehyde 20.0 g',
  percentBasis: 'a percentage needs its basis here: % w/w, % w/v or % v/v',
  oneCharge: 'one charge a line: what it is dissolved in is a line of its own',
  window: 'a temperature window needs to rise, such as at 0–5 °C',
  whichStrength: (word: string, name: string, strengths: readonly string[]) =>
    strengths.length === 0
      ? `the table knows no ${word} ${name}: type its strength before the name, such as 68 % w/w`
      : `${word} ${name} is sold as ${strengths.join(' or ')}: type the one that is meant before the name`,
  takenAs: (word: string, strength: string) => `“${word}” taken as ${strength}, the usual strength`,
  noRatio: (why: string) => `no ratio follows from this amount: ${why} Type a ratio instead, such as 1.2 equiv or 5 mL/g`,
  basisFirst: 'the basis needs its printed amount first, so that a ratio follows; or type a ratio, such as 1.2 equiv',
  basisFormula: (name: string) =>
    `the basis ${name} needs a formula, so that its amount comes to moles; or type a ratio, such as 1.2 equiv or 5 mL/g`,
  basisAmount: 'the basis needs an amount that comes to moles, such as 20.0 g; its material needs a formula for that',
} as const;
