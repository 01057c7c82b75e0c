import { wasteConflicts } from '../bench/waste-cautions.ts';
import { NEAT } from '../matter/form.ts';
import type { Facts } from '../matter/facts.ts';
import type { Situation } from '../confidence/start-choice.ts';
import type { Reference } from '../reference.ts';
import { rememberLast } from '../remember.ts';
import type { Route, Step } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import type { Draw } from './ask.ts';
import type { Network } from './network/network.ts';
import type { Requirement } from './solve/requirements.ts';
import { formatSignificant } from '../quantity/format.ts';
import { loopNotices } from './loop-notices.ts';
import type { Choice, FetchLine, StepPlan } from './result.ts';
import type { Starts } from './solve/starts.ts';
import type { Taken } from './stock/take.ts';

/** Everything a solved plan says beyond its figures: of its steps, of what meets, of the shelf, of the network. */
export function planNotices(
  { input, network, facts }: Pick<Situation, 'input' | 'network' | 'facts'>,
  starts: Starts,
  { fetch, stepInputs }: Taken,
  steps: readonly StepPlan[],
): readonly Notice[] {
  const { steps: required, choices } = starts;
  return [
    ...steps.flatMap((step) => (step.active ? step.notices : [])),
    ...dangerNotices(steps),
    ...fetchNotices(fetch),
    ...wasteNotices(
      facts,
      input.reference,
      network.steps.filter((_, i) => required[i]?.active),
    ),
    ...recoveredNotices(
      network,
      required,
      facts,
      stepInputs.map((one) => one.batches),
    ),
    ...purityNotices(network, required, input.ask.draws, facts),
    ...loopNotices(network, starts, facts),
    ...choiceNotices(network, choices, facts),
    ...secondNotices(network, required, facts),
  ];
}

/** What the shelf lacks, line by line. */
function fetchNotices(fetch: readonly FetchLine[]): readonly Notice[] {
  return fetch.flatMap((line): readonly Notice[] => {
    const at = { material: line.material };
    const values = {
      material: line.name,
      form: line.formWords,
      amount: line.short?.value ?? 0,
      unit: line.unit,
      uses: new Set(line.uses.map((use) => use.step)).size,
    };
    if (line.status === 'short') return [{ level: 'short', code: 'short', values: { ...values, ...heldBack(line) }, at }];
    if (line.status === 'unknown strength') return [{ level: 'short', code: line.status, values, at }];
    if (line.status === 'make up')
      return [{ level: 'short', code: 'make up', values: { ...values, lots: line.bottles.length }, at }];
    return line.status === 'out of date'
      ? [{ level: 'short', code: 'out of date', values: { ...values, ...pastDate(line) }, at }]
      : [];
  });
}

/** The lots past their date: the first that would cover the line by itself, else all of them. */
function pastDate({ passedOver }: FetchLine): { readonly lot: string; readonly bottles: number } {
  const past = passedOver.filter((one) => one.why === 'out of date');
  const alone = past.find((one) => one.wouldCover === true);
  const named = (alone ? [alone] : past).map(({ lot, bottle }) => (lot === '' ? bottle : lot));
  return { lot: named.join(', '), bottles: named.length };
}

/** The lot of a bottle that is held back and would cover the line, by itself. */
function heldBack({ passedOver }: FetchLine): { readonly heldBack?: string } {
  const held = passedOver.find((one) => one.why === 'held back' && one.wouldCover === true);
  return held ? { heldBack: held.lot === '' ? held.bottle : `lot ${held.lot}` } : {};
}

/** Meetings that free a poison: said with the plan even where the equation means them. */
const FREES_POISON = new Set([
  'acid frees chlorine',
  'chloramines',
  'acid frees hydrazoic acid',
  'azide meets chlorinated solvent',
  'acid frees hydrogen cyanide',
  'acid frees hydrogen sulfide',
  'acid frees nitrous gases',
  'acid frees a poison',
]);

/**
 * What must not be missed before anything is weighed: materials that must not meet, and poisonous gases. Each stands
 * immediately before its operation; who reads only the plan's notices has to meet it there too.
 */
function dangerNotices(steps: readonly StepPlan[]): readonly Notice[] {
  const dangerous = ({ level, code, values }: Notice): boolean =>
    level === 'error' ||
    FREES_POISON.has(code) ||
    ((code === 'gas freed' || values.gases !== undefined) && (values.statements ?? '') !== '');
  return steps.filter((step) => step.active).flatMap((step) => step.operations.flatMap(({ before }) => before.filter(dangerous)));
}

