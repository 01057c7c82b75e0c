import { hazardsOf } from '../bench/hazards.ts';
import { solutionOrder } from '../bench/solution-order.ts';
import { signalFor } from '../label/label-elements.ts';
import { solventOf } from '../matter/form.ts';
import type { SolutionPlan } from '../matter/make-solution.ts';
import type { Presented } from '../matter/solution-parts.ts';
import type { Settings } from '../plan/settings.ts';
import { type Figure, type Mark, marksOf } from '../quantity/figure.ts';
import type { DecimalMark } from '../quantity/format.ts';
import type { Reference } from '../reference.ts';
import { formWords, wantedWords } from '../words/form-words.ts';
import { sentence } from '../words/sentences.ts';
import { solutionWords } from '../words/solution-words.ts';
import { amountText } from './amounts.ts';
import { solutionLines } from './make-up-lines.ts';
import type { MakeUpPaper } from './paper.ts';

const words = solutionWords.paper;

/** What the paper of a solution is built from. */
export interface MakeUpContext {
  readonly plan: SolutionPlan;
  readonly reference: Reference;
  readonly settings: Settings;
  readonly mark: DecimalMark;
  /** Date of the shelf and tables, ISO. */
  readonly asOf: string;
  /** Bottles in words: lot and place; empty where it is not on the shelf. */
  readonly sources: { readonly source: string; readonly weaker: string };
  /** What it is for: a step of a plan; both empty for the shelf. */
  readonly purpose: string;
  readonly planName: string;
}

/**
 * The paper of one solution: its parts in the order they go in, what to know before each, places to write the
 * weighings, and the label for its bottle.
 * @throws RangeError for a solution that cannot be made: there is nothing to print.
 */
export function makeUpPaper(context: MakeUpContext): MakeUpPaper {
  const { plan, reference, settings, mark } = context;
  if (plan.problem) throw new RangeError(`a make-up paper needs a solution that can be made (got ${plan.problem.code})`);
  const { solute, form } = plan.ask;
  const result: Presented = { facts: solute, form };
  const others = plan.ask.weaker ? [plan.ask.source, plan.ask.weaker] : [plan.ask.source];
  const hazards = [...others, result].map((one) => hazardsOf(one.facts, one.form, reference));
  const codes = new Set(hazards.flatMap((one) => one?.statements ?? []));
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'make-up',
    size: settings.paper,
    title: words.title(`${solute.name} ${wantedWords(plan.ask)}`),
    plan: context.planName,
    route: '',
    asOf: context.asOf,
    purpose: context.purpose,
    gives: givesLines(plan, mark),
    heat: heatText(plan, mark),
    hazards: [...others, result].map((one, at) => ({
      form: `${one.facts.name} ${formWords(one.form)}`,
      codes: codesText(hazards[at]?.statements ?? null),
    })),
    statements: statementsOfAll([...codes], reference),
    lines: solutionLines(solutionOrder(plan, reference), context),
    label: labelOf(context, hazards.at(-1) ?? null),
  };
}

/** Each hazard code once, with its sentence. */
export function statementsOfAll(codes: readonly string[], reference: Reference): MakeUpPaper['statements'] {
  return [...new Set(codes)].map((code) => ({
    code,
    words: reference.statement.get(code) ?? solutionWords.result.noEntry,
  }));
}

/** Hazard codes in a line; words where there is no entry, or an entry without statements. */
export function codesText(statements: readonly string[] | null): string {
  if (statements === null) return solutionWords.result.noEntry;
  return statements.length === 0 ? solutionWords.result.noneListed : statements.join(' ');
}

function givesLines(plan: SolutionPlan, mark: DecimalMark): string[] {
  const { solute } = plan.ask;
  const text = (one: SolutionPlan['grams'] | SolutionPlan['millilitres'] | SolutionPlan['density']): string =>
    one.ok ? amountText(one.figure, mark) : '';
  const amounts = [text(plan.grams), text(plan.millilitres)].filter((one) => one !== '').join(', ');
  return [
    words.gives(amounts),
    plan.moles.ok && plan.solute.ok
      ? words.holds(amountText(plan.moles.figure, mark), amountText(plan.solute.figure, mark), solute.name)
      : '',
    plan.density.ok ? words.density(`${text(plan.density)}${marksText(plan.density.figure)}`) : '',
    solute.formula === null || solute.formula === plan.ask.source.facts.formula ? '' : words.countedAs(solute.formula),
  ].filter((line) => line !== '');
}

function heatText({ heat }: SolutionPlan, mark: DecimalMark): string {
  const { given, reached } = heat;
  if (!given.ok) return words.heatUnknown(sentence(given.why));
  if (!reached.ok) return words.heatUnknown(sentence(reached.why));
  const to = solutionWords.result.at(String(Math.round(reached.figure.value)).replace('-', '−'));
  const kilojoules = amountText({ ...given.figure, value: Math.abs(given.figure.value) }, mark);
  const said = given.figure.value < 0 ? words.heatTaken(kilojoules, to) : words.heat(kilojoules, to);
  return `${said}${marksText(reached.figure, words.marks)}`;
}

function marksText(figure: Figure, say: (marks: readonly Mark[]) => string = (marks) => ` (${marks.join(', ')})`): string {
  const marks = marksOf(figure);
  return marks.length === 0 ? '' : say(marks);
}

function labelOf(context: MakeUpContext, hazards: ReturnType<typeof hazardsOf>): MakeUpPaper['label'] {
  const { plan, mark } = context;
  const { solute, form } = plan.ask;
  const strength = wantedWords(plan.ask);
  const solvent = solventOf(form);
  const from = [context.sources.source, context.sources.weaker].filter((one) => one !== '');
  return {
    name: solute.name,
    strength: strength.includes(` in ${solvent}`) ? strength : `${strength} in ${solvent}`,
    signal: signalFor(hazards, context.reference),
    lines: [
      codesText(hazards?.statements ?? null),
      plan.density.ok ? words.label.at20(amountText(plan.density.figure, mark)) : '',
      from.length === 0 ? '' : words.label.from(from.join('; ')),
      solute.formula === null || solute.formula === plan.ask.source.facts.formula ? '' : words.countedAs(solute.formula),
    ].filter((line) => line !== ''),
  };
}
