import { benchBefore } from '../caution/bench-before.ts';
import { ofStepItself } from '../caution/step-cautions.ts';
import { makeUpExcess } from './make-up-excess.ts';
import type { ChargePlan, FetchLine, OperationPlan, PlanResult, StepPlan, Supply, Take } from '../plan/result.ts';
import type { MakeUp } from '../plan/make-up-result.ts';
import type { BenchSection } from '../bench/bench-section.ts';
import { operationIdOf as operationId, type StepCautions } from '../caution/step-cautions.ts';
import type { Confidence } from '../confidence/confidence.ts';
import { assumptionsText, benchNumberWords, linesText, sectionWords } from './bench-number-words.ts';
import { confidenceText } from './confidence-text.ts';
import { confidenceWords } from './confidence-words.ts';
import type { Removal, TemperatureWindow } from '../route/route.ts';
import { minutesText, windowText } from '../route/text-field.ts';
import { formatAmount, formatSignificant } from '../quantity/format.ts';
import { readingParts } from '../quantity/reading.ts';
import type { Figure } from '../quantity/figure.ts';
import { allBefore } from './bench-before-words.ts';
import { bathText } from './bath-words.ts';
import { commandWords } from './command-words.ts';
import { paperWords } from './paper-words.ts';
import { keepsText } from '../route/keeps.ts';
import { planWords } from './plan-words.ts';
import { deviceWords } from './device-words.ts';
import { onHandText } from '../paper/on-hand-text.ts';
import { uncountedOf } from '../paper/session.ts';
import { withForm } from '../session/day-before.ts';
import { uncounted } from './session-words.ts';
import { startText } from './start-text.ts';
import { sentence, STANDING } from './sentences.ts';
import { neutraliseText } from './routes-words.ts';

/** The bench numbers of a step. */
type BenchOf = (step: string) => readonly BenchSection[];

/** Said once for the whole plan: the command reads files, and runs are in no file. */
const RUNS_NOT_READ = 'scale: runs not read';

/** Everything to be said before each operation of a step. */
type CautionsOf = (step: string) => StepCautions;

/** A plan as plain text for a terminal: step table, fetch list, make-ups, notices. */
export function planText(
  result: PlanResult,
  confidence: Confidence,
  bench: BenchOf,
  cautions: CautionsOf = () => new Map(),
): string {
  const chance = confidenceText(confidence, result);
  const parts = [heading(result), ...(chance === '' ? [] : [chance])];
  const said = result.steps.map((step) => ({ step, before: cautions(step.id) }));
  const unread = said.flatMap(({ before }) => [...before.values()].flat()).find(({ code }) => code === RUNS_NOT_READ);
  if (unread) parts.push(`! ${sentence(unread)} ${commandWords.runHint}`);
  for (const { step, before } of said) parts.push(stepText(step, result, bench(step.id), before));
  const fetched = [...table(result.fetch.map(fetchRow)), ...uncountedOf(result).map((one) => `   ! ${uncountedText(one)}.`)];
  if (fetched.length > 0)
    parts.push([['Fetch list', startText(result)].filter((one) => one !== '').join(', '), ...fetched].join('\n'));
  if (result.makeUps.length > 0)
    parts.push(
      [
        'Make up',
        ...result.makeUps.flatMap((one) => [
          ...one.before.map((notice) => `  ! ${sentence(notice)}`),
          `  ${makeUpText(one, result)}`,
        ]),
      ].join('\n'),
    );
  const before = new Set(said.flatMap((one) => [...[...one.before.values()].flat(), ...ofStepItself(one.step)]).map(sentence));
  const notices = result.notices.map((notice) => ({ notice, words: sentence(notice) })).filter(({ words }) => !before.has(words));
  if (notices.length > 0)
    parts.push(['Notices', ...notices.map(({ notice, words }) => `  ${notice.level}: ${words}`)].join('\n'));
  return `${[...parts, STANDING].join('\n\n')}\n`;
}

function heading(result: PlanResult): string {
  const draws = result.draws.map(
    (draw) =>
      `  ${shown(draw.grams)} of ${result.materials[draw.material]?.name ?? draw.material}${draw.purpose ? `, ${draw.purpose}` : ''}`,
  );
  return [`${result.route}, planned for ${result.asOf} ${confidenceWords.heading(result.start)}`, ...draws].join('\n');
}

const IDLE = {
  'nothing to make': 'not needed for these draws',
  'left out': 'left out of this plan',
  'another makes it': 'not run, another step makes the same at less cost of material',
} as const;

