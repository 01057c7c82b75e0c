import type { Confidence, Outlook } from '../confidence/confidence.ts';
import type { StartSlope } from '../confidence/start-slopes.ts';
import type { PlanResult } from '../plan/result.ts';
import type { Figure } from '../quantity/figure.ts';
import { formatAmount } from '../quantity/format.ts';
import { confidenceWords as words } from './confidence-words.ts';

/** How sure a plan is, as lines for a terminal; empty where the plan could not be worked out. */
export function confidenceText(confidence: Confidence, result: PlanResult): string {
  switch (confidence.kind) {
    case 'unknown':
      return '';
    case 'nothing to start':
      return [words.title, `   ${words.nothing}`].join('\n');
    case 'certain':
      return [words.title, `   ${words.certain}`, ...riskLines([], confidence.slopes, result)].join('\n');
    case 'chance':
      return [words.title, ...chanceLines(confidence, result)].join('\n');
  }
}

function chanceLines(outlook: Outlook, result: PlanResult): readonly string[] {
  const material = nameOf(result, outlook.first.material);
  const levels = outlook.levels.map((level) =>
    level.multiplier
      ? `   ${String(level.percent).padStart(3)} %: ${shown(level.grams)} of ${material}, aiming at ${level.multiplier.value.toFixed(3)} times`
      : `   ${String(level.percent).padStart(3)} %: ${words.noStart}`,
  );
  const products = outlook.products.map(
    (one) =>
      `   ${nameOf(result, one.material)}: ${shown(one.p10)} / ${shown(one.p50)} / ${shown(one.p90)} (${words.asked(shown(one.asked))})`,
  );
  return [
    `   ${shown(outlook.first.grams)} of ${material}: ${words.percent(outlook.chance.value)} %. ${words.follows(result.start, outlook.chance.value)}`,
    `   ${words.likeliest(outlook.atLikeliest.value)}`,
    `   ${words.startFor}`,
    ...levels.map((line) => `   ${line.trimStart()}`),
    `   ${words.gets} (${words.getsHeads.join(' / ')})`,
    ...products,
    ...riskLines(outlook.risks, outlook.slopes, result),
  ];
}

function riskLines(risks: Outlook['risks'], slopes: readonly StartSlope[], result: PlanResult): readonly string[] {
  const rows = slopes.map(({ step, gramsPerPoint }) => {
    const plan = result.steps.find((one) => one.id === step);
    const share = risks.find((one) => one.step === step);
    const risk = share ? `${words.percent(share.share.value)} %` : words.noRange;
    return `   ${plan?.number ?? ''}. ${plan?.title ?? step}: ${risk}; ${signed(gramsPerPoint)}`;
  });
  return rows.length === 0 ? [] : [`   ${words.risk} (${words.riskHeads.slice(1).join('; ')})`, ...rows];
}

/** A change with its sign. */
export function signed(figure: Figure, mark: '.' | ',' = '.'): string {
  const { text, unit } = formatAmount({ value: Math.abs(figure.value), unit: figure.unit, digits: 3 }, mark);
  return `${figure.value < 0 ? '−' : '+'}${text} ${unit}`;
}

function nameOf(result: PlanResult, key: string): string {
  return result.materials[key]?.name ?? key;
}

function shown(figure: Figure | null): string {
  if (!figure) return '';
  const { text, unit } = formatAmount(figure);
  return `${text} ${unit}`;
}
