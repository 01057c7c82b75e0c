import { canonicalJson } from '../canonical-json.ts';
import type { Facts } from '../matter/facts.ts';
import { type Form, NEAT } from '../matter/form.ts';
import { sameSolvent } from '../matter/named.ts';
import { gramsPerMillilitre, massFraction } from '../matter/solution.ts';
import type { PlanInput } from '../plan/input.ts';
import type { FetchLine } from '../plan/result.ts';
import type { Reference } from '../reference.ts';
import { serviceOf } from '../shelf/serve.ts';
import type { Pack } from '../shelf/pack.ts';

/** How a pack stands to what is asked for. Only "as asked" is ever chosen by the program. */
export type PackService = 'as asked' | 'stronger' | 'other strength';

/** How a pack stands to a line; null where it is something else, or too impure. */
export function serviceFor(
  line: FetchLine,
  facts: Facts,
  pack: Pack,
  { settings, reference }: Pick<PlanInput, 'settings' | 'reference'>,
): PackService | null {
  const form = pack.form ?? NEAT;
  if (form.kind === 'unknown' || line.form.kind === 'unknown') return null;
  if (form.kind === 'neat' && (form.assayPercent ?? 100) < (line.leastAssayPercent ?? 0)) return null;
  const bottle = { id: '', material: line.material, form, left: pack.amount, unit: pack.unit };
  const service = serviceOf(bottle, line.form, facts, settings.strengthMatchPercent, reference);
  if (service === 'serves') return 'as asked';
  if (service === 'stronger') return 'stronger';
  const solutions = [form, line.form].flatMap((one) => (one.kind === 'solution' ? [one] : []));
  const [first, second = first] = solutions;
  return first && second && sameSolvent(first, second, reference) ? 'other strength' : null;
}

interface InForm {
  readonly form: Form;
  readonly unit: 'g' | 'mL';
}

/** How much of one form and unit stands for an amount of another: as much of the active material. Null where it is not known. */
export function amountIn(facts: Facts, from: InForm, to: InForm, amount: number, reference: Reference): number | null {
  const sameForm = canonicalJson(from.form) === canonicalJson(to.form);
  if (sameForm && from.unit === to.unit) return amount;
  const grams = (of: InForm): number | null => {
    if (of.unit === 'g') return 1;
    const density = gramsPerMillilitre(facts, of.form, reference);
    return density.ok ? density.figure.value : null;
  };
  const active = (of: InForm): number | null => {
    if (sameForm) return 1;
    const part = massFraction(facts, of.form, reference);
    return part.ok ? part.figure.value : null;
  };
  const [a, b, c, d] = [grams(from), active(from), grams(to), active(to)];
  return a === null || b === null || c === null || d === null || c * d === 0 ? null : (amount * a * b) / (c * d);
}
