/** What is said when a route is edited: why an edit is refused, and what an edit was, for undo. */
export const routeEditWords = {
  nameNeeded: 'a route needs a name',
  makesItself: 'a step needs to make something else than it starts from',
  stepTitle: (product: string, basis: string) => `${capital(product)} from ${basis}`,
  noYield: 'not entered yet, counted as 100 %',
  yieldOfPrint: 'as published',
  lastStep: 'a route needs at least one step: this is the last',
  stepGone: 'this step is not in the route any more',
  copyOf: (title: string) => `${title} (second way)`,
  branchedFrom: (name: string, revision: number) => `Branched from “${name}”, revision ${revision}.`,
  unknownMaterial: (name: string) => `“${name}” is not a material known here: write its name, formula or CAS number`,
  whichOfFormula: (formula: string, names: readonly string[]) =>
    `${formula} is the formula of ${oneOf(names)}: write the name of the one that is meant, or the name of another with (${formula}) behind it`,
  chooseOfFormula: (formula: string, names: readonly string[]) =>
    `${formula} is the formula of ${oneOf(names)}: choose the one that is meant (↓), or write its name`,
  takenByFormula: (formula: string, name: string) =>
    `${formula} taken as ${name}, the only material known here with this formula: write the name if another is meant.`,
  arrow: 'an equation needs an arrow, such as 2 benzaldehyde → benzoin; -> and = serve too',
  oneArrow: 'one arrow is enough',
  termMissing: 'a material is expected here',
  coefficient: 'a coefficient needs to be over 0 and at most 1000',
  twice: (name: string) => `${name} stands twice on this side: add the coefficients`,
  number: (what: string) => `${what} is expected here, such as 25 or 0.2`,
  range: (least: number, most: number, unit: string) => `needs to be from ${least} to ${most}${unit === '' ? '' : ` ${unit}`}`,
  window: 'a temperature or a window is expected here, such as 20 °C, 0–5 °C, ice bath or reflux',
  windowRises: 'a window needs to rise, such as 0–5 °C',
  limit: 'a limit needs its temperature and what to do if it is passed, such as above 10 °C: stop the addition and cool',
  minutes: 'a time is expected here, such as 30 min or 2 h',
  yield: 'a yield is expected here, such as 72, or lowest / likeliest / highest such as 65 / 72 / 80',
  yieldOrder: 'the yields need to rise: lowest / likeliest / highest',
  needed: 'this cannot be left empty',
  gramsAndReason: 'grams and a reason are expected here, such as 0.3 g: film in the flask',
  takes: 'what is taken and how much of it, such as liquids 100 %, benzoin 95 %',
  acidity: 'write “acid 4.8”, “acid 2.16; 7.21; 12.3”, “base 10.7”, “2.35; 9.78 with 1 proton”, or “neither”',
  neutralise: 'write it as “to neutralise, to pH 7” or “to neutralise, to pH 7 with 10 % excess”; the pH from 2 to 12',
  takesWhat: (name: string) =>
    `“${name}” is not in the route: liquids, solids, aqueous layer, organic layer, all but the product, or a material of the route`,
  keeps: 'how long and where, such as 3 days, in the fridge; 12 h; 2 weeks, dry and dark',
  keepsLong: 'ten years at most: leave it empty where it is not known',
  carried: 'a solvent and how much of it, such as toluene 5 mL/g',
  notInRoute: (name: string) => `“${name}” is not among the materials of this route: charge it first`,
  recovers: 'what comes back and how much of it, such as toluene 90 % (of its charge) or catalyst 0.02 mol/mol',
  secondYields: 'what the equation makes besides the product and its yield, such as succinimide 60 %',
  ownYield: 'in this step',
  sameVessel: 'the same vessel',
  newVessel: 'starts in another vessel',
  calm: 'calm',
  lively: 'foams, frees gas or heats: half full at most',
  heat: 'a heat given off is expected here, in kJ/mol, such as 85',
  perBasis: (name: string) => `the basis, ${name}`,
  noTypical: 'none: not known is not none',
  typical: (name: string, per: string, least: number, most: number) =>
    `${name}: ${least} to ${most} kJ per mol of ${per}, the most is taken`,
  trial: 'a trial is expected here: moles, mass of the mixture, rise and heat capacity, such as 0.02 mol; 100 g; 12 K; 2 J/(g·K)',
  formation: 'heats of formation are expected here, one a line, of materials of the equation, such as water: -285.8 kJ/mol',
  knownAddition: 'a time and the amount of basis it was at are expected here, such as 60 min at 10 g',
  form: 'a strength is expected here, such as 68 % w/w or 2 mol/L in ethanol; or neat, assay 95 %, unknown',
  cas: 'a CAS number is expected here, such as 100-52-7',
  basisOneCharge: 'the new basis needs exactly one charge in this step',
  basisInMoles: 'the new basis needs to be charged in equivalents, so that the others can refer to it',
  basisMass: 'both materials need a formula: some ratios are per gram of basis',
  basisYield: 'the yield against the new basis would be over 100 %: enter the yield anew first',
  byState: 'by state and ratio',
  byMass: 'weighed',
  byVolume: 'measured',
  lessAllowed: 'within the tolerance',
  noLess: 'not less than the amount',
  end: 'an end point is expected here, such as until pH 8, at most 1.5 ×',
} as const;

/** "methyl acetate, ethyl formate or propanoic acid". */
function oneOf(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}

function capital(text: string): string {
  const letter = text.search(/\p{L}/u);
  return letter === 0 ? text.slice(0, 1).toUpperCase() + text.slice(1) : text;
}
