import type { Form } from '../matter/form.ts';

/** How what is in a bottle is presented, with the bottle's own water in it where its assay leaves water out. */
export function withWater(form: Form, water: number | null | undefined): Form {
  if (form.kind !== 'neat' || form.assayOn === undefined) return form;
  return water === null || water === undefined ? form : { ...form, waterPercent: water };
}

/** The same without it, as it is kept: the water is written on the bottle once. */
export function withoutWater(form: Form): Form {
  if (form.kind !== 'neat') return form;
  const { waterPercent: _onTheBottle, ...kept } = form;
  return kept;
}

/** Whether an assay leaves water out that nobody has found: then what is in the bottle is not known. */
export function lacksWater(form: Form, water: number | null | undefined): boolean {
  const wet = withWater(form, water);
  return wet.kind === 'neat' && wet.assayOn !== undefined && (wet.waterPercent === undefined || wet.waterPercent >= 100);
}
