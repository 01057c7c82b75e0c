import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import type { Step, StepHeat } from './route.ts';
import { materialNamedIn } from './takes-text.ts';
import { type FieldContext, minutesText, readMinutes, readNumber, type TextField, wrong, type Written } from './text-field.ts';

/** The step with its heat as it is now to be; an empty one goes. */
function withHeat<K extends keyof StepHeat>(step: Step, key: K, value: StepHeat[K] | undefined): Step {
  const heat = put<StepHeat, K>(step.heat ?? {}, key, value);
  return put(step, 'heat', Object.keys(heat).length === 0 ? undefined : heat);
}

interface Range {
  readonly least: number;
  readonly most: number;
  readonly unit: string;
}
type NumberKey = 'kilojoulesPerMole' | 'accumulationPercent' | 'highestCelsius' | 'dayToRunawayCelsius';

function numberOfHeat(name: string, key: NumberKey, range: Range, said = ''): TextField<Step> {
  return {
    name,
    kind: 'line',
    read: ({ heat }) => (heat?.[key] === undefined ? '' : `${heat[key]} ${range.unit}`),
    write: (of, text) => {
      if (text.trim() === '') return { ok: true, value: withHeat(of, key, undefined) };
      const read = readNumber(text, range);
      if (!read.ok) return said === '' ? read : { ...read, words: `${read.words}; ${said}` };
      return { ok: true, value: withHeat(of, key, read.value) };
    },
  };
}

/** The species a heat is per mole of: the basis, or anything else of the equation. */
const per: TextField<Step> = {
  name: 'heatPer',
  kind: 'choice',
  choices: ({ equation, basis }, { route }) => {
    const others = [...equation.uses, ...equation.makes].map((term) => term.material).filter((key) => key !== basis);
    const named = (key: string): string => route.materials[key]?.name ?? key;
    return [
      { value: '', words: words.perBasis(named(basis)) },
      ...[...new Set(others)].map((key) => ({ value: key, words: named(key) })),
    ];
  },
  read: ({ heat }) => heat?.per ?? '',
  write: (of, text) => {
    const terms = [...of.equation.uses, ...of.equation.makes];
    if (text !== '' && !terms.some((term) => term.material === text)) return wrong(words.needed);
    return { ok: true, value: withHeat(of, 'per', text === '' ? undefined : text) };
  },
};

/** A row of the table of typical heats, with its spread. */
const typical: TextField<Step> = {
  name: 'heatTypical',
  kind: 'choice',
  choices: ({ heat }, { typicalHeats = [] }) => {
    const rows = typicalHeats.map(({ name, per: each, least, most }) => ({
      value: name,
      words: words.typical(name, each, least, most),
    }));
    const own = heat?.typical;
    const gone = own !== undefined && !rows.some((row) => row.value === own) ? [{ value: own, words: own }] : [];
    return [{ value: '', words: words.noTypical }, ...gone, ...rows];
  },
  read: ({ heat }) => heat?.typical ?? '',
  write: (of, text, { typicalHeats = [] }) => {
    const known = text === '' || text === of.heat?.typical || typicalHeats.some((row) => row.name === text);
    return known ? { ok: true, value: withHeat(of, 'typical', text === '' ? undefined : text) } : wrong(words.needed);
  },
};

const TRIAL = [
  { least: 1e-6, most: 1e6, unit: 'mol' },
  { least: 1e-6, most: 1e9, unit: 'g' },
  { least: -1000, most: 1000, unit: 'K' },
  { least: 1e-6, most: 20, unit: 'J/(g·K)' },
] as const;