function stepText(step: StepPlan, result: PlanResult, bench: readonly BenchSection[], cautions: StepCautions): string {
  const name = (key: string): string => result.materials[key]?.name ?? key;
  if (!step.active) return `${step.number}. ${step.title}: ${IDLE[step.whyIdle ?? 'nothing to make']}`;
  const head = [
    `${step.number}. ${step.title}`,
    `   ${step.equation.text}`,
    `   ${shown(step.basis.grams) || 'an unknown mass'} of ${name(step.basis.material)} → ${shown(step.product.grams) || 'an unknown mass'} of ${name(step.product.material)} at ${step.yield.value} %, ${batchText(step)}`,
    ...step.seconds.map(({ material, grams }) => `   and beside it ${shown(grams)} of ${name(material)}`),
    ...unlistedText(step, name),
  ];
  const rows = table(
    step.operations.flatMap((operation) => (operation.kind === 'charge' ? [chargeRow(operation, step, result)] : [])),
  );
  let charge = 0;
  const lines = step.operations.flatMap((operation): readonly string[] => {
    const all = cautions.get(operationId(operation)) ?? operation.before;
    const ofStep = operation === step.operations[0] ? ofStepItself(step) : [];
    const found = [...ofStep, ...all.filter(({ code }) => code !== RUNS_NOT_READ)];
    const before = [
      ...warningsOf(operation).map((said) => `     ! ${said}`),
      ...allBefore(found, benchBefore(bench, operationId(operation), found), sentence).map(
        ({ level, words }) => `     ${level === 'number' ? '·' : '!'} ${words}`,
      ),
    ];
    if (operation.kind === 'hold')
      return [
        ...before,
        `     hold until ${[operation.hold.until, heldText(operation.hold.temperature ?? null)].filter(Boolean).join(', ')}`,
        ...(operation.hold.stands ? [`     ${planWords.step.stands(keepsText(operation.hold.stands))}`] : []),
      ];
    if (operation.kind === 'removal') return [...before, `     ${removalText(operation.removal, name)}`];
    charge += 1;
    return [...before, rows[charge - 1] ?? ''];
  });
  const keeps = step.keeps ? [`     ${name(step.product.material)} keeps ${keepsText(step.keeps)}`] : [];
  return [...head, ...lines, ...keeps, ...benchText(bench)].join('\n');
}

/** What has no harmonised entry: that it is not listed does not make it harmless. */
function unlistedText(step: StepPlan, name: (key: string) => string): readonly string[] {
  const charged = step.operations.flatMap((one) =>
    one.kind === 'charge' && one.hazards === null && one.supply.kind !== 'utility' ? [name(one.material)] : [],
  );
  const formed = step.formed.flatMap((one) => (one.hazards === null ? [paperWords.formed(name(one.material))] : []));
  const names = [...new Set([...charged, ...formed])];
  return names.length === 0 ? [] : [`   ${paperWords.unlisted(names.join(', '))}`];
}

function benchLines(bench: readonly Pick<BenchSection, 'kind' | 'lines'>[]): string[] {
  return levelled(bench.flatMap(({ kind, lines }) => linesText(kind, lines)));
}

function levelled(lines: ReturnType<typeof linesText>): string[] {
  return lines.map(({ level, words }) => `${level === 'caution' ? '!' : '·'} ${words}`);
}

function heldText(window: TemperatureWindow | null): string {
  if (!window) return '';
  return 'bath' in window ? bathText(window.bath, (from, to) => windowText({ from, to })) : `at ${windowText(window)}`;
}

/** Bench numbers of the whole batch, by section. */
function benchText(bench: readonly BenchSection[]): string[] {
  const blocks = bench.flatMap((section) => {
    const lines = benchLines([{ kind: section.kind, lines: section.lines.filter((line) => line.operation === null) }]);
    const assumed = assumptionsText(section);
    if (lines.length === 0 && assumed === '') return [];
    const last = assumed === '' ? [] : [`       ${benchNumberWords.assumed} ${assumed}`];
    return [`     ${sectionWords(section.kind).title}`, ...lines.map((line) => `       ${line}`), ...last];
  });
  if (blocks.length === 0) return [];
  return [`   ${benchNumberWords.heading}, ${benchNumberWords.perBatch}. ${benchNumberWords.screening}`, ...blocks];
}

function batchText(step: StepPlan): string {
  const { count, basisGrams, stages } = step.batches;
  const vessels = [...new Set(stages.flatMap((stage) => (stage.vessel ? [stage.vessel.name] : [])))].join(', then ');
  const batches = count === 1 ? 'one batch' : `${count} batches of ${shown(basisGrams)}`;
  const { lostGrams, shortestAddition } = step.batches;
  const lost = lostGrams ? `; ${shown(lostGrams)} of product stays behind in each` : '';
  const slow = shortestAddition ? `; addition over ${shown(shortestAddition)} at least for the cooling (a screening figure)` : '';
  const unknown = stages.some(({ volume }) => volume.value === 0) ? `, ${planWords.batches.volumeUnknown}` : '';
  return `${vessels === '' ? `${batches}${unknown}` : `${batches} in ${vessels}`}${lost}${slow}`;
}

