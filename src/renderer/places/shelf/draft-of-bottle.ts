import type { BottleRow } from '../../../core/port/shelf.ts';
import { type Basis, type Draft, EMPTY_DRAFT } from './new-bottle-draft.ts';
import { shown } from './shown-amount.ts';

/** A bottle of the shelf as its entry form would have it. */
export function basisOf(bottle: BottleRow, how: Basis['how']): Basis {
  const { id, material, form } = bottle;
  const described = { ...EMPTY_DRAFT, ...materialDraft(bottle), ...formDraft(bottle), ...labelDraft(bottle) };
  const draft = how === 'correct' ? { ...described, ...ownDraft(bottle) } : described;
  return { how, id, material, form, draft };
}

function materialDraft({ material }: BottleRow): Partial<Draft> {
  const { name, formula = '', cas = '', smiles = '', state = '', density } = material;
  return { lookup: name, name, formula, cas, smiles, state, density: density ? String(density.gramsPerMillilitre) : '' };
}

function formDraft({ form }: BottleRow): Partial<Draft> {
  if (form.kind === 'unknown') return { kind: 'unknown', solvent: form.solvent ?? '' };
  const density = form.density
    ? { bottleDensity: String(form.density.gramsPerMillilitre), celsius: String(form.density.celsius) }
    : {};
  if (form.kind === 'neat')
    return {
      kind: 'neat',
      assay: form.assayPercent === undefined ? '' : String(form.assayPercent),
      assayOn: form.assayOn ?? '',
      ...(form.waterPercent === undefined ? {} : { water: String(form.waterPercent) }),
      ...density,
    };
  const { value, basis, titrated = '' } = form.strength;
  return { kind: 'solution', strength: `${value} ${basis}`, solvent: form.solvent ?? '', titrated, ...density };
}

/** What another bottle of the same delivery says as well. */
function labelDraft({ lot, place, supplier, useBy, price }: BottleRow): Partial<Draft> {
  return { lot, place, supplier, useBy: useBy ?? '', price: price === null ? '' : String(price) };
}

/** What belongs to this one bottle alone. */
function ownDraft({ left, unit, opened, note, tare, water }: BottleRow): Partial<Draft> {
  const text = (value: number | null): string => (value === null ? '' : String(value));
  return { amount: shown(left, unit), opened: opened ?? '', note, tare: text(tare), water: text(water) };
}
