import type { SolutionOperation } from '../bench/solution-order.ts';
import { takeOfMass } from '../bench/take.ts';
import { tooLittleOfSolution } from '../bench/too-little.ts';
import { solventOf } from '../matter/form.ts';
import type { Figure } from '../quantity/figure.ts';
import { formWords } from '../words/form-words.ts';
import type { Notice } from '../words/notice.ts';
import { sentence } from '../words/sentences.ts';
import { solutionWords } from '../words/solution-words.ts';
import { amountText, rangeText, readingText } from './amounts.ts';
import { warningsOf } from './context.ts';
import type { MakeUpContext } from './make-up-paper.ts';
import type { SolutionLine } from './paper.ts';

type PutIn = Extract<SolutionOperation, { readonly do: 'put in' }>;

/** What a line of the paper says beside its number and its cautions. */
export type Said = Omit<SolutionLine, 'number' | 'before'>;

const NOTHING: Said = {
  what: '',
  form: '',
  source: '',
  how: '',
  target: '',
  accepted: '',
  device: '',
  or: '',
  record: 'none',
};

/** A line that says these things and nothing else. */
export function saidOf(some: Partial<Said>): Said {
  return { ...NOTHING, ...some };
}

/** The operations of a solution as lines of its paper, targets rounded to what the balance shows. */
export function solutionLines(operations: readonly SolutionOperation[], context: MakeUpContext): SolutionLine[] {
  return operations.map((operation, at) => ({
    number: at + 1,
    before: warningsOf([...operation.before, ...tooLittle(operation, context)], sentence),
    ...said(operation, context),
  }));
}

/** What the balances of the laboratory cannot weigh so finely. */
function tooLittle(operation: SolutionOperation, { plan, settings }: MakeUpContext): readonly Notice[] {
  if (operation.do !== 'put in' || !operation.portion.grams.ok || !plan.grams.ok) return [];
  const from = operation.part === 'source' ? plan.ask.source : plan.ask.weaker;
  const what = from ? `${from.facts.name} ${formWords(from.form)}` : solventOf(plan.ask.form);
  const notice = tooLittleOfSolution(what, operation.portion.grams.figure, plan.grams.figure, settings);
  return notice ? [notice] : [];
}

function said(operation: SolutionOperation, context: MakeUpContext): Said {
  const { plan, mark } = context;
  const solvent = solventOf(plan.ask.form);
  const { acts } = solutionWords;
  switch (operation.do) {
    case 'put in':
      return part(operation, context);
    case 'start with': {
      const volume = plan.millilitres.ok ? plan.millilitres.figure : null;
      const some = volume && { ...volume, value: volume.value * operation.partOfVolume, digits: 2 };
      return { ...NOTHING, what: acts.startWith(amountText(some, mark), solvent), record: 'volume' };
    }
    case 'let cool':
      return { ...NOTHING, what: acts.cool(operation.celsius), record: 'temperature' };
    case 'fill up': {
      const volume = plan.millilitres.ok ? amountText(plan.millilitres.figure, mark) : '';
      return { ...NOTHING, what: acts.fillUp(solvent, volume), target: volume, record: 'volume' };
    }
    case 'label':
      return { ...NOTHING, what: acts.label };
  }
}

function part(operation: PutIn, context: MakeUpContext): Said {
  const { plan, mark } = context;
  const from = operation.part === 'source' ? plan.ask.source : plan.ask.weaker;
  const { grams, millilitres } = operation.portion;
  const volume = millilitres.ok ? amountText(millilitres.figure, mark) : '';
  const words = {
    what: from ? from.facts.name : solventOf(plan.ask.form),
    form: from ? formWords(from.form) : '',
    source: sourceText(operation.part, context),
    how: solutionWords.manners[operation.manner],
    record: 'weighing',
  } as const;
  if (!grams.ok) return { ...NOTHING, ...words, target: volume, record: 'volume' };
  return {
    ...NOTHING,
    ...words,
    ...weighed(grams.figure, context),
    or: volume === '' ? '' : solutionWords.paper.or(volume),
  };
}

/** Target, accepted range and balance of a mass. The solvent decides the strength as much as the reagent does. */
export function weighed(
  exact: Figure<'g'>,
  { settings, mark }: Pick<MakeUpContext, 'settings' | 'mark'>,
): Pick<Said, 'target' | 'accepted' | 'device'> {
  const take = takeOfMass(exact, settings);
  const range = take.low === null || take.high === null ? '' : rangeText(take.low, take.high, take, mark);
  return { target: readingText(take.target, 'g', take.decimals, mark), accepted: range, device: take.device };
}

function sourceText(what: 'source' | 'rest', { plan, sources }: MakeUpContext): string {
  if (what === 'source') return sources.source;
  return plan.ask.weaker ? sources.weaker : '';
}
