import { parseNumberAlone, parseQuantity } from '../quantity/parse.ts';
import { labWords as words } from '../words/lab-words.ts';
import type { Settings } from './settings.ts';

/** A list of the laboratory read from its text, or the character that is wrong. */
export type LabReading<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly at: number; readonly words: string };

/** Parts of a line between semicolons, each with its place in the whole text. */
interface Part {
  readonly text: string;
  readonly at: number;
}

const MASSES = ['µg', 'mg', 'g', 'kg'];
const VOLUMES = ['µL', 'mL', 'L'];
const LONGEST_NAME = 200;

class Wrong extends Error {
  readonly at: number;
  constructor(at: number, message: string) {
    super(message);
    this.at = at;
  }
}

/** Vessels, one a line: name; nominal volume; heat transfer; cooled surface; coolant, the last three where they are known. */
export function readVessels(text: string): LabReading<Settings['vessels']> {
  return readLines(text, 200, (parts, at) => {
    const [name, nominal, transfer, area, coolant] = parts;
    if (!name || !nominal || (parts.length !== 2 && parts.length !== 5)) throw new Wrong(at, words.needs(words.parts.vessels));
    const vessel = { name: nameOf(name), nominal: quantity(nominal, VOLUMES) };
    if (!transfer || !area || !coolant) return vessel;
    const cooling = {
      wattsPerSquareMetreKelvin: plainNumber(transfer, /W\s*\/\s*\(?\s*m(?:²|2)\s*[·*]?\s*K\s*\)?/, { least: 1e-6, most: 1e6 }),
      squareMetres: plainNumber(area, /m(?:²|2)/, { least: 1e-6, most: 1e6 }),
      coolantCelsius: plainNumber(coolant, /°?\s*C/, { least: -200, most: 400 }),
    };
    return { ...vessel, cooling };
  });
}

/** Balances, one a line: name; readability; largest load; s = repeatability. Internal unit g. */
export function readBalances(text: string): LabReading<Settings['balances']> {
  return readLines(text, 50, (parts, at) => {
    const [name, readability, largest, spread] = parts;
    if (!name || !readability || !largest || parts.length > 4) throw new Wrong(at, words.needs(words.parts.balances));
    const read = quantity(readability, MASSES);
    if (read >= quantity(largest, MASSES)) throw new Wrong(readability.at, words.readingTooLarge);
    const lead = /^\s*s\s*=/.exec(spread?.text ?? '')?.[0].length ?? 0;
    return {
      name: nameOf(name),
      readability: read,
      largest: quantity(largest, MASSES),
      ...(spread ? { repeatability: quantity({ text: spread.text.slice(lead), at: spread.at + lead }, MASSES) } : {}),
    };
  });
}

/** Measures, one a line: name; nominal volume; what can be read; standard and class. Internal unit mL. */
export function readMeasures(text: string): LabReading<Settings['measures']> {
  return readLines(text, 100, (parts, at) => {
    const [name, nominal, readability, standard] = parts;
    if (!name || !nominal || !readability || parts.length > 4) throw new Wrong(at, words.needs(words.parts.measures));
    const read = quantity(readability, VOLUMES);
    if (read > quantity(nominal, VOLUMES)) throw new Wrong(readability.at, words.readingTooLarge);
    return {
      name: nameOf(name),
      nominal: quantity(nominal, VOLUMES),
      readability: read,
      ...(standard && standard.text.trim() !== '' ? { standard: standard.text.trim() } : {}),
    };
  });
}

type Limits = Pick<Settings, 'fill' | 'tolerance' | 'strengthMatchPercent' | 'coolingWatts'>;

/** A written per cent that differs from what stands by less than this is the same, only shown shorter. */
const SHOWN_SHORTER = 0.05;

/** Limits, one a line: name; number. What is left out stays as it stands, but cooling is then not known. */
export function readLimits(text: string, now: Limits): LabReading<Limits> {
  const given = new Map<string, number>();
  const read = readLines(text, 7, (parts, at) => {
    const [name, value] = parts;
    const known = Object.values(words.names).find((one) => one === name?.text.trim());
    if (!known) throw new Wrong(at, words.unknownLimit(Object.values(words.names).join(', ')));
    if (!value || parts.length > 2) throw new Wrong(at, words.needs(words.parts.limits));
    given.set(known, limit(value, known !== words.names.cooling));
    return known;
  });
  if (!read.ok) return read;
  const { names } = words;
  const percent = (name: string, stands: number): number => {
    const typed = given.get(name);
    return typed === undefined || Math.abs(typed - stands) < SHOWN_SHORTER ? stands : typed;
  };
  const part = (name: string, stands: number): number => {
    const typed = percent(name, stands * 100);
    return typed === stands * 100 ? stands : typed / 100;
  };
  const fill = {
    most: part(names.most, now.fill.most),
    lively: part(names.lively, now.fill.lively),
    least: part(names.least, now.fill.least),
  };
  if (fill.least >= Math.min(fill.most, fill.lively)) return { ok: false, at: text.indexOf(names.least), words: words.order };
  const watts = given.get(names.cooling);
  return {
    ok: true,
    value: {
      fill,
      tolerance: {
        reagentPercent: percent(names.reagent, now.tolerance.reagentPercent),
        solventPercent: percent(names.solvent, now.tolerance.solventPercent),
      },
      strengthMatchPercent: Math.min(50, percent(names.strength, now.strengthMatchPercent)),
      ...(watts === undefined ? {} : { coolingWatts: watts }),
    },
  };
}

