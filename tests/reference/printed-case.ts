// A preparation of the reference cases as a step with its amounts as printed, for the product's own reading of it.
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { type PublishedStep, publishedStep } from '../../src/core/procedure/published.ts';
import type { Operation, Step } from '../../src/core/route/route.ts';
import type { ReferenceCase } from './cases.ts';
import { reference } from './tables.ts';
import { routeEditWords } from '../../src/core/words/route-edit-words.ts';

interface Quantity {
  readonly value: number;
  readonly unit: string;
}
export interface Reagent {
  readonly name?: string;
  readonly formula?: string;
  readonly mass?: Quantity;
  readonly volume?: Quantity;
  readonly density?: Quantity;
  readonly assay?: Quantity;
  /** In the equation; 0 for what only helps. 1 where the case does not say. */
  readonly coeff?: number;
  /** Moles as the source prints them, with their unit. */
  readonly moles?: string;
}
export interface Preparation {
  readonly reagents: readonly Reagent[];
  readonly basis: string;
  readonly product: { readonly formula: string; readonly coeff?: number; readonly obtained?: string; readonly yield?: string };
}

export const nameOf = (reagent: Reagent): string => reagent.name ?? reagent.formula ?? '';

/** The preparation read as the Routes place reads it. */
export function read(
  one: Preparation,
): PublishedStep & { readonly moles: (name: string) => number; readonly codes: readonly string[] } {
  const key = (name: string): string => `m${one.reagents.findIndex((reagent) => nameOf(reagent) === name)}`;
  const materials: Record<string, Material> = { product: { name: 'the product', formula: one.product.formula } };
  for (const reagent of one.reagents) {
    const { formula } = reagent;
    materials[key(nameOf(reagent))] = { name: nameOf(reagent), ...(formula ? { formula } : {}) };
  }
  const step: Step = {
    id: 'step',
    title: 'as printed',
    equation: {
      uses: one.reagents
        .filter((reagent) => reagent.formula !== undefined && reagent.coeff !== 0)
        .map((reagent) => ({ material: key(nameOf(reagent)), coefficient: reagent.coeff ?? 1 })),
      makes: [{ material: 'product', coefficient: one.product.coeff ?? 1 }],
    },
    basis: key(one.basis),
    product: 'product',
    yieldPercent: 100,
    yieldSource: routeEditWords.noYield,
    operations: one.reagents.map(
      (reagent, index): Operation => ({
        do: 'charge',
        id: `c${index}`,
        stage: 'reaction',
        material: key(nameOf(reagent)),
        form: formOf(reagent),
        rule:
          nameOf(reagent) === one.basis
            ? { kind: 'basis' }
            : ({ kind: reagent.mass ? 'mass ratio' : 'volumes', gramsPerGram: 1, millilitresPerGram: 1 } as never),
        printed: printOf(reagent),
      }),
    ),
    printed: {
      ...(one.product.obtained ? { product: one.product.obtained } : {}),
      ...(one.product.yield ? { yield: one.product.yield } : {}),
    },
  };
  const facts = new Map(Object.entries(materials).map(([id, material]) => [id, factsOf(material, reference)]));
  const published = publishedStep(step, { facts, reference });
  return {
    ...published,
    moles: (name) => published.charges.get(`c${key(name).slice(1)}`)?.moles?.value ?? Number.NaN,
    codes: published.notices.map((notice) => notice.code).filter((code) => code !== 'ratio not printed'),
  };
}

function formOf(reagent: Reagent): Form {
  const density = reagent.density ? { density: { gramsPerMillilitre: reagent.density.value, celsius: 20 } } : {};
  if (!reagent.assay) return { kind: 'neat', ...density };
  return { kind: 'solution', strength: { value: reagent.assay.value, basis: '% w/w' }, ...density };
}

const printOf = (reagent: Reagent): string =>
  [reagent.mass, reagent.volume]
    .flatMap((one) => (one ? [`${one.value} ${one.unit}`] : []))
    .concat(reagent.moles ?? [])
    .join(', ');

/** What the source prints for an output, e.g. "1.34"; undefined where it prints nothing. */
export function printedIn(one: ReferenceCase, output: string): string | undefined {
  return one.outputs.find((found) => found.name === output)?.printed ?? undefined;
}
