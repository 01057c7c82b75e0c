import type { Cost } from '../outcome/cost.ts';
import type { Merit } from '../outcome/merit.ts';
import type { Difference, Section } from '../plan/compare.ts';
import type { PlanResult } from '../plan/result.ts';
import { formatAmount, formatSignificant } from '../quantity/format.ts';
import type { Figure } from '../quantity/figure.ts';

/** How material is used, and two plans side by side: what the Plan place and the plan command say. */
export const meritWords = {
  title: 'Use of material',
  atomEconomy: 'atom economy',
  massEfficiency: 'reaction mass efficiency',
  intensity: 'mass in per gram out',
  waste: 'E-factor',
  withoutWater: 'without water',
  cost: 'material cost',
  costPerGram: 'per gram',
  convention:
    'Mass in counts everything charged, less what comes back; every input not in the product is waste. Without water leaves out water, ice and the water of aqueous solutions. Cost is the part used of the cheapest pack, in your own currency; the tap costs nothing.',
  unweighed: (names: readonly string[]) => `not known: no mass for ${names.join(', ')}`,
  unpriced: (names: readonly string[]) => `no price for ${names.join(', ')}`,
  atLeast: 'at least',
  overall: 'overall yield',
  overallOf: (product: string) => `overall yield of ${product}`,
  unknown: 'unknown',
  longest: 'longest path',
  from: (start: string, count: number) => `from ${start}, ${count === 1 ? '1 step' : `${count} steps`}`,
  whole: 'all steps',
  compare: {
    title: 'Side by side',
    sections: {
      draws: 'draws',
      yields: 'yields',
      starts: 'starts',
      charges: 'charges',
      batches: 'batches',
      'to buy': 'to buy',
    } satisfies Record<Section, string>,
    none: 'The two plans do not differ.',
    beside: 'Put beside this plan',
    nothing: 'nothing',
    copy: 'Go on in a copy, with this plan beside it',
    away: 'close',
    change: 'change',
    unsolved: 'the other plan cannot be worked out as it stands',
    missing: '—',
    same: (count: number) => (count === 1 ? '1 other line is the same.' : `${count} other lines are the same.`),
    routeYields: 'the route’s own yields',
  },
} as const;

const shown = (figure: Figure | null): string => {
  if (!figure) return meritWords.compare.missing;
  const { text, unit } = formatAmount(figure);
  return `${text} ${unit}`.trim();
};

/** The use of material as text: overall yields, then each step, then all of them. */
export function meritText(merit: Merit, result: PlanResult): string {
  const words = meritWords;
  const name = (key: string): string => result.materials[key]?.name ?? key;
  const overall = Object.entries(merit.overall).flatMap(([material, { longest, byStart }]) => [
    `   ${words.overall} of ${name(material)}: ${shown(longest.percent)} (${words.longest}, ${words.from(name(longest.start), longest.steps.length)})`,
    ...byStart
      .filter((one) => one.start !== longest.start)
      .map((one) => `      ${shown(one.percent)} ${words.from(name(one.start), one.steps.length)}`),
  ]);
  const steps = merit.steps.map((one) => {
    const plan = result.steps.find((step) => step.id === one.step);
    const economy = one.atomEconomy ? `, ${words.atomEconomy} ${shown(one.atomEconomy)}` : '';
    const efficiency = one.massEfficiency ? `, ${words.massEfficiency} ${shown(one.massEfficiency)}` : '';
    return `   ${plan?.number ?? ''}. ${plan?.title ?? one.step}: ${useText(one)}${economy}${efficiency}`;
  });
  const whole = merit.whole ? [`   ${words.whole}: ${useText(merit.whole)}${costPerGram(merit.whole)}`] : [];
  return [words.title, ...overall, ...steps, ...whole, `   ${words.convention}`].join('\n');
}

function useText(one: NonNullable<Merit['whole']> | Merit['steps'][number]): string {
  const words = meritWords;
  const mass = one.intensity
    ? `${words.intensity} ${shown(one.intensity)} (${words.withoutWater} ${shown(one.intensityWithoutWater)}), ${words.waste} ${number(one.waste)} (${number(one.wasteWithoutWater)})`
    : words.unweighed(one.unweighed);
  return `${mass}, ${costText(one.cost)}`;
}

function costPerGram(whole: NonNullable<Merit['whole']>): string {
  return whole.costPerGram ? `, ${meritWords.costPerGram} ${number(whole.costPerGram)}` : '';
}

/** A cost with what it leaves out. */
export function costText(cost: Cost): string {
  const { unpriced, known } = cost;
  if (unpriced.length === 0) return `${meritWords.cost} ${number(known)}`;
  const least = known.value > 0 ? `${meritWords.atLeast} ${number(known)}; ` : '';
  return `${meritWords.cost}: ${least}${meritWords.unpriced(unpriced)}`;
}

const number = (figure: Figure | null): string => (figure ? formatSignificant(figure.value, 3) : meritWords.compare.missing);

/** Two plans side by side as text: the lines that differ, marked, and how many do not. */
export function comparisonText(lines: readonly Difference[], one: string, other: string): string {
  const words = meritWords.compare;
  const differing = lines.filter((line) => line.differs);
  if (differing.length === 0) return `${words.title}: ${one} | ${other}\n   ${words.none}`;
  const rows = differing.map((line) => [
    words.sections[line.section],
    line.of.join(', '),
    shown(line.one),
    shown(line.other),
    changeText(line.change),
  ]);
  const widths = [0, 1, 2, 3].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const body = rows.map((row) => `   ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd());
  return [`${words.title}: ${one} | ${other}`, ...body, `   ${words.same(lines.length - differing.length)}`].join('\n');
}

/** A change as it is shown: "+12.3 %"; empty where there is none to tell. */
export function changeText(change: number | null): string {
  if (change === null) return '';
  return `${change < 0 ? '−' : '+'}${formatSignificant(Math.abs(change), 3)} %`;
}
