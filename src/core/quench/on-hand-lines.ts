import { benchLine, type BenchInput, type BenchLine } from '../bench/bench-section.ts';
import { acidPartsOf } from '../matter/acidity.ts';
import type { Form } from '../matter/form.ts';
import { type Amount, amountOf } from '../plan/amounts.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { formWords } from '../words/form-words.ts';
import { known } from '../words/why.ts';
import type { Neutralisation } from './neutralisation.ts';
import { BICARBONATE_PH, isCarbonate } from './neutralise.ts';

/** So many strengths on the shelf are said. */
const MOST = 3;

/**
 * The amount at each strength that stands on the shelf and is not the one the charge names: another strength brings other
 * water, so the rest of the figures does not hold for it.
 */
export function onHandLines(
  one: Neutralisation,
  of: BenchInput,
  where: Pick<BenchLine, 'values' | 'operation'>,
): readonly BenchLine[] {
  const { needed, facts, charge } = one;
  if (!needed.ok || needed.figure.value === 0) return [];
  const moles = withExcess(one, needed.figure);
  return otherForms(charge.material, charge.form, of).flatMap((form): readonly BenchLine[] => {
    const amount = amountOf(facts, form, { by: 'mol', figure: moles }, of.reference);
    const line = (code: string, figure: Amount['grams' | 'millilitres']): BenchLine =>
      benchLine(code, figure, { ...where, values: { ...where.values, form: formWords(form) } });
    if (!amount.grams.ok) return [];
    return [line('on hand', amount.grams), ...(form.kind === 'solution' ? [line('on hand volume', amount.millilitres)] : [])];
  });
}

/** Forms of the material's bottles, of a known strength, that are not the form asked for. */
function otherForms(material: string, asked: Form, { bottles }: BenchInput): readonly Form[] {
  const forms = new Map((bottles.get(material) ?? []).map((bottle) => [formWords(bottle.form), bottle.form]));
  forms.delete(formWords(asked));
  return [...forms.values()].filter((form) => form.kind !== 'unknown').slice(0, MOST);
}

function withExcess({ excessPercent }: Neutralisation, moles: Figure<'mol'>): Figure<'mol'> {
  if (excessPercent === 0) return moles;
  return computed(moles.label, moles.value * (1 + excessPercent / 100), 'mol', 'with the excess', [moles]);
}

/**
 * Above pH 8.3 the amount of a carbonate hangs on how much carbon dioxide has left on the way: least where all of it has,
 * the amount that is counted where none has.
 */
export function carbonateLeast(
  one: Neutralisation,
  { reference }: BenchInput,
  at: Pick<BenchLine, 'values' | 'operation'>,
): readonly BenchLine[] {
  const { facts, there, endPH } = one;
  if (endPH <= BICARBONATE_PH || !there.ok || there.figure.value <= 0 || !isCarbonate(facts, reference)) return [];
  const parts = acidPartsOf(facts, reference);
  if ('code' in parts) return [];
  const each = parts.reduce((sum, part) => sum + part.perMole * (part.acidity.pKa.length - part.acidity.protons), 0);
  if (!(each > 0)) return [];
  const moles = computed(`${facts.name}, least`, there.figure.value / each, 'mol', 'acid equivalents ÷ all it can take up', [
    there.figure,
  ]);
  const amount = amountOf(facts, one.charge.form, { by: 'mol', figure: withExcess(one, moles) }, reference);
  return amount.grams.ok ? [benchLine('carbonate least', known(amount.grams.figure), at)] : [];
}
