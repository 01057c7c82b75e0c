import { benchLine, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { momentsOf } from '../bench/moments.ts';
import { onFilter } from '../plan/step/on-filter.ts';
import type { ChargePlan, StageVolume } from '../plan/result.ts';
import { factsFor, runStep, type StepRun } from '../plan/step/run-step.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Stage } from '../route/route.ts';
import { known, unknown } from '../words/why.ts';
import { layerLines } from './layer-lines.ts';
import { densityOf, type Layers, layersOf } from './layers.ts';
import { type Liveliness, liveliness } from './lively.ts';

/**
 * How full the vessel gets: every stage with its removals, what decides, the margin for foam and gas, what runs through
 * the filter, the layers of an extraction with their funnel, and the largest volume to be held. One batch.
 */
export function vesselSection(of: BenchInput): BenchSection | null {
  const { stages, basisMoles, count } = of.plan.batches;
  if (stages.length === 0) return null;
  const whole = { ...basisMoles, value: basisMoles.value * count };
  const run = runStep({ step: of.step, facts: of.facts, reference: of.reference, basisMoles: whole, batches: count });
  const lively = liveliness(of);
  const layers = layersOf(of, momentsOf(of));
  const filtered = filterLines(of);
  const lines = [
    ...stages.map((stage) => stageLine(stage)),
    ...decidingLines(of, run, lively),
    ...stages.flatMap((stage) => marginLines(stage, lively, of)),
    ...lively.unknown
      .filter(({ stage }) => !lively.reasons.has(stage))
      .map(({ stage, why }) => benchLine('margin unknown', { ok: false, why }, { values: { stage } })),
    ...leftOutLines(of, run),
    ...filtered,
    ...layers.flatMap((one) => layerLines(one, lively.reasons.has(one.removal.stage), of)),
    ...heldLines(of, run, layers),
  ];
  return { kind: 'vessel', lines, assumptions: assumptionsOf(run, layers, filtered.length > 0), plot: null };
}

function assumptionsOf(run: StepRun, layers: readonly Layers[], filters: boolean): readonly string[] {
  return [
    'added up',
    ...(run.estimated ? ['estimated'] : []),
    'fills',
    ...(filters ? ['filter'] : []),
    ...(layers.length > 0 ? ['layers'] : []),
  ];
}

function stageLine({ stage, volume, vessel, fill, most }: StageVolume): BenchLine {
  if (!(volume.value > 0)) return benchLine('stage', unknown('nothing in this stage'), { values: { stage, vessel: '' } });
  const values = { stage, vessel: vessel?.name ?? '', percent: fill === null ? '' : fill * 100, most };
  const full = fill !== null && fill > most * (1 + 1e-9);
  return benchLine(full ? 'stage too full' : 'stage', known(volume), { values, level: full ? 'caution' : 'number' });
}

/** The largest fill of a stage, as a fraction: the step's own, or half where something makes it lively. */
function mostOf({ stage, most }: StageVolume, { reasons }: Liveliness, { settings }: BenchInput): number {
  return reasons.has(stage) ? Math.min(most, settings.fill.lively) : most;
}

/** The stage that asks for the largest vessel, and the operation that makes it so. */
function decidingLines(of: BenchInput, run: StepRun, lively: Liveliness): readonly BenchLine[] {
  const needs = of.plan.batches.stages.map((stage) => ({ stage, needed: stage.volume.value / mostOf(stage, lively, of) }));
  const [most] = needs.toSorted((a, b) => b.needed - a.needed);
  if (!most || !(most.needed > 0)) return [];
  const fill = mostOf(most.stage, lively, of);
  const figure = nominalFor(most.stage, fill);
  const values = { stage: most.stage.stage, ...momentOf(run.fullestAt.get(most.stage.stage), of), fill };
  return [benchLine('decides', known(figure), { values })];
}

function nominalFor({ stage, volume }: StageVolume, fill: number): Figure<'mL'> {
  const part = entered('largest fill', fill, '', 'the laboratory’s list');
  return computed(`vessel for ${stage}`, volume.value / fill, 'mL', 'volume ÷ largest fill', [volume, part]);
}

/** When the vessel is fullest: with which charge in it, or before what. */
function momentOf(id: string | undefined, { step, facts }: BenchInput): BenchLine['values'] {
  const operation = step.operations.find((one) => one.id === id);
  if (operation?.do === 'charge') return { with: facts.get(operation.material)?.name ?? operation.material, before: '' };
  return { with: '', before: operation?.do === 'removal' ? operation.how : '' };
}

/** Where a stage foams, gases or grows hot it is half full at most; the plan counts that only where the step says so. */
function marginLines(stage: StageVolume, { reasons }: Liveliness, { settings }: BenchInput): readonly BenchLine[] {
  const why = reasons.get(stage.stage) ?? [];
  if (why.length === 0 || !(stage.volume.value > 0)) return [];
  const kelvin = Math.max(0, ...why.flatMap((one) => (one.kind === 'heat' ? [one.kelvin] : [])));
  const gases = [...new Set(why.flatMap((one) => (one.kind === 'gas' ? [one.gas] : [])))].join(', ');
  const counted = stage.most <= settings.fill.lively * (1 + 1e-9);
  const unsure = why.some((one) => one.kind === 'unknown heat') ? 'yes' : '';
  const values = { stage: stage.stage, gases, kelvin, unsure, counted: counted ? 'yes' : 'no', fill: settings.fill.lively };
  const fits = stage.fill !== null && stage.fill <= settings.fill.lively * (1 + 1e-9);
  const level = counted || fits ? 'number' : 'caution';
  return [benchLine(fits ? 'margin' : 'margin passed', known(nominalFor(stage, settings.fill.lively)), { values, level })];
}

/** Charges whose volume is not known: everything said of the vessel is too small by them. */
function leftOutLines({ facts }: BenchInput, run: StepRun): readonly BenchLine[] {
  return run.charges.flatMap(({ charge, form, amount, why }): readonly BenchLine[] => {
    const own = factsFor(charge.material, { facts });
    const isGas = own.state === 'gas' && form.kind !== 'solution';
    if (isGas || amount?.millilitres.ok || amount?.grams.ok) return [];
    // Why a charge has no amount is said with the charge itself.
    const said = why && { code: 'reason before', values: {} };
    const reason =
      said ?? (amount && !amount.grams.ok ? amount.grams.why : { code: 'no amount', values: { material: own.name } });
    const where = { values: { material: own.name }, operation: charge.id, level: 'caution' as const };
    return [benchLine('left out', { ok: false, why: reason }, where)];
  });
}

/** What is poured on a filter, and what the flask under it has to hold. */
function filterLines({ plan, step, facts }: BenchInput): readonly BenchLine[] {
  const washes = onFilter(step);
  const charges = plan.operations.filter((one): one is ChargePlan => one.kind === 'charge' && washes.has(one.id));
  const poured = charges.map((charge): BenchLine => {
    const material = facts.get(charge.material)?.name ?? charge.material;
    const where = { operation: charge.id, values: { material, portions: charge.portions } };
    const { millilitres } = charge;
    if (!millilitres) return benchLine('on the filter', unknown('no volume of it', { material }), where);
    const value = (millilitres.value / plan.batches.count) * (charge.atMost ?? 1);
    return benchLine(
      'on the filter',
      known(computed(millilitres.label, value, 'mL', 'one batch, at most', [millilitres])),
      where,
    );
  });
  const flasks = plan.batches.stages.flatMap(({ stage, runsOff }) =>
    runsOff && runsOff.value > 0 ? [benchLine('filter flask', known(runsOff), { values: { stage } })] : [],
  );
  return [...poured, ...flasks];
}

/** The largest volume of the step, wherever it stands. */
function heldLines({ plan }: BenchInput, run: StepRun, layers: readonly Layers[]): readonly BenchLine[] {
  const held: { where: string; stage: Stage; figure: Figure<'mL'> }[] = plan.batches.stages.flatMap(
    ({ stage, volume, runsOff }) => [
      { where: 'vessel', stage, figure: volume },
      ...(runsOff ? [{ where: 'filter flask', stage, figure: runsOff }] : []),
    ],
  );
  for (const { aqueous, organic, removal, looseMillilitres } of layers) {
    if (densityOf(aqueous) === null || densityOf(organic) === null) continue;
    const value = (aqueous.millilitres ?? 0) + (organic.millilitres ?? 0) + looseMillilitres;
    const of = [plan.batches.basisGrams];
    held.push({ where: 'funnel', stage: removal.stage, figure: computed('both layers', value, 'mL', 'sum of the layers', of) });
  }
  const [most] = held.toSorted((a, b) => b.figure.value - a.figure.value);
  if (!most || !(most.figure.value > 0)) return [];
  const partly = run.charges.some(({ amount }) => !amount || (!amount.grams.ok && !amount.millilitres.ok));
  return [benchLine(partly ? 'held at least' : 'held', known(most.figure), { values: { where: most.where, stage: most.stage } })];
}