/** Limits as one would type them. */
export function writeLimits({ fill, tolerance, strengthMatchPercent, coolingWatts }: Limits): string {
  const { names } = words;
  const shown = (value: number): string => `${Number(value.toFixed(1))} %`;
  return [
    `${names.most}; ${shown(fill.most * 100)}`,
    `${names.lively}; ${shown(fill.lively * 100)}`,
    `${names.least}; ${shown(fill.least * 100)}`,
    `${names.reagent}; ${shown(tolerance.reagentPercent)}`,
    `${names.solvent}; ${shown(tolerance.solventPercent)}`,
    `${names.strength}; ${shown(strengthMatchPercent)}`,
    ...(coolingWatts === undefined ? [] : [`${names.cooling}; ${plain(coolingWatts)} W`]),
  ].join('\n');
}

/** Vessels as one would type them. */
export function writeVessels(vessels: Settings['vessels']): string {
  return vessels
    .map(({ name, nominal, cooling }) => {
      const cooled = cooling
        ? `; ${plain(cooling.wattsPerSquareMetreKelvin)} W/(m²·K); ${plain(cooling.squareMetres)} m²; ${plain(cooling.coolantCelsius)} °C`
        : '';
      return `${name}; ${volume(nominal)}${cooled}`;
    })
    .join('\n');
}

/** Balances as one would type them. */
export function writeBalances(balances: Settings['balances']): string {
  return balances
    .map((one) => {
      const spread = one.repeatability === undefined ? '' : `; s = ${plain(one.repeatability)} g`;
      return `${one.name}; ${plain(one.readability)} g; ${plain(one.largest)} g${spread}`;
    })
    .join('\n');
}

/** Measures as one would type them. */
export function writeMeasures(measures: Settings['measures']): string {
  return measures
    .map((one) => {
      const standard = one.standard === undefined ? '' : `; ${one.standard}`;
      return `${one.name}; ${volume(one.nominal)}; ${volume(one.readability)}${standard}`;
    })
    .join('\n');
}

/** Reads line by line; empty lines are left out. Stops at the first that is wrong. */
function readLines<T>(text: string, most: number, read: (parts: readonly Part[], at: number) => T): LabReading<T[]> {
  const found: T[] = [];
  let at = 0;
  try {
    for (const line of text.split('\n')) {
      if (line.trim() !== '') found.push(read(partsOf(line, at), at));
      if (found.length > most) throw new Wrong(at, words.tooMany);
      at += line.length + 1;
    }
    if (found.length === 0) throw new Wrong(0, words.tooFew);
    return { ok: true, value: found };
  } catch (error) {
    if (!(error instanceof Wrong)) throw error;
    return { ok: false, at: error.at, words: error.message };
  }
}

function partsOf(line: string, from: number): readonly Part[] {
  let at = from;
  return line.split(';').map((text) => {
    const part = { text, at };
    at += text.length + 1;
    return part;
  });
}

function nameOf({ text, at }: Part): string {
  const name = text.trim();
  if (name === '' || name.length > LONGEST_NAME) throw new Wrong(at, words.needsName);
  return name;
}

function quantity({ text, at }: Part, units: readonly string[]): number {
  const read = parseQuantity(text, units);
  if (!read.ok) throw new Wrong(at + read.at, read.words);
  const value = Number((read.base * read.portions).toPrecision(12));
  if (!(value > 0)) throw new Wrong(at + text.search(/\d/), words.zero);
  return value;
}

/** A number with a unit that may be left out, inside a range. */
function plainNumber(
  { text, at }: Part,
  unit: RegExp,
  { least, most }: { readonly least: number; readonly most: number },
): number {
  const bare = text.replace(new RegExp(String.raw`\s*(?:${unit.source})\s*$`), '');
  const sign = /^\s*[-−]/.test(bare) && least < 0 ? -1 : 1;
  const read = parseNumberAlone(sign < 0 ? bare.replace(/[-−]/, ' ') : bare);
  if (!read.ok) throw new Wrong(at + read.at, `${read.words}; ${words.needs(words.parts.vessels)}`);
  const value = sign * read.value;
  if (!(value >= least && value <= most)) throw new Wrong(at, words.between(least, most));
  return value;
}

function limit({ text, at }: Part, isPercent: boolean): number {
  const unit = isPercent ? /\s*%\s*$/ : /\s*W\s*$/;
  const read = parseNumberAlone(text.replace(unit, ''));
  if (!read.ok) throw new Wrong(at + read.at, read.words);
  if (!(read.value > 0)) throw new Wrong(at, words.zero);
  if (isPercent && read.value > 100) throw new Wrong(at, words.percentRange);
  return read.value;
}

function volume(millilitres: number): string {
  return millilitres >= 10_000 ? `${plain(millilitres / 1000)} L` : `${plain(millilitres)} mL`;
}

function plain(value: number): string {
  return String(Number(value.toPrecision(12)));
}
