import type { Form } from '../matter/form.ts';

/** A form as it is printed, always with the strength's basis: "68 % w/w", "3 mol/L in water", "98 % assay", "neat". */
export function formWords(form: Form): string {
  if (form.kind === 'unknown') return 'strength unknown';
  if (form.kind === 'neat')
    return form.assayPercent === undefined || form.assayPercent === 100 ? 'neat' : `assay ${form.assayPercent} % w/w`;
  const solvent = form.solvent && form.solvent !== 'water' ? ` in ${form.solvent}` : '';
  const { value, basis, equivalentsPerMole, titrated } = form.strength;
  const per = equivalentsPerMole === undefined ? '' : ` (${equivalentsPerMole} per mol)`;
  return `${value} ${basis}${per}${solvent}${titrated === undefined ? '' : `, titrated ${titrated}`}`;
}
