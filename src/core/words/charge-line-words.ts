/** What is said of a charge typed as one line of a procedure. */
export const chargeLineWords = {
  empty: 'a charge is expected here, such as benzaldehyde 20.0 g (0.188 mol)',
  tooLong: (most: number) => `a line needs to be one charge, of at most ${most} letters: a paragraph is entered charge by charge`,
  amount: 'an amount is expected behind the name, such as 20.0 g (0.188 mol), 35 mL or 1.2 equiv',
  name: 'a material is expected here, such as benzaldehyde 20.0 g',
  percentBasis: 'a percentage needs its basis here: % w/w, % w/v or % v/v',
  oneCharge: 'one charge a line: what it is dissolved in is a line of its own',
  notRead: (piece: string) =>
    `“${piece}” is not read here: put all amounts of the material in one bracket, such as (1.19 mL, 10.0 mmol, 1.0 equiv)`,
  grouped: (joined: string, apart: string) =>
    `is this ${joined}? Write it without the gap; where the first figure belongs to the name, put the amount in a bracket: (${apart})`,
  drops: 'a drop is no fixed amount: give millilitres, or leave it out and say it in the note of an operation',
  window: 'a temperature window needs to rise, such as at 0–5 °C',
  whichStrength: (word: string, name: string, strengths: readonly string[]) =>
    strengths.length === 0
      ? `the table knows no ${word} ${name}: type its strength before the name, such as 68 % w/w`
      : `${word} ${name} is sold as ${strengths.join(' or ')}: type the one that is meant before the name`,
  whoseConcentration: (name: string, molesPerLitre: number) =>
    `is ${molesPerLitre} mol/L the strength of ${name} itself, or of what is dissolved in it? Type “${molesPerLitre} M ${name} in water” for the first; its volume alone, or “to ${molesPerLitre} mol/L”, for the second`,
  whichWeightPercent: (name: string, percent: number) =>
    `${percent} wt % of ${name}: what it holds, or what it is of the basis? Type “${percent} % w/w” for the first, “${percent} wt % loading” for the second`,
  severalSteps: 'this is the yield of several steps, not of this one: give what this step yields',
  amountOf: (name: string) => `how much ${name} is charged is expected too, such as 20 mL or 1.2 equiv`,
  untilAtMost: (endPoint: string) =>
    `the pH decides how much of it goes in, and the amount is an estimate: say how much at most, such as “until ${endPoint}, at most 1.5 ×”; where the program is to work the amount out, “to neutralise, to ${endPoint}” and no amount`,
  untilRange: 'at most 1 to 1000 times the amount is expected here, such as at most 1.5 ×',
  untilBasis: 'the basis cannot go by an end point: the other charges refer to its amount',
  normality: (name: string, normal: number) =>
    `${normal} N of ${name}: how many equivalents a mole has is not told by the table, or is more than one: give its strength in mol/L`,
  normalAs: (normal: number) => `“${normal} N” taken as ${normal} mol/L: one equivalent a mole`,
  takenAs: (word: string, strength: string) => `“${word}” taken as ${strength}, the usual strength`,
  noRatio: (why: string) => `no ratio follows from this amount: ${why} Type a ratio instead, such as 1.2 equiv or 5 mL/g`,
  basisFirst: 'the basis needs its printed amount first, so that a ratio follows; or type a ratio, such as 1.2 equiv',
  basisFormula: (name: string) =>
    `the basis ${name} needs a formula, so that its amount comes to moles; or type a ratio, such as 1.2 equiv or 5 mL/g`,
  basisAmount: 'the basis needs an amount that comes to moles, such as 20.0 g; its material needs a formula for that',
} as const;
