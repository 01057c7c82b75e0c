import { solutionOrder } from '../bench/solution-order.ts';
import { solventOf } from '../matter/form.ts';
import type { SolutionPlan } from '../matter/make-solution.ts';
import type { MakeUp, MakeUpPart } from '../plan/make-up-result.ts';
import type { Figure } from '../quantity/figure.ts';
import { tooLittleOfSolution } from '../bench/too-little.ts';
import { TOO_LITTLE } from '../shelf/make-up-weighed.ts';
import { sentence } from '../words/sentences.ts';
import { solutionWords } from '../words/solution-words.ts';
import { amountText } from './amounts.ts';
import { bottleWords } from './charge-sources.ts';
import { nameOf, type PaperContext, warningsOf } from './context.ts';
import { type Said, saidOf, weighed } from './make-up-lines.ts';
import { codesText, type MakeUpContext, makeUpPaper, statementsOfAll } from './make-up-paper.ts';
import type { MakeUpPaper, SolutionLine } from './paper.ts';
import type { Warning } from './sheet.ts';

/** Each bottle of a make-up, with the make-up as if all of it were made of that bottle. */
export type SeveralParts = readonly { readonly part: MakeUpPart; readonly plan: SolutionPlan }[];

/**
 * The paper of a make-up from several bottles: what dilutes first, then bottle after bottle, each weighed apart. What is
 * said of its heat is as if all were made of the strength that gets warmest; where one of them is not known, none is.
 * @param factor the part of the plan's whole make-up that is made, 0 … 1.
 * @param parts at least one, none with a problem.
 * @throws RangeError without a part.
 */
export function severalPaper(
  makeUp: MakeUp,
  factor: number,
  parts: SeveralParts,
  about: Omit<MakeUpContext, 'plan'>,
  context: PaperContext,
): MakeUpPaper {
  const warmest = warmestOf(parts.map((one) => one.plan));
  if (!warmest) throw new RangeError('the paper of a make-up needs a bottle (got none)');
  const paper = makeUpPaper({ ...about, plan: warmest });
  const made = paper.hazards.at(-1);
  const hazards = parts.map(({ part }) => ({
    form: `${nameOf(context.result, makeUp.material)} ${part.fromWords}`,
    codes: codesText(part.hazards),
  }));
  const all = [...parts.flatMap(({ part }) => part.hazards ?? []), ...paper.statements.map((one) => one.code)];
  return {
    ...paper,
    heat: solutionWords.paper.heatSeveral(paper.heat),
    hazards: made ? [...hazards, made] : hazards,
    statements: statementsOfAll(all, about.reference),
    lines: linesOf(makeUp, factor, parts, about, context),
  };
}

/** The plan whose temperature is not known, else the one that gets warmest. */
function warmestOf(plans: readonly SolutionPlan[]): SolutionPlan | undefined {
  const reached = (plan: SolutionPlan): number =>
    plan.heat.reached.ok ? plan.heat.reached.figure.value : Number.POSITIVE_INFINITY;
  return plans.toSorted((a, b) => reached(b) - reached(a))[0];
}

type Line = { readonly before: readonly Warning[]; readonly said: Said };

/** What the lines of a make-up are worked out from. */
interface Making {
  readonly makeUp: MakeUp;
  readonly factor: number;
  readonly about: Omit<MakeUpContext, 'plan'>;
  readonly context: PaperContext;
}

function linesOf(
  makeUp: MakeUp,
  factor: number,
  parts: SeveralParts,
  about: Omit<MakeUpContext, 'plan'>,
  context: PaperContext,
): SolutionLine[] {
  const making = { makeUp, factor, about, context };
  const cool = parts.flatMap(({ plan }) => solutionOrder(plan, about.reference)).find((one) => one.do === 'let cool');
  const cautions = warningsOf(
    makeUp.before.filter((notice) => notice.code !== TOO_LITTLE),
    context.say,
  );
  const lines: Line[] = [
    solventLine(making),
    ...parts.map((one, at) => bottleLine(one, at === 0 ? cautions : [], making)),
    ...(cool ? [{ before: [], said: saidOf({ what: solutionWords.acts.cool(cool.celsius), record: 'temperature' }) }] : []),
    { before: [], said: saidOf({ what: solutionWords.acts.label }) },
  ];
  return lines.map(({ before, said }, at) => ({ number: at + 1, before: [...before], ...said }));
}

function solventLine(making: Making): Line {
  const { makeUp, factor, about } = making;
  const what = makeUp.form.kind === 'solution' ? solventOf(makeUp.form) : 'water';
  const grams = times(makeUp.waterGrams, factor);
  const how = solutionWords.manners.first;
  return { before: tooLittle(what, grams, making), said: saidOf({ what, how, record: 'weighing', ...weighed(grams, about) }) };
}

/** A bottle of it, in the manner it would go in alone. */
function bottleLine({ part, plan }: SeveralParts[number], cautions: readonly Warning[], making: Making): Line {
  const { makeUp, factor, about, context } = making;
  const what = nameOf(context.result, makeUp.material);
  const grams = times(part.takeGrams, factor);
  const put = solutionOrder(plan, about.reference).find((one) => one.do === 'put in' && one.part === 'source');
  const said = saidOf({
    what,
    form: part.fromWords,
    source: bottleWords(part.from),
    how: put?.do === 'put in' ? solutionWords.manners[put.manner] : '',
    record: 'weighing',
    ...weighed(grams, about),
    or: part.takeMillilitres ? solutionWords.paper.or(amountText(times(part.takeMillilitres, factor), about.mark)) : '',
  });
  return { before: [...cautions, ...tooLittle(`${what} ${part.fromWords}`, grams, making)], said };
}

function times<U extends 'g' | 'mL'>(figure: Figure<U>, factor: number): Figure<U> {
  return { ...figure, value: figure.value * factor };
}

/** That the balances of the laboratory do not weigh so little of it. */
function tooLittle(what: string, grams: Figure<'g'>, { makeUp, factor, about }: Making): readonly Warning[] {
  const notice = tooLittleOfSolution(what, grams, times(makeUp.grams, factor), about.settings);
  return notice ? warningsOf([notice], sentence) : [];
}