/** Waste streams of some steps that must not meet: no amount matters, so it is worked out when other steps run. */
const wasteNotices = rememberLast((facts: ReadonlyMap<string, Facts>, reference: Reference, running: readonly Step[]) =>
  wasteConflicts(running.map((step) => ({ step, facts, formOf: (charge) => charge.form ?? NEAT, reference }))),
);

/** Which of several makers runs, with what the plan would cost with another. */
function choiceNotices(network: Network, choices: readonly Choice[], facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return choices.flatMap(({ material, by, makers }): readonly Notice[] => {
    const title = (step: string): string => `“${network.steps.find((one) => one.id === step)?.title ?? step}”`;
    const running = makers.filter((maker) => maker.runs);
    if (running.length === 0) return [];
    const costs = makers.map(({ step, cost }) => `${title(step)}: ${cost === null ? 'cannot' : costWords(cost, by)}`);
    const values = {
      material: facts.get(material)?.name ?? material,
      runs: running.map((maker) => title(maker.step)).join(' and '),
      by: by === 'price' ? 'cost' : 'mass',
      others: `With one maker alone: ${costs.join('; ')}.`,
    };
    return [{ level: 'assumption', code: 'maker chosen', values, at: { material, step: running[0]?.step ?? '' } }];
  });
}

function costWords(cost: number, by: Choice['by']): string {
  return by === 'price' ? formatSignificant(cost, 3) : `${formatSignificant(cost, 3)} g`;
}

/** Second products whose own yield the equation does not give. */
function secondNotices(network: Network, steps: readonly Requirement[], facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return network.steps.flatMap((step, i) =>
    (network.products[i] ?? []).slice(1).flatMap(({ material, yieldPercent }): readonly Notice[] => {
      if (yieldPercent !== null || !steps[i]?.active) return [];
      const name = (key: string): string => facts.get(key)?.name ?? key;
      const values = { material: name(material), product: name(step.product) };
      return [{ level: 'assumption', code: 'second at the same yield', values, at: { step: step.id, material } }];
    }),
  );
}

/** Formulas that cannot be read, with the character. */
export function formulaNotices(route: Route, facts: ReadonlyMap<string, Facts>): readonly Notice[] {
  return Object.entries(route.materials).flatMap(([key, material]): readonly Notice[] => {
    const problem = facts.get(key)?.formulaProblem;
    return problem
      ? [
          {
            level: 'error',
            code: 'formula',
            values: { material: material.name, formula: material.formula ?? '', at: problem.at + 1, words: problem.words },
            at: { material: key },
          },
        ]
      : [];
  });
}

/** A recovered intermediate: each batch takes more than is made for it, and for the first that must be in hand. */
function recoveredNotices(
  network: Network,
  steps: readonly Requirement[],
  facts: ReadonlyMap<string, Facts>,
  batches: readonly number[],
): readonly Notice[] {
  return network.steps.flatMap((step, i) =>
    [...(network.recovered[i] ?? [])].flatMap(([material, perMole]): readonly Notice[] => {
      const moles = (perMole * (steps[i]?.basisMoles.value ?? 0)) / (batches[i] ?? 1);
      const one = facts.get(material);
      if (!network.makersOf.has(material) || moles <= 0 || !one?.molarMass) return [];
      const values = { step: `“${step.title}”`, material: one.name, amount: moles * one.molarMass.value, unit: 'g' };
      return [{ level: 'assumption', code: 'back in hand', values, at: { step: step.id, material } }];
    }),
  );
}

/** Draws that ask for more purity than the step that makes them isolates. */
function purityNotices(
  network: Network,
  starts: readonly Requirement[],
  draws: readonly Draw[],
  facts: ReadonlyMap<string, Facts>,
): readonly Notice[] {
  return draws.flatMap((draw): readonly Notice[] => {
    const wanted = draw.leastAssayPercent ?? 0;
    const makers = (network.makersOf.get(draw.material) ?? []).filter((i) => starts[i]?.active);
    const made = makers
      .map((i) => network.steps[i])
      .map((step) => (step?.product === draw.material ? step.productAssayPercent : undefined))
      .find((assay) => assay !== undefined && assay < wanted);
    if (made === undefined) return [];
    return [
      {
        level: 'error',
        code: 'made too impure',
        values: { material: facts.get(draw.material)?.name ?? draw.material, wanted, made },
        at: { draw: draw.id },
      },
    ];
  });
}
