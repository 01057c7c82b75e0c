import type { StepPlan } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import type { BenchLine } from '../bench/bench-section.ts';
import { plotPicture } from '../bench/plot-picture.ts';
import { keepsText } from '../route/keeps.ts';
import { assumptionsText, linesText, sectionWords } from '../words/bench-number-words.ts';
import { confidenceWords } from '../words/confidence-words.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, durationText, percentText, share } from './amounts.ts';
import { type ChosenBatch, nameOf, type PaperContext, stepOf, warningsOf } from './context.ts';
import { gasesOf, statementsOf, unlistedOf } from './hazard-lines.ts';
import { makeUpEntry } from './make-up-entry.ts';
import { stageBlocks } from './operation-entries.ts';
import type { WeighingPaper } from './paper.ts';
import type { MakeUpEntry, WeighingSheet } from './sheet.ts';
import { basisUnit } from './per-basis.ts';
import { saidOnce } from './said-on-sheets.ts';
import { type Session, sessionOf } from './session.ts';
import { vesselBox } from './vessel-words.ts';

/**
 * The weighing sheets of a session, one per batch, in working order.
 * @throws RangeError where a chosen batch is not in the plan.
 */
export function weighingPaper(chosen: readonly ChosenBatch[], context: PaperContext): WeighingPaper {
  const { result } = context;
  const session = sessionOf(result, chosen);
  const each = result.steps.flatMap((step) =>
    chosen
      .filter((one) => one.step === step.id)
      .map((one) => one.batch)
      .sort((a, b) => a - b)
      .map((batch) => weighingSheet(step.id, batch, context, session)),
  );
  const sheets = saidOnce(each);
  const ids = sheets.map((sheet) => sheet.id).join(', ');
  return {
    backweigh: 'paper',
    version: 1,
    kind: 'weighing sheet',
    size: context.size,
    title: sheets.length === 1 ? words.weighingTitleOne(ids) : words.weighingTitle(ids),
    plan: result.name,
    route: result.route,
    asOf: result.asOf,
    secondCheck: context.secondCheck,
    sheets,
  };
}

/**
 * What the sheet of one batch says, in its session or alone (21 CFR 211.188 and ICH Q7 6.5 list what a batch record holds).
 * @param batch 1 … the number of batches of the step.
 * @throws RangeError where the step or the batch is not in the plan.
 */
export function weighingSheet(
  stepId: string,
  batch: number,
  context: PaperContext,
  session: Session = sessionOf(context.result, [{ step: stepId, batch }]),
): WeighingSheet {
  const { result, mark, say } = context;
  const step = stepOf(result, stepId);
  const batches = step.batches.count;
  if (!Number.isInteger(batch) || batch < 1 || batch > batches) {
    throw new RangeError(`the batch needs to be 1 to ${batches} (got ${batch})`);
  }
  const theory = step.product.theory.value / batches;
  const theoryText = amountText(share(step.product.theory, 1 / batches), mark);
  const stages = stageBlocks(step, batch, session, context);
  return {
    id: `${step.number}-${batch}`,
    step: step.id,
    stepNumber: step.number,
    batch,
    batches,
    title: `${step.number} · ${step.title}`,
    batchWords: words.batch(batch, batches),
    expected: expectedText(step, theoryText, context),
    follows: [followsText(step, mark), confidenceWords.paper(result.start)].filter((line) => line !== '').join('; '),
    equation: step.equation.text,
    equationProblem: step.equation.balanced ? '' : words.unbalanced,
    boxes: boxesOf(step, mark),
    before: [
      ...warningsOf(
        step.notices.filter((notice) => notice.at.operation === undefined),
        say,
      ),
      ...basisFirst(step),
    ],
    statements: statementsOf(step, context),
    unlisted: unlistedOf(step, context),
    gases: gasesSaid(step, context) ? [] : gasesOf(step, context),
    makeUps: makeUpsOf(step, context),
    stages,
    charges: step.operations.filter((operation) => operation.kind === 'charge').length,
    ...(basisUnit(step) === 'g' ? {} : { basisUnit: basisUnit(step) }),
    temperatureLog: wantsLog(step),
    theoryGrams: theory,
    yieldOf: words.yieldOf(theoryText),
    product: nameOf(result, step.product.material),
    sourceWords: step.source === '' ? '' : words.source(step.source),
    emergency: emergencyOf(step),
    ...(step.keeps ? { keeps: words.keeps(keepsText(step.keeps)) } : {}),
    keep: keepOf(step, context),
    bench: benchBlocks(step, context),
  };
}

/** Numbers that the head of a stage, or the charge itself, says on the sheet. */
const SAID_BY_STAGE: ReadonlySet<string> = new Set(['stage', 'filter flask', 'on the filter']);
const isSaidAlready = ({ code, shown }: BenchLine): boolean => SAID_BY_STAGE.has(code) && shown.kind !== 'unknown';

/** Whether the gases are told of immediately before the operation that frees them. */
function gasesSaid(step: StepPlan, { cautions }: PaperContext): boolean {
  return [...cautions(step.id).values()].some((all) => all.some(({ code }) => code === 'gas freed'));
}

