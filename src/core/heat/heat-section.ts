import { benchLine, benchRange, benchWords, type BenchInput, type BenchLine, type BenchSection } from '../bench/bench-section.ts';
import { neutraliseSection } from '../quench/neutralise-section.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { known } from '../words/why.ts';
import { criticalityClass, severityOf } from './criticality.ts';
import { extraLines } from './extra-lines.ts';
import type { Mixture } from './mixture.ts';
import { type Runaway, runawayOf } from './runaway.ts';

/** Heat of one batch: what it is, how far it goes when cooling is lost, how that is ranked, and what all of it rests on. */
export function heatSection(of: BenchInput): BenchSection | null {
  const found = runawayOf(of);
  const neutralised = heatSaidBy(of);
  const beside = extraLines(
    found.extras.filter((one) => !neutralised.has(one.charge.id)),
    of,
  );
  const lines = [
    reactionLine(found, of),
    ...(found.source?.row && found.source.row.caution !== '' ? [benchWords('typical caution', typical(found))] : []),
    ...(found.reaction.ok ? [...riseLines(found), ...rankLines(found, of)] : []),
    ...beside,
  ];
  return { kind: 'heat', lines, assumptions: assumptionsOf(found, beside.length > 0), plot: null };
}

function reactionLine({ reaction, source }: Runaway, of: BenchInput): BenchLine {
  if (!source) return benchLine('reaction', reaction);
  const { perMole, material, by, row } = source;
  const from = of.step.heat?.source ?? '';
  const spread = row ? { row: row.name, per: row.per, least: row.least, most: row.most } : {};
  const values = { each: perMole.value, material: of.facts.get(material)?.name ?? material, by, source: from, ...spread };
  return benchLine('reaction', reaction, { values });
}

const typical = ({ source }: Runaway) => ({ values: { caution: source?.row?.caution ?? '' }, level: 'caution' }) as const;

function riseLines(found: Runaway): readonly BenchLine[] {
  const { rise, process, mixture, extra } = found;
  if (!rise.ok) return [benchLine('rise', rise)];
  const values = { kelvin: rise.figure.value, extra: extra ? 'yes' : 'no' };
  const code = rise.figure.value < 0 ? 'fall' : 'rise';
  const range = process.ok
    ? [benchRange(code, process.figure, warmed(process.figure, rise.figure), { values })]
    : [benchLine(`${code} alone`, rise, { values }), benchLine('process', process)];
  return [...range, ...(mixture.ok ? [...boilingLines(found, mixture.mixture), ...assumedLines(mixture.mixture)] : [])];
}

/** Which heat capacities are guessed, with what value, and for how much of the mass. */
function assumedLines({ assumedPercent, assumed, capacity }: Mixture): readonly BenchLine[] {
  const guessed = assumedPercent > 0;
  const values = { percent: assumedPercent, materials: assumed.join(', ') };
  return [benchLine(guessed ? 'capacity partly assumed' : 'capacity', known(capacity), { values })];
}

function warmed(from: Figure<'°C'>, rise: Figure<'K'>): Figure<'°C'> {
  return computed('temperature reached', from.value + rise.value, '°C', 'process temperature + adiabatic rise', [from, rise]);
}

/** The highest temperature is held against what boils first. */
function boilingLines(found: Runaway, { boiling }: Mixture): readonly BenchLine[] {
  const { lowest } = boiling;
  const blind =
    boiling.unknown.length > 0 ? [benchWords('boiling unknown', { values: { materials: boiling.unknown.join(', ') } })] : [];
  if (!lowest) return blind;
  const passed = boils(found);
  const code = passed ? 'boils' : 'boiling';
  const level = passed ? 'caution' : 'number';
  return [benchLine(code, known(lowest.celsius), { values: { material: lowest.name }, level }), ...blind];
}

/** Whether all of the heat at once reaches the boiling of the lowest-boiling liquid. */
function boils({ process, rise, mixture }: Runaway): boolean {
  const lowest = mixture.ok ? mixture.mixture.boiling.lowest : null;
  return process.ok && rise.ok && lowest !== null && process.figure.value + rise.figure.value >= lowest.celsius.value;
}

/** MTSR, the severity in a word, the class. */
function rankLines(found: Runaway, of: BenchInput): readonly BenchLine[] {
  const { rise, highest, process } = found;
  if (!rise.ok || rise.figure.value <= 0) return [];
  const { heat, equation } = of.step;
  const gas = of.plan.gases.length > 0 || equation.makes.some((term) => term.gas) || chargesGas(of);
  const pressure = boils(found);
  const word = severityOf(rise.figure.value, gas || pressure);
  const accumulation = found.slow ? (heat?.accumulationPercent ?? 'unknown') : 'at once';
  const technical = heat?.highestCelsius ?? null;
  const decomposition = heat?.dayToRunawayCelsius ?? null;
  const values = {
    kelvin: rise.figure.value,
    word,
    because: word === severityOf(rise.figure.value, false) ? '' : gas ? 'gas' : 'boils',
  };
  const severity = benchWords('severity', { values, level: word === 'negligible' || word === 'medium' ? 'number' : 'caution' });
  if (!highest.ok || !process.ok) return [severity];
  const [from, top] = [process.figure.value, highest.figure.value];
  const ranked = criticalityClass({ process: from, synthesis: top, technical, decomposition });
  return [
    benchLine('highest', highest, { values: { accumulation } }),
    severity,
    ranked.ok
      ? benchWords('class', { values: { class: ranked.value, technical: technical ?? '', decomposition: decomposition ?? '' } })
      : benchLine('class', ranked),
  ];
}

function chargesGas({ plan, facts }: BenchInput): boolean {
  return plan.operations.some(
    (one) => one.kind === 'charge' && one.form.kind !== 'solution' && facts.get(one.material)?.state === 'gas',
  );
}

/** Charges whose heat the section of neutralisation says, or that have no amount to neutralise with: each is said once. */
function heatSaidBy(of: BenchInput): ReadonlySet<string> {
  const lines = neutraliseSection(of)?.lines ?? [];
  const idle = of.plan.operations.flatMap((one) =>
    one.kind === 'charge' && one.neutralises !== undefined && one.moles === null ? [one.id] : [],
  );
  return new Set([
    ...idle,
    ...lines.flatMap(({ code, operation }) => (code === 'heat' && operation !== null ? [operation] : [])),
  ]);
}

function assumptionsOf({ extras, extra, reaction, last }: Runaway, besideSaid: boolean): readonly string[] {
  const missing = reaction.ok && extras.some((one) => one.charge.id === last?.id && !one.heat.ok) ? ['extra not known'] : [];
  const beside = besideSaid || (reaction.ok && extra) ? ['extra heats'] : [];
  return [...(reaction.ok ? ['adiabatic', 'convention'] : []), ...beside, ...missing];
}
