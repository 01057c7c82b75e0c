import { writeCode } from '../code/code.ts';
import type { Material } from '../matter/material.ts';
import type { Form } from '../matter/form.ts';
import { solventOf } from '../matter/form.ts';
import type { BottleLabel, LabelPaper } from '../paper/paper.ts';
import type { Reference } from '../reference.ts';
import type { LabelSize } from '../reference-rows.ts';
import { formWords } from '../words/form-words.ts';
import { labelWords as words } from '../words/label-words.ts';
import { labelElements } from './label-elements.ts';

/** What a label says of a bottle; dates are ISO. */
export interface Labelled {
  /** The code on it. */
  readonly id: string;
  readonly material: Material;
  readonly form: Form;
  readonly lot: string;
  readonly place: string;
  readonly received: string | null;
  readonly opened: string | null;
  readonly useBy: string | null;
}

export interface LabelAsk {
  readonly size: LabelSize;
  /** The place of the first label on its page, 1 … columns × rows: a sheet that is partly used. */
  readonly start: number;
  /** Page of everything else that is printed here. */
  readonly paper: 'A4' | 'Letter';
  readonly asOf: string;
  /** A date as it is written. */
  readonly day: (iso: string) => string;
}

/**
 * Labels of bottles, in the order given. A date that is not known is a line to write on.
 * @throws RangeError where there is no bottle, or the page has no such place.
 */
export function labelPaper(bottles: readonly Labelled[], ask: LabelAsk, reference: Reference): LabelPaper {
  const { size, start } = ask;
  const places = size.columns * size.rows;
  if (bottles.length === 0) throw new RangeError('labels need a bottle (got none)');
  if (!Number.isInteger(start) || start < 1 || start > places)
    throw new RangeError(`the first label needs a place from 1 to ${places} (got ${start})`);
  const { name, page, ...lengths } = size;
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'labels',
    size: page === 'single' ? ask.paper : page,
    title: words.title(bottles.map((one) => one.id)),
    plan: '',
    route: '',
    asOf: ask.asOf,
    layout: { name, single: page === 'single', ...lengths },
    start,
    labels: bottles.map((one) => bottleLabel(one, ask.day, reference)),
  };
}

function bottleLabel(bottle: Labelled, day: LabelAsk['day'], reference: Reference): BottleLabel {
  const { material, form } = bottle;
  const elements = labelElements(material, form, reference);
  const date = (iso: string | null): string => (iso === null ? '' : day(iso));
  return {
    label: bottle.id,
    code: writeCode({ kind: 'bottle', label: bottle.id }),
    name: material.name,
    strength: strengthWords(form),
    more: [material.formula ?? '', material.cas === undefined ? '' : words.cas(material.cas)]
      .filter((one) => one !== '')
      .join(' · '),
    signal: elements.signal,
    pictograms: [...elements.pictograms],
    statements: [...elements.statements],
    unlisted:
      elements.unlisted.length > 0
        ? words.unlisted(elements.unlisted)
        : elements.statements.length === 0
          ? words.noneAtStrength
          : '',
    lot: bottle.lot,
    place: bottle.place,
    received: date(bottle.received),
    opened: date(bottle.opened),
    useBy: date(bottle.useBy),
  };
}

/** Always with its basis, and the solvent also where it is water. */
function strengthWords(form: Form): string {
  const text = formWords(form);
  if (form.kind !== 'solution') return text;
  const solvent = solventOf(form);
  return solvent === 'water' ? words.inWater(text) : text;
}