/** Bench numbers that belong to no single operation, and what those rest on that stand before theirs. */
function benchBlocks(step: StepPlan, { bench, mark }: PaperContext): WeighingSheet['bench'] {
  return bench(step.id).flatMap((section) => {
    const own = section.lines.filter((line) => line.operation === null && !isSaidAlready(line));
    const lines = linesText(section.kind, own, mark).map((line) => line.words);
    const assumed = assumptionsText(section);
    const words = sectionWords(section.kind);
    const plot = section.plot ? { plot: plotPicture(section.plot, words, mark) } : {};
    return lines.length === 0 && assumed === '' ? [] : [{ title: words.title, lines, assumed, ...plot }];
  });
}

/** Spill and first aid; where the route says nothing, that is said. */
function emergencyOf({ spill, firstAid }: StepPlan): string[] {
  if (spill === '' && firstAid === '') return [words.emergencyUnknown];
  return [
    spill === '' ? words.spillUnknown : words.spill(spill),
    firstAid === '' ? words.firstAidUnknown : words.firstAid(firstAid),
  ];
}

/** Draws of this step's product that are kept rather than used. */
function keepOf({ product, batches }: StepPlan, { result, mark }: PaperContext): string {
  const kept = result.draws.filter((draw) => draw.kept && draw.material === product.material);
  const list = kept.map((draw) => words.keepOne(amountText(draw.grams ?? draw.moles, mark), draw.purpose)).join(', ');
  return list === '' ? '' : words.keep(list, batches.count);
}

function expectedText(step: StepPlan, theory: string, { result, mark }: PaperContext): string {
  const grams = amountText(step.batches.productGrams, mark);
  return words.expected(nameOf(result, step.product.material), grams, percentText(step.yield.value, mark), theory);
}

function followsText(step: StepPlan, mark: DecimalMark): string {
  const range = step.yieldRange;
  if (step.yieldRuns) return words.followsRuns(percentText(step.yield.value, mark), step.yieldRuns);
  if (!range) return words.followsSingle(percentText(step.yield.value, mark));
  return words.followsRange(
    percentText(range.likeliest, mark),
    percentText(range.lowest, mark),
    percentText(range.highest, mark),
  );
}

function boxesOf(step: StepPlan, mark: DecimalMark): WeighingSheet['boxes'] {
  return [
    {
      title: words.boxes.conditions,
      strong: '',
      lines: [step.conditions === '' ? words.noConditions : step.conditions, ...batchLines(step, mark)],
    },
    vesselBox(step.batches.stages, mark),
    {
      title: words.boxes.ready,
      strong: '',
      lines: step.protection.length > 0 ? [step.protection.join(', ')] : [words.noProtection],
    },
  ];
}

/** What is known of one batch beside the route's own words: the addition its cooling asks for, and what stays behind. */
function batchLines({ batches }: StepPlan, mark: DecimalMark): string[] {
  const { heat, shortestAddition, lostGrams } = batches;
  return [
    heat ? words.heat(amountText(heat, mark)) : words.heatUnknown,
    ...(shortestAddition ? [words.shortestAddition(durationText(Number(shortestAddition.value.toPrecision(2)), mark))] : []),
    ...(lostGrams ? [words.staysBehind(amountText(lostGrams, mark))] : []),
  ];
}

/** Make-ups the batch draws on, cut to this batch's need; the fetch list makes the session's whole at once. */
function makeUpsOf(step: StepPlan, context: PaperContext): MakeUpEntry[] {
  return context.result.makeUps.flatMap((makeUp) => {
    const users = step.operations.filter(
      (operation) => operation.kind === 'charge' && operation.supply.kind === 'make up' && operation.supply.makeUp === makeUp.id,
    );
    if (users.length === 0) return [];
    const grams = users.reduce((sum, user) => sum + (user.kind === 'charge' ? (user.grams?.value ?? Number.NaN) : 0), 0);
    const wanted = (grams / step.batches.count / makeUp.grams.value) * (1 + makeUp.excessPercent / 100);
    const factor = Number.isFinite(wanted) ? Math.min(1, wanted) : 1;
    const whole = factor > 1 - 1e-9;
    const total = amountText(makeUp.millilitres ?? makeUp.grams, context.mark);
    return [makeUpEntry(makeUp, factor, whole ? '' : words.makeUpShare(total), context)];
  });
}

/** Where the basis goes in late, it is still weighed first: every other amount follows it. */
function basisFirst(step: StepPlan): WeighingSheet['before'] {
  const charges = step.operations.filter((operation) => operation.kind === 'charge');
  const at = charges.findIndex((charge) => charge.isBasis);
  return at > 0 ? [{ kind: 'note', words: words.basisFirst(at + 1, charges[at]?.perBatch.by === 'volume') }] : [];
}

function wantsLog(step: StepPlan): boolean {
  return step.operations.some((operation) => {
    if (operation.kind === 'charge') return operation.temperature !== null || operation.limit !== null;
    return operation.kind === 'hold' && (operation.hold.temperature !== undefined || operation.hold.limit !== undefined);
  });
}
