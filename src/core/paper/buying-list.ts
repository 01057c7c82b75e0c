import type { FetchLine } from '../plan/result.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText } from './amounts.ts';
import { type PaperContext, stepOf } from './context.ts';
import type { BuyingLineEntry, BuyingPaper } from './paper.ts';

/** What the plan is short of, line by line in the plan's order. */
export function buyingPaper(context: PaperContext): BuyingPaper {
  const { result } = context;
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'buying list',
    size: context.size,
    title: words.buy.title(result.name),
    plan: result.name,
    route: result.route,
    asOf: result.asOf,
    lines: result.fetch.filter(isShort).map((line, at) => buyingEntry(line, at + 1, context)),
  };
}

/** Whether a line has to be bought: something is missing, whatever the reason. */
export function isShort(line: FetchLine): boolean {
  return line.short !== null && line.short.value > 0;
}

function buyingEntry(line: FetchLine, number: number, { result, mark }: PaperContext): BuyingLineEntry {
  return {
    number,
    material: line.name,
    form: line.formWords,
    cas: result.materials[line.material]?.cas ?? '',
    need: amountText(line.need, mark),
    onHand: amountText(line.onHand, mark),
    short: amountText(line.short, mark),
    why: [...new Set(line.passedOver.map((bottle) => words.buy.passedOver[bottle.why]))].join('; '),
    uses: usesText(line, result),
  };
}

function usesText(line: FetchLine, result: PaperContext['result']): string {
  const steps = [...new Set(line.uses.map((use) => use.step))].map((id) => stepOf(result, id));
  return steps
    .sort((a, b) => a.number - b.number)
    .map((step) => words.buy.step(step.number, step.title))
    .join('; ');
}