function chargeRow(charge: ChargePlan, step: StepPlan, result: PlanResult): readonly string[] {
  const { perBatch, portions, endPoint, atMost } = charge;
  const each = portions > 1 ? `in ${portions} portions` : '';
  const neutral = charge.neutralises ? neutraliseText(charge.neutralises) : '';
  const at = heldText(charge.temperature);
  const over = charge.overMinutes === null ? '' : `over ${minutesText(charge.overMinutes)}`;
  const until = endPoint ? `until ${endPoint}${atMost ? `, at most ${atMost} times as much` : ''}` : '';
  return [
    charge.stage,
    result.materials[charge.material]?.name ?? charge.material,
    charge.formWords === 'neat' ? '' : charge.formWords,
    shown(charge.moles),
    charge.equivalents ? `${formatSignificant(charge.equivalents.value, 4)} eq` : '',
    step.batches.count > 1 ? `${taken(charge.total)} (${step.batches.count} × ${taken(perBatch)})` : taken(charge.total),
    [supplyText(charge.supply, step, result), carriedText(charge), each, at, over, neutral, until, withDevice(perBatch)]
      .filter(Boolean)
      .join(', '),
  ];
}

/** What must be known before an operation: the procedure's own caution and limit, then the program's. */
function warningsOf(operation: OperationPlan): readonly string[] {
  const own =
    operation.kind === 'charge'
      ? operation
      : operation.kind === 'hold'
        ? operation.hold
        : { ...operation.removal, limit: undefined };
  const limit = own.limit ? [planWords.step.limit(own.limit.celsius, own.limit.side ?? 'above', own.limit.action)] : [];
  return [...(own.caution ? [own.caution] : []), ...limit];
}

function carriedText({ carried }: ChargePlan): string {
  if (!carried) return '';
  return `in ${shown(carried.millilitres)} of ${carried.name} that comes along`;
}

function removalText(removal: Removal, name: (key: string) => string): string {
  const takes = removal.takes.map(({ what, percent }) => `${name(what)} (${percent} %)`).join(', ');
  return [`${removal.how}${takes === '' ? '' : `: ${takes}`}`, removal.wasteTo ? `to “${removal.wasteTo}”` : '']
    .filter(Boolean)
    .join(', ');
}

function withDevice(take: Take): string {
  const device = deviceWords(take);
  return device === '' ? '' : `with ${device}`;
}

function taken(take: Take): string {
  if (take.by === 'unknown') return 'not known';
  const { text, unit } = readingParts(take.target, take.unit, take.decimals, '.');
  return `${text} ${unit}`;
}

function supplyText(supply: Supply, step: StepPlan, result: PlanResult): string {
  const lots = 'bottles' in supply ? supply.bottles.map((one) => `lot ${one.lot || one.bottle}`).join(' + ') : '';
  switch (supply.kind) {
    case 'bottles':
      return lots;
    case 'step': {
      const maker = result.steps.find((one) => one.id === supply.step);
      return [`from step ${maker?.number ?? step.number}`, lots].filter(Boolean).join(' + ');
    }
    case 'make up':
      return [lots, 'make up'].filter(Boolean).join(' + ');
    case 'utility':
      return 'tap';
    case 'short':
      return [lots, supply.status].filter(Boolean).join(', ');
  }
}

function uncountedText(one: ReturnType<typeof uncountedOf>[number]): string {
  return uncounted(withForm(one), one.step);
}

function fetchRow(line: FetchLine): readonly string[] {
  const form = line.formWords === 'neat' ? '' : line.formWords;
  const short = line.short && line.short.value > 0 ? `short by ${shown(line.short)}` : '';
  return [line.name, form, `need ${shown(line.peak)}`, `on hand ${onHandText(line, '.')}`, line.status, short, line.place];
}

function makeUpText(one: MakeUp, result: PlanResult): string {
  const name = result.materials[one.material]?.name ?? one.material;
  const taken = one.parts.map(({ from, fromWords, takeGrams, takeMillilitres }) => {
    const volume = takeMillilitres ? ` (${shown(takeMillilitres)})` : '';
    return `${shown(takeGrams)}${volume} of ${fromWords}, lot ${from.lot || from.bottle}`;
  });
  const gives = one.millilitres ? shown(one.millilitres) : shown(one.grams);
  return `${name} ${one.formWords}: ${taken.join(' and ')}, with ${shown(one.waterGrams)} of water, gives ${gives}, ${makeUpExcess(one.excessPercent)}`;
}

function shown(figure: Figure | null): string {
  if (!figure || !Number.isFinite(figure.value)) return '';
  const { text, unit } = formatAmount(figure);
  return `${text} ${unit}`.trim();
}

/** Columns padded to the widest cell; the last column is left as it is. */
function table(rows: readonly (readonly string[])[]): readonly string[] {
  const columns = rows.reduce((most, row) => Math.max(most, row.length), 0);
  const widths = Array.from({ length: columns }, (_, column) =>
    rows.reduce((width, row) => Math.max(width, row[column]?.length ?? 0), 0),
  );
  return rows.map((row) => `   ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd());
}
