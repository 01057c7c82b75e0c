import { keepsText } from '../route/keeps.ts';
import type { HoldPlan, RemovalPlan, StepPlan } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import type { Hold, Removal, Stage } from '../route/route.ts';
import { paperWords as words } from '../words/paper-words.ts';
import { amountText, celsiusText, durationText, formatTrimmed, percentText, windowText } from './amounts.ts';
import { chargeEntry } from './charge-entry.ts';
import type { ChargePlace } from './charge-sources.ts';
import { cautionsAt, nameOf, type PaperContext, warningsAt } from './context.ts';
import { vesselText } from './vessel-words.ts';
import type { HoldEntry, RemovalEntry, StageBlock, Warning } from './sheet.ts';
import type { Session } from './session.ts';

/** Operations in the order done, in blocks of the same stage; charges numbered 1 … n through the whole sheet. */
export function stageBlocks(step: StepPlan, batch: number, session: Session, context: PaperContext): StageBlock[] {
  const blocks: StageBlock[] = [];
  const batches = step.batches.count;
  let stage: Stage | null = null;
  let entries: StageBlock['entries'] = [];
  let number = 0;
  for (const operation of step.operations) {
    const next: Stage = stage !== null && waitsInOldVessel(operation, stage, step) ? stage : stageOf(operation);
    if (next !== stage) {
      entries = [];
      blocks.push({ ...stageHead(step, next, stage === null, context.mark), entries });
      stage = next;
    }
    if (operation.kind === 'charge') {
      number += 1;
      const place: ChargePlace = { step, number, batch, batches, session };
      entries.push(chargeEntry(operation, place, context));
    } else if (operation.kind === 'hold') entries.push(holdEntry(operation, step, context));
    else entries.push(removalEntry(operation, step, context));
  }
  return blocks;
}

/** What comes before the first charge into a new vessel is still done in the old one: it stands under that. */
function waitsInOldVessel(operation: StepPlan['operations'][number], stage: Stage, step: StepPlan): boolean {
  const named = stageOf(operation);
  if (operation.kind === 'charge' || named === stage) return false;
  const charged = step.operations.some((one) => one.kind === 'charge' && one.stage === named);
  return charged && (step.batches.stages.find((one) => one.stage === named)?.newVessel ?? false);
}

function stageOf(operation: StepPlan['operations'][number]): Stage {
  if (operation.kind === 'charge') return operation.stage;
  return operation.kind === 'hold' ? operation.hold.stage : operation.removal.stage;
}

function stageHead(step: StepPlan, stage: Stage, first: boolean, mark: DecimalMark): Omit<StageBlock, 'entries'> {
  const volume = step.batches.stages.find((one) => one.stage === stage);
  return {
    title: words.stages[stage],
    apparatus: volume?.apparatus ?? '',
    newVessel: !first && (volume?.newVessel ?? false),
    fill: volume ? vesselText(volume, !first && !volume.newVessel, mark) : '',
  };
}

function holdEntry({ hold, before }: HoldPlan, step: StepPlan, context: PaperContext): HoldEntry {
  const { mark } = context;
  const found = cautionsAt(context, step, hold.id, before);
  return {
    do: 'hold',
    id: hold.id,
    before: withOwn(hold, warningsAt(hold.id, step, context, found), mark),
    until: words.holdUntil(hold.until),
    how: holdHow(hold, mark),
    check: hold.check === undefined ? '' : words.check(hold.check),
    ifNot: hold.ifNot === undefined ? words.ifNotUnknown : words.ifNot(hold.ifNot),
    ...(hold.stands ? { stands: words.stands(keepsText(hold.stands)) } : {}),
    note: hold.note ?? '',
    temperature: hold.temperature !== undefined || hold.limit !== undefined,
  };
}

function holdHow(hold: Hold, mark: DecimalMark): string {
  const parts: string[] = [];
  if (hold.temperature) parts.push(windowText(hold.temperature, mark));
  if (hold.aboutMinutes !== undefined) parts.push(words.aboutTime(durationText(hold.aboutMinutes, mark)));
  return parts.join(', ');
}

function removalEntry({ removal, before }: RemovalPlan, step: StepPlan, context: PaperContext): RemovalEntry {
  const found = cautionsAt(context, step, removal.id, before);
  return {
    do: 'removal',
    id: removal.id,
    before: withOwn(removal, warningsAt(removal.id, step, context, found), context.mark),
    title: words.removals[removal.how],
    takes: takesOf(removal, step, context),
    ...(removal.leavesMillilitresPerGram ? { leaves: leftBy(removal.leavesMillilitresPerGram, step) } : {}),
    waste: removal.wasteTo ?? '',
    wasteNeeded: removal.how !== 'dry' && removal.how !== 'vent',
    note: removal.note ?? '',
  };
}

/** The route's own caution and limit first, then what the program found. */
function withOwn(
  own: Pick<Hold, 'caution' | 'limit'> | Pick<Removal, 'caution'>,
  found: readonly Warning[],
  mark: DecimalMark,
): Warning[] {
  const warnings: Warning[] = [];
  if (own.caution !== undefined && own.caution !== '') warnings.push({ kind: 'caution', words: own.caution });
  if ('limit' in own && own.limit) {
    const { celsius, side, action } = own.limit;
    warnings.push({ kind: 'limit', words: words.limit(side ?? 'above', celsiusText(celsius, mark), action) });
  }
  const said = new Set(warnings.map((warning) => warning.words));
  return [...warnings, ...found.filter((warning) => !said.has(warning.words))];
}

/** mL that stay, of so many mL per g of basis. */
const leftBy = (millilitresPerGram: number, { batches }: StepPlan): number => millilitresPerGram * batches.basisGrams.value;

/** From here on a removal is said to take the whole: what stays behind is a figure for planning, not for the bench. */
const WHOLE = 90;

function takesOf(removal: Removal, step: StepPlan, { result, mark }: PaperContext): string {
  const named: Readonly<Record<string, string>> = words.taken;
  const list = removal.takes.map(({ what, percent }) => {
    const name = named[what] ?? nameOf(result, what);
    return percent >= WHOLE ? name : words.part(name, percentText(percent, mark));
  });
  const parts = list.length > 0 ? [words.takesOff(list.join(', '))] : [];
  const leaves = removal.leavesMillilitresPerGram;
  if (leaves !== undefined) {
    const total = amountText({ value: leftBy(leaves, step), unit: 'mL', digits: 3 }, mark);
    parts.push(words.leaves(total, `${formatTrimmed(leaves, mark)}\u00a0mL`));
  }
  return parts.join('; ');
}
