import { medianOf } from '../../../core/confidence/from-runs.ts';
import { likeliest } from '../../../core/plan/solve/requirements.ts';
import { learnedFrom, learnedRuns } from '../../../core/plan/solve/starts.ts';
import { learnedWords } from '../../../core/words/learned-words.ts';
import type { Draw, LearnedRun } from '../../../core/plan/ask.ts';
import type { StepYield } from '../../../core/route/route.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import type { Quantity } from '../../parts/quantity-field.tsx';
import { commitEdit, draft, editPlan, takeBackEdit, undoDepth } from '../../state/plan-store.ts';
import { openPlan, route } from '../../state/plan-route.ts';
import { type FieldOfPlan, forgetRefused, keepRefused, refusedText } from '../../state/refused-texts.ts';

/** Every change a person can make to the ask, each with the words its saved state is remembered by. */
const UNITS: Readonly<Record<string, { readonly unit: Draw['unit']; readonly factor: number }>> = {
  µg: { unit: 'g', factor: 1e-6 },
  mg: { unit: 'g', factor: 1e-3 },
  g: { unit: 'g', factor: 1 },
  kg: { unit: 'g', factor: 1e3 },
  t: { unit: 'g', factor: 1e6 },
  µmol: { unit: 'mol', factor: 1e-6 },
  mmol: { unit: 'mol', factor: 1e-3 },
  mol: { unit: 'mol', factor: 1 },
  kmol: { unit: 'mol', factor: 1e3 },
};
/** The units a draw's amount may be typed in. */
export const DRAW_UNITS = ['µg', 'mg', 'g', 'kg', 't', 'µmol', 'mmol', 'mol', 'kmol'] as const;

/** A draw's amount in the unit it was typed in. */
export function shownAmount(draw: Draw): Quantity {
  const unit = draw.shownIn ?? draw.unit;
  const factor = UNITS[unit]?.factor ?? 1;
  return { value: Number((draw.amount / factor).toPrecision(12)), unit };
}

export function setAmount(id: string, quantity: Quantity): void {
  const shownIn = DRAW_UNITS.find((unit) => unit === quantity.unit);
  const scale = UNITS[quantity.unit];
  const draw = draft.value?.draws.find((one) => one.id === id);
  if (!scale || !draw || !shownIn) return;
  // Twelve digits are more than can be typed sensibly; they keep 180 mmol from becoming 0.18000000000000002 mol.
  const amount = Number((quantity.value * scale.factor).toPrecision(12));
  changeDraw(id, planWords.edits.amount(materialName(draw.material)), { amount, unit: scale.unit, shownIn });
}

export function changeDraw(id: string, words: string, change: Partial<Draw>): void {
  editPlan(words, (ask) => ({ ...ask, draws: ask.draws.map((draw) => (draw.id === id ? { ...draw, ...change } : draw)) }));
}

/** Leaves a field of a draw out again, e.g. a date that was deleted. */
export function clearOfDraw(id: string, words: string, field: 'purpose' | 'date'): void {
  editPlan(words, (ask) => ({
    ...ask,
    draws: ask.draws.map((draw) => {
      if (draw.id !== id) return draw;
      const { [field]: _, ...rest } = draw;
      return rest;
    }),
  }));
}

export function removeDraw(id: string): void {
  editPlan(planWords.edits.remove, (ask) => ({ ...ask, draws: ask.draws.filter((draw) => draw.id !== id) }));
  commitEdit();
}

/** Adds a draw of the route's last product; gives back its id so that its amount can be typed at once. */
export function addDraw(): string | null {
  const ask = draft.value;
  const product = productsOf().at(-1);
  if (!ask || product === undefined) return null;
  const taken = new Set(ask.draws.map((draw) => draw.id));
  let number = ask.draws.length + 1;
  while (taken.has(`draw-${number}`)) number += 1;
  const draw: Draw = { id: `draw-${number}`, material: product, amount: 1, unit: 'g', shownIn: 'g' };
  editPlan(planWords.edits.add, (now) => ({ ...now, draws: [...now.draws, draw] }));
  commitEdit();
  return draw.id;
}

export function setYield(step: string, title: string, value: StepYield): void {
  // What is typed by hand is meant: it takes the place of what was learned.
  editPlan(planWords.edits.yield(title), (ask) => {
    const { [step]: _, ...learned } = ask.learned ?? {};
    const next = { ...ask, yields: { ...ask.yields, [step]: value } };
    return ask.learned ? { ...next, learned } : next;
  });
}

/** Freezes the runs a step's yield is learned from with the plan; null: it is planned with the entered yield again. */
export function setLearned(step: string, title: string, runs: readonly LearnedRun[] | null): void {
  editPlan(learnedWords.edit(title), (ask) => {
    const { [step]: _, ...others } = ask.learned ?? {};
    return { ...ask, learned: runs === null ? others : { ...others, [step]: [...runs] } };
  });
  commitEdit();
}

/** Leaves a step out of the plan, or takes it in again. */
export function setLeftOut(step: string, title: string, out: boolean): void {
  editPlan(planWords.edits.leaveOut(title, out), (ask) => {
    const others = (ask.leaveOut ?? []).filter((one) => one !== step);
    return { ...ask, leaveOut: out ? [...others, step] : others };
  });
  commitEdit();
}

/** The yield a step is planned with: learned from its runs, to a tenth of a per cent; else as entered. */
export function yieldOf(step: string): StepYield {
  const own = route.value?.steps.find((one) => one.id === step);
  const runs = own && draft.value ? learnedRuns(own, draft.value) : [];
  if (runs.length === 0) return enteredYield(step);
  return Number((100 * medianOf(learnedFrom(likeliest(enteredYield(step)), runs))).toFixed(1));
}

/** The yield entered for a step: the plan's own, else the route's. */
export function enteredYield(step: string): StepYield {
  return draft.value?.yields?.[step] ?? route.value?.steps.find((one) => one.id === step)?.yieldPercent ?? 100;
}

/** What the route's steps make, in the route's order, each once. */
export function productsOf(): readonly string[] {
  return [...new Set((route.value?.steps ?? []).map((step) => step.product))];
}

export function materialName(key: string): string {
  return route.value?.materials[key]?.name ?? key;
}

/** What a typed field of the plan does with a text that is refused, and when the edit ends. */
export function planField(field: FieldOfPlan) {
  const plan = openPlan.value?.id ?? 0;
  return {
    refused: refusedText(plan, field),
    onRefuse: (text: string | null): void => {
      if (text === null) return forgetRefused(plan, field);
      takeBackEdit();
      keepRefused({ plan, field, text, after: undoDepth.peek() });
    },
    onCommit: commitEdit,
    onTakeBack: takeBackEdit,
    planUndo: true,
  } as const;
}

/** Chooses the number of a step's batches by hand; null: it is worked out again. */
export function setBatches(step: string, title: string, count: number | null): void {
  editPlan(planWords.edits.batches(title), (ask) => {
    const { [step]: _, ...others } = ask.batches ?? {};
    return { ...ask, batches: count === null ? others : { ...others, [step]: count } };
  });
  commitEdit();
}
