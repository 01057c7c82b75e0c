import { type Form, neatFraction } from '../matter/form.ts';

/** What is asked for: the form, with the least assay where there is one: "at least 99 % w/w". */
export function askedWords(form: Form, leastAssayPercent: number): string {
  if (leastAssayPercent <= 0) return formWords(form);
  const least = `at least ${leastAssayPercent} % w/w`;
  return form.kind === 'neat' ? least : `${formWords(form)}, ${least}`;
}

/** Of what is taken from bottles of several assays: "assay 97 % w/w and neat". */
export function severalForms(words: readonly string[]): string {
  return words.join(' and ');
}

/** A form as it is printed, always with the strength's basis: "68 % w/w", "3 mol/L in water", "98 % assay", "neat". */
export function formWords(form: Form): string {
  if (form.kind === 'unknown') return 'strength unknown';
  if (form.kind === 'neat') return neatWords(form);
  const solvent = form.solvent && form.solvent !== 'water' ? ` in ${form.solvent}` : '';
  const { value, basis, equivalentsPerMole, titrated } = form.strength;
  const per = equivalentsPerMole === undefined ? '' : ` (${equivalentsPerMole} per mol)`;
  return `${value} ${basis}${per}${solvent}${titrated === undefined ? '' : `, titrated ${titrated}`}`;
}

/** The strength of what is asked for as saturated: "8.73 % w/w, saturated at 20 °C". */
export function saturatedWords(words: string, celsius: number): string {
  return `${words}, saturated at ${celsius} °C`;
}

/** A solution that is to be made: its strength, and whether that is all that dissolves. */
export function wantedWords(of: {
  readonly form: Form;
  readonly saturated?: { readonly celsius: number } | null | undefined;
}): string {
  const words = formWords(of.form);
  return of.saturated ? saturatedWords(words, of.saturated.celsius) : words;
}

function neatWords(form: Form & { readonly kind: 'neat' }): string {
  const { assayPercent = 100, assayOn, waterPercent } = form;
  if (assayOn === undefined) return assayPercent === 100 ? 'neat' : `assay ${assayPercent} % w/w`;
  const fraction = neatFraction(form);
  if (fraction === null || waterPercent === undefined) return `assay ${assayPercent} % w/w anhydrous, water not known`;
  // What counts comes first: where there is little room the rest is cut off.
  return `assay ${Number((fraction * 100).toPrecision(4))} % w/w as it is (${assayPercent} % anhydrous, ${waterPercent} % water)`;
}
