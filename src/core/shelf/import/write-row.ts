import type { Form, Strength } from '../../matter/form.ts';
import { acidityText } from '../../route/acidity-text.ts';
import type { HeldBottle } from './fate.ts';
import { FIELD_NAMES, type FieldName } from './fields.ts';
import { decimalText, listText } from './read-cells.ts';
import type { Cell } from './table.ts';

/**
 * One bottle as a row of our own table, everything of it, in the order of the headings; `readRow` reads the very same
 * bottle back. Numbers at full precision, what is not there as an empty cell.
 */
export function bottleCells(bottle: HeldBottle): readonly Cell[] {
  const cells = cellsOf(bottle);
  return FIELD_NAMES.map((name) => cells[name] ?? '');
}

function cellsOf(bottle: HeldBottle): Partial<Record<FieldName, Cell | undefined>> {
  const { holds, form, heldBack, tests } = bottle;
  const { lot, place, supplier, received, opened, useBy, note } = bottle;
  return {
    label: bottle.id,
    name: holds.name,
    formula: holds.formula,
    cas: holds.cas,
    ...formCells(form),
    left: bottle.left,
    unit: bottle.unit,
    lot,
    place,
    supplier,
    received,
    opened,
    useBy,
    note,
    heldBack: truthText(heldBack),
    tare: bottle.tare,
    waterPercent: bottle.waterPercent,
    price: bottle.price,
    tests: tests === undefined || tests.length === 0 ? undefined : JSON.stringify(tests),
    ...materialCells(holds),
  };
}

function materialCells(holds: HeldBottle['holds']): Partial<Record<FieldName, Cell | undefined>> {
  const { density } = holds;
  return {
    smiles: holds.smiles,
    synonyms: holds.synonyms && listText(holds.synonyms),
    state: holds.state,
    pureDensity: density?.gramsPerMillilitre,
    pureCelsius: density?.celsius,
    pureSource: density?.source,
    solidDensity: holds.solidDensity,
    utility: truthText(holds.utility),
    hazards: holds.hazards && listText(holds.hazards),
    acidity: holds.acidity && acidityText(holds.acidity),
    materialNote: holds.note,
  };
}

function formCells(form: Form): Partial<Record<FieldName, Cell | undefined>> {
  const density = form.kind === 'unknown' ? undefined : form.density;
  return {
    kind: form.kind,
    assay: form.kind === 'neat' ? form.assayPercent : undefined,
    assayOn: form.kind === 'neat' ? form.assayOn : undefined,
    strength: form.kind === 'solution' ? strengthText(form.strength) : undefined,
    titrated: form.kind === 'solution' ? form.strength.titrated : undefined,
    solvent: form.kind === 'neat' ? undefined : form.solvent,
    density: density?.gramsPerMillilitre,
    celsius: density?.celsius,
    densitySource: density?.source,
  };
}

function strengthText({ value, basis, equivalentsPerMole }: Strength): string {
  const per = equivalentsPerMole === undefined ? '' : ` (${decimalText(equivalentsPerMole)} per mol)`;
  return `${decimalText(value)} ${basis}${per}`;
}

function truthText(value: boolean | undefined): string | undefined {
  return value === undefined ? undefined : value ? 'yes' : 'no';
}
