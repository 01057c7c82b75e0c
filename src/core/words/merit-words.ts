import type { Cost } from '../outcome/cost.ts';
import type { ExpectedBalance, Found } from '../outcome/mass-balance.ts';
import type { Merit, StepMerit } from '../outcome/merit.ts';
import type { Difference, Section } from '../plan/compare.ts';
import type { PlanResult } from '../plan/result.ts';
import { formatAmount, formatSignificant } from '../quantity/format.ts';
import type { Figure } from '../quantity/figure.ts';

/** How material is used, and two plans side by side: what the Plan place and the plan command say. */
export const meritWords = {
  title: 'Use of material',
  atomEconomy: 'atom economy',
  massEfficiency: 'reaction mass efficiency',
  intensity: 'process mass intensity (mass in per gram out)',
  waste: 'E-factor (waste per gram)',
  withoutWater: 'without water',
  cost: 'material cost',
  cumulative: 'yield over all steps up to here',
  costPerGram: 'material cost per gram',
  convention:
    'Mass in counts everything charged, less what comes back, with water; every input not in the product is waste, so that the E-factor is the mass intensity − 1. Without water leaves out water, ice and the water of aqueous solutions. Atom economy is by the equation; reaction mass efficiency counts the reactants as charged, without solvents. Cost is the part used of the cheapest pack, in your own currency; the tap costs nothing.',
  balance: {
    title: 'Mass balance',
    charged: 'charged in all',
    water: 'of that water',
    found: {
      product: (name: string) => name,
      'left over': (name: string) => `${name}, left over`,
      'isolated beside': (name: string) => `${name}, isolated beside it`,
      'by the equation': (name: string) => `${name}, by the equation`,
      'comes back': (name: string) => `${name}, comes back`,
    } satisfies Record<Found['what'], (name: string) => string>,
    rest: 'liquors, washings, waste and loss',
    tooMuch: 'more comes out than goes in: something the equation uses is not charged',
    basis:
      'Mass balance at the planned yields: everything charged as supplied, and where it is found again. The rest is the difference: solvents, excess, what did not react, what is lost.',
  },
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
      'use of material': 'use of material',
    } satisfies Record<Section, string>,
    none: 'The two plans do not differ.',
    beside: 'Put beside this plan',
    nothing: 'nothing',
    copy: 'Go on in a copy, with this plan beside it',
    away: 'close',
    change: 'change',
    changeTo: 'change to this plan',
    thisPlan: (name: string) => `${name} (this plan)`,
    following: (count: number, shown: boolean) => {
      const charges = count === 1 ? 'one charge that changes' : `${count} charges that change`;
      return `${shown ? 'Hide' : 'Show'} ${charges} only as the start of ${count === 1 ? 'its' : 'their'} step`;
    },
    followed: (count: number) =>
      count === 1
        ? '1 charge changes only as the start of its step.'
        : `${count} charges change only as the starts of their steps.`,
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
    const line = `   ${plan?.number ?? ''}. ${plan?.title ?? one.step}: ${useText(one)}${economy}${efficiency}`;
    return [`${line}${costPerGram(one)}`, ...balanceText(one.balance)].join('\n');
  });
  const whole = merit.whole
    ? [`   ${words.whole}: ${useText(merit.whole)}${costPerGram(merit.whole)}`, ...balanceText(merit.whole.balance)]
    : [];
  return [words.title, ...overall, ...steps, ...whole, `   ${words.convention}`, `   ${words.balance.basis}`].join('\n');
}

function useText(one: NonNullable<Merit['whole']> | Merit['steps'][number]): string {
  const words = meritWords;
  const mass = one.intensity
    ? `${words.intensity} ${shown(one.intensity)} (${words.withoutWater} ${shown(one.intensityWithoutWater)}), ${words.waste} ${number(one.waste)} (${number(one.wasteWithoutWater)})`
    : words.unweighed(one.unweighed);
  return `${mass}, ${costText(one.cost)}`;
}

function costPerGram({ costPerGram: figure }: Pick<StepMerit, 'costPerGram'>): string {
  return figure ? `, ${meritWords.costPerGram} ${number(figure)}` : '';
}

/** A balance as one sum: what goes in = where it is found + the rest. */
function balanceText(balance: ExpectedBalance | null): readonly string[] {
  if (!balance) return [];
  const words = meritWords.balance;
  const { charged, water, found, rest } = balance;
  const wet = water.value > 0 ? ` (${words.water} ${shown(water)})` : '';
  const out = [
    ...found.map((one) => `${shown(one.grams)} ${words.found[one.what](one.name)}`),
    `${shown(rest)} ${rest.value < 0 ? words.tooMuch : words.rest}`,
  ];
  return [`      ${words.title}: ${shown(charged)} ${words.charged}${wet} = ${out.join(' + ')}`];
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
  const all = lines.filter((line) => line.differs);
  const differing = all.filter((line) => !line.follows);
  if (all.length === 0) return `${words.title}: ${one} | ${other}\n   ${words.none}`;
  const rows = differing.map((line) => [
    words.sections[line.section],
    line.of.join(', '),
    shown(line.one),
    shown(line.other),
    changeOf(line),
  ]);
  const widths = [0, 1, 2, 3].map((column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const body = rows.map((row) => `   ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd());
  const following = all.length - differing.length;
  return [
    `${words.title}: ${one} | ${other}`,
    ...body,
    ...(following === 0 ? [] : [`   ${words.followed(following)}`]),
    `   ${words.same(lines.length - all.length)}`,
  ].join('\n');
}

/** The change of a line: of a percentage in points, of everything else in per cent of what it was. */
export function changeOf({ one, other, change }: Difference): string {
  if (change === null || one?.unit !== '%' || !other) return changeText(change);
  const points = other.value - one.value;
  return `${points < 0 ? '−' : '+'}${formatSignificant(Math.abs(points), 3)} points`;
}

/** A change as it is shown: "+12.3 %"; empty where there is none to tell. */
export function changeText(change: number | null): string {
  if (change === null) return '';
  return `${change < 0 ? '−' : '+'}${formatSignificant(Math.abs(change), 3)} %`;
}
