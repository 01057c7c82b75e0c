import type { Form } from '../../matter/form.ts';
import type { Material } from '../../matter/material.ts';
import { strengthDoubt } from '../../matter/strength-doubt.ts';
import { strengthKnown } from '../../matter/strength-known.ts';
import type { Reference } from '../../reference.ts';
import { materialWords } from '../../words/material-words.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import { Bottle } from '../shelf.ts';
import { CellReader, type Layout } from './cell-reader.ts';
import type { FieldName } from './fields.ts';
import { lastDayOfMonth, readQuantityCell } from './read-cells.ts';
import { PERCENT_UNIT, readForm, saysForm } from './read-form.ts';
import { type CheckedMaterials, readMaterial } from './read-material.ts';
import { NO_ROUTES, type RouteMaterials } from './route-materials.ts';
import type { CellProblem, TableRow } from './table.ts';

/** What is written on a bottle beside what it holds and how much. */
export type WrittenOn = Pick<
  Bottle,
  'lot' | 'place' | 'supplier' | 'received' | 'opened' | 'useBy' | 'heldBack' | 'note' | 'tare' | 'waterPercent' | 'price'
>;

/** A row as far as it could be read; it is whole where it has no problems. */
export interface ReadRow {
  readonly number: number;
  readonly label: string | undefined;
  /** Undefined where the row names none. */
  readonly material: Material | undefined;
  readonly form: Form | undefined;
  /** Whether the row itself says how the bottle is presented. */
  readonly formSaid: boolean;
  readonly amount: { readonly left: number; readonly unit: 'g' | 'mL' } | undefined;
  readonly written: WrittenOn;
  readonly tests: Bottle['tests'];
  readonly problems: readonly CellProblem[];
  readonly remarks: readonly string[];
  /** The row is of a table of our own: what it holds is taken exactly. */
  readonly exact: boolean;
}

/** Fields of a bottle and where a schema's problem in them is said. */
const BOTTLE_FIELDS: readonly (readonly [start: string, FieldName])[] = [
  ['/id', 'label'],
  ['/form/assayPercent', 'assay'],
  ['/form/assayOn', 'assayOn'],
  ['/form/strength/titrated', 'titrated'],
  ['/form/strength', 'strength'],
  ['/form/solvent', 'solvent'],
  ['/form/density/celsius', 'celsius'],
  ['/form/density/source', 'densitySource'],
  ['/form/density', 'density'],
  ['/left', 'left'],
  ['/lot', 'lot'],
  ['/place', 'place'],
  ['/supplier', 'supplier'],
  ['/received', 'received'],
  ['/opened', 'opened'],
  ['/useBy', 'useBy'],
  ['/note', 'note'],
  ['/tare', 'tare'],
  ['/waterPercent', 'waterPercent'],
  ['/price', 'price'],
  ['/tests', 'tests'],
];

/** Reads one row of a shelf table; every problem is said at its column. What the routes know fills what the row leaves out. Never throws, for any cells. */
export function readRow(
  row: TableRow,
  layout: Layout,
  reference: Reference,
  checked: CheckedMaterials,
  routes: RouteMaterials = NO_ROUTES,
): ReadRow {
  const reader = new CellReader(layout, row);
  const held = readMaterial(reader, reference, checked, routes);
  const amount = readAmount(reader);
  const form = readForm(reader, held, amount?.unit);
  const label = reader.text('label');
  const written = readWritten(reader);
  const tests = readTests(reader);
  const bottle = {
    id: label ?? 'new',
    material: 'm',
    form: form ?? { kind: 'neat' },
    left: amount?.left ?? 0,
    unit: amount?.unit ?? 'g',
    ...written,
    ...(tests === undefined ? {} : { tests }),
  };
  const parsed = Bottle.safeParse(bottle);
  if (!parsed.success) reader.issues(parsed.error.issues, bottle, BOTTLE_FIELDS);
  // Last: what is said of the cells themselves comes first.
  if (held && !reader.exact && held.material.formula === undefined) reader.remarks.push(words.remarks.noFormula);
  const doubt = held && form && reader.problems.length === 0 ? strengthDoubt(held.material, form, reference) : null;
  if (doubt) reader.wrong('hydrate' in doubt ? 'assayOn' : 'strength', materialWords.strengthDoubt(doubt));
  const known = held && form && !doubt && !reader.exact ? strengthKnown(held.material, form, reference) : null;
  if (known) reader.remarks.push(words.remarks.strongerThanKnown(known));
  return {
    number: row.number,
    label,
    material: held?.material,
    form,
    formSaid: saysForm(reader),
    amount,
    written,
    tests: parsed.success ? parsed.data.tests : undefined,
    problems: row.torn ? row.problems : reader.problems,
    remarks: row.torn ? [] : reader.remarks,
    exact: layout.exact,
  };
}

/** Smallest amount the store keeps is a millionth of a gram or millilitre; so are the amounts compared. */
const GRAINS = 1e6;
const LARGEST = 1_000_000;
const GRAM_UNIT = /\s*g\s*$/;
/** A price is in the person's own currency; its sign says nothing here. */
const CURRENCY = /\s*(€|\$|£|¥|EUR|USD|GBP|CHF)\s*$/;

function readAmount(reader: CellReader): ReadRow['amount'] {
  if (!reader.has('left')) return undefined;
  const use = reader.use('left');
  const unit = reader.text('unit')?.trim() ?? use.unit ?? '';
  const read = readQuantityCell(reader.cell('left'), use, reader.commas('left'), unit);
  if (!read.ok) {
    reader.wrong('left', read.words);
    return undefined;
  }
  const { quantity } = read.value;
  if (!quantity.ok) {
    reader.wrong('left', quantity.words);
    return undefined;
  }
  if (quantity.portions !== 1) {
    reader.wrong('left', words.problems.oneBottle(quantity.portions));
    return undefined;
  }
  const { base } = quantity.entry;
  if (base !== 'g' && base !== 'mL') {
    reader.wrong(reader.has('unit') ? 'unit' : 'left', words.problems.needsAmount(read.value.text));
    return undefined;
  }
  const left = Math.round(quantity.base * GRAINS) / GRAINS;
  if (!reader.exact && left > LARGEST) reader.wrong('left', words.problems.tooMuch);
  else if (left === 0 && quantity.base > 0) reader.wrong('left', words.problems.tooSmall(base));
  return { left, unit: base };
}

function readWritten(reader: CellReader): WrittenOn {
  const written = {
    lot: reader.text('lot'),
    place: reader.text('place'),
    supplier: reader.text('supplier'),
    received: reader.date('received'),
    opened: reader.date('opened'),
    useBy: useByOf(reader),
    heldBack: reader.truth('heldBack'),
    note: reader.text('note'),
    tare: reader.number('tare', GRAM_UNIT),
    waterPercent: reader.number('waterPercent', PERCENT_UNIT),
    price: reader.number('price', CURRENCY),
  };
  return Object.fromEntries(Object.entries(written).filter(([, value]) => value !== undefined));
}

function useByOf(reader: CellReader): string | undefined {
  const month = reader.has('useBy') ? lastDayOfMonth(reader.cell('useBy')) : null;
  if (month === null) return reader.date('useBy');
  reader.remarks.push(words.remarks.monthOnly(month));
  return month;
}

function readTests(reader: CellReader): unknown {
  const text = reader.text('tests');
  if (text === undefined) return undefined;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    reader.wrong('tests', words.problems.notJson);
    return undefined;
  }
}