/** A trial, as it is typed: "0.02 mol; 100 g; 12 K; 2 J/(g·K)". */
const trial: TextField<Step> = {
  name: 'heatTrial',
  kind: 'line',
  read: ({ heat }) => {
    if (!heat?.trial) return '';
    const { moles, grams, riseKelvin, joulesPerGramKelvin } = heat.trial;
    return [moles, grams, riseKelvin, joulesPerGramKelvin].map((value, at) => `${value} ${TRIAL[at]?.unit}`).join('; ');
  },
  write: (of, text) => {
    if (text.trim() === '') return { ok: true, value: withHeat(of, 'trial', undefined) };
    const parts = text.split(';');
    if (parts.length !== TRIAL.length) return wrong(words.trial);
    const read = TRIAL.map((range, at) => readNumber(parts[at] ?? '', range));
    const bad = read.findIndex((one) => !one.ok);
    const problem = read[bad];
    if (problem && !problem.ok)
      return wrong(`${problem.words}; ${words.trial}`, parts.slice(0, bad).join(';').length + (bad > 0 ? 1 : 0));
    const [moles = 0, grams = 0, riseKelvin = 0, joulesPerGramKelvin = 0] = read.map((one) => (one.ok ? one.value : 0));
    return { ok: true, value: withHeat(of, 'trial', { moles, grams, riseKelvin, joulesPerGramKelvin }) };
  },
};

const FORMATION = /^\s*(\S.*\S|\S)\s*:\s*(.+)$/;

/** Heats of formation, one a line: "benzil: -153.9 kJ/mol". */
const formation: TextField<Step> = {
  name: 'heatFormation',
  kind: 'lines',
  read: ({ heat }, { route }) =>
    Object.entries(heat?.formation ?? {})
      .map(([key, value]) => `${route.materials[key]?.name ?? key}: ${value} kJ/mol`)
      .join('\n'),
  write: (of, text, context) => {
    if (text.trim() === '') return { ok: true, value: withHeat(of, 'formation', undefined) };
    const found: [string, number][] = [];
    let at = 0;
    for (const line of text.split('\n')) {
      const read = line.trim() === '' ? null : readFormation(line, of, context);
      if (read && !read.ok) return { ...read, at: at + read.at };
      if (read) found.push(read.value);
      at += line.length + 1;
    }
    return { ok: true, value: withHeat(of, 'formation', Object.fromEntries(found)) };
  },
};

function readFormation(line: string, { equation }: Step, { route }: FieldContext): Written<[string, number]> {
  const found = FORMATION.exec(line);
  const key = found ? materialNamedIn(found[1] ?? '', route) : null;
  if (!found || key === null || ![...equation.uses, ...equation.makes].some((term) => term.material === key))
    return wrong(words.formation);
  const read = readNumber(found[2] ?? '', { least: -1e6, most: 1e6, unit: 'kJ/mol' });
  return read.ok ? { ok: true, value: [key, read.value] } : wrong(`${read.words}; ${words.formation}`);
}

/** The heat of a step's reaction, where it is from, and what is known of its running away. */
export const HEAT_FIELDS: readonly TextField<Step>[] = [
  numberOfHeat('heat', 'kilojoulesPerMole', { least: 0.001, most: 1e9, unit: 'kJ/mol' }, words.heat),
  per,
  typical,
  trial,
  formation,
  {
    name: 'heatMinutes',
    kind: 'line',
    read: ({ heat }) => minutesText(heat?.longestMinutes),
    write: (of, text) => {
      if (text.trim() === '') return { ok: true, value: withHeat(of, 'longestMinutes', undefined) };
      const read = readMinutes(text);
      return read.ok ? { ok: true, value: withHeat(of, 'longestMinutes', read.value) } : read;
    },
  },
  numberOfHeat('accumulation', 'accumulationPercent', { least: 0, most: 100, unit: '%' }),
  numberOfHeat('highestCelsius', 'highestCelsius', { least: -200, most: 1000, unit: '°C' }),
  numberOfHeat('dayToRunaway', 'dayToRunawayCelsius', { least: -200, most: 1000, unit: '°C' }),
  {
    name: 'heatSource',
    kind: 'line',
    read: ({ heat }) => heat?.source ?? '',
    write: (of, text) => ({ ok: true, value: withHeat(of, 'source', text.trim() === '' ? undefined : text.trim()) }),
  },
];
