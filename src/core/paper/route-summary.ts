import type { StepPlan } from '../plan/result.ts';
import { confidenceWords } from '../words/confidence-words.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, percentText } from './amounts.ts';
import { cascadePicture } from './cascade-picture.ts';
import { nameOf, type PaperContext } from './context.ts';
import type { RouteSummary } from './paper.ts';
import { vesselBox } from './vessel-words.ts';

/** The whole plan on one paper: what it is for, the cascade, and each step in a line. */
export function routeSummary(context: PaperContext): RouteSummary {
  const { result, mark } = context;
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'route summary',
    size: context.size,
    title: words.summary.title(result.name),
    plan: result.name,
    route: result.route,
    asOf: result.asOf,
    follows: confidenceWords.paper(result.start),
    draws: result.draws.map((draw) => ({
      amount: amountText(draw.grams ?? draw.moles, mark),
      material: nameOf(result, draw.material),
      purpose: draw.kept ? words.summary.kept(draw.purpose) : draw.purpose,
      date: draw.date ?? '',
    })),
    picture: cascadePicture(context),
    steps: result.steps.map((step) => stepLine(step, context)),
  };
}

function stepLine(step: StepPlan, { result, mark }: PaperContext): RouteSummary['steps'][number] {
  const { count, stages } = step.batches;
  const range = step.yieldRange;
  const percent = (value: number): string => percentText(value, mark);
  return {
    number: step.number,
    title: step.title,
    equation: step.equation.text,
    from: `${amountText(step.basis.grams, mark)} ${nameOf(result, step.basis.material)}`,
    yield: range
      ? words.summary.range(percent(range.lowest), percent(range.likeliest), percent(range.highest))
      : percent(step.yield.value),
    gives: `${amountText(step.product.grams, mark)} ${nameOf(result, step.product.material)}`,
    batches: step.active ? words.summary.batches(count, vesselBox(stages, mark).strong) : words.summary.idle,
  };
}
