import { tidyCas } from '../matter/cas.ts';
import type { Material } from '../matter/material.ts';
import type { ParseProblem } from '../quantity/parse.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { put } from './edited.ts';
import { acidityText, readAcidity } from './acidity-text.ts';
import { readNumber, type Written, wrong } from './text-field.ts';

/** One entry of a material that is typed as text; the structure has an editor of its own. */
export interface MaterialField {
  readonly name:
    | 'name'
    | 'formula'
    | 'cas'
    | 'state'
    | 'density'
    | 'solidDensity'
    | 'acidity'
    | 'utility'
    | 'synonyms'
    | 'hazards'
    | 'note';
  readonly kind: 'line' | 'lines' | 'choice';
  readonly read: (of: Material) => string;
  readonly write: (of: Material, text: string) => Written<Material>;
}

const DENSITY = /^\s*(.+?)\s*(?:g\s*\/\s*mL)?\s*(?:(?:at|,)\s*([-−]?\d+(?:[.,]\d+)?)\s*°\s*C)?\s*$/;

function readDensity(text: string): { readonly ok: true; readonly value: NonNullable<Material['density']> } | ParseProblem {
  const found = DENSITY.exec(text);
  const read = readNumber(found?.[1] ?? '', { least: 0.0001, most: 25, unit: 'g/mL' });
  if (!read.ok) return read;
  const celsius = found?.[2] === undefined ? {} : { celsius: Number(found[2].replace(',', '.').replace('−', '-')) };
  return { ok: true, value: { gramsPerMillilitre: read.value, ...celsius } };
}

function densityText(of: Material): string {
  if (!of.density) return '';
  const { gramsPerMillilitre, celsius } = of.density;
  return celsius === undefined ? `${gramsPerMillilitre} g/mL` : `${gramsPerMillilitre} g/mL at ${celsius} °C`;
}

function text(name: 'name' | 'formula' | 'note', kind: 'line' | 'lines', needed = false): MaterialField {
  return {
    name,
    kind,
    read: (of) => of[name] ?? '',
    write: (of, typed) => {
      const said = typed.trim();
      if (said === '') return needed ? wrong(words.needed) : { ok: true, value: put(of, name, undefined) };
      return { ok: true, value: { ...of, [name]: said } };
    },
  };
}

function list(name: 'synonyms' | 'hazards', parted: RegExp): MaterialField {
  return {
    name,
    kind: 'line',
    read: (of) => (of[name] ?? []).join('; '),
    write: (of, typed) => {
      const all = typed
        .split(parted)
        .map((one) => one.trim())
        .filter((one) => one !== '');
      return { ok: true, value: put(of, name, all.length === 0 ? undefined : all) };
    },
  };
}

/** What a material of a route is described by, in the order it is asked for. */
export const MATERIAL_FIELDS: readonly MaterialField[] = [
  text('name', 'line', true),
  text('formula', 'line'),
  {
    name: 'cas',
    kind: 'line',
    read: (of) => of.cas ?? '',
    write: (of, text) => {
      const cas = tidyCas(text);
      if (cas === '') return { ok: true, value: put(of, 'cas', undefined) };
      return /^\d{2,7}-\d{2}-\d$/.test(cas) ? { ok: true, value: { ...of, cas } } : wrong(words.cas);
    },
  },
  {
    name: 'state',
    kind: 'choice',
    read: (of) => of.state ?? '',
    write: (of, text) => ({
      ok: true,
      value: put(of, 'state', text === 'solid' || text === 'liquid' || text === 'gas' ? text : undefined),
    }),
  },
  {
    name: 'density',
    kind: 'line',
    read: densityText,
    write: (of, text) => {
      if (text.trim() === '') return { ok: true, value: put(of, 'density', undefined) };
      if (text.trim() === densityText(of)) return { ok: true, value: of };
      const read = readDensity(text);
      return read.ok ? { ok: true, value: put(of, 'density', read.value) } : read;
    },
  },
  {
    name: 'solidDensity',
    kind: 'line',
    read: (of) => (of.solidDensity === undefined ? '' : `${of.solidDensity} g/mL`),
    write: (of, typed) => {
      if (typed.trim() === '') return { ok: true, value: put(of, 'solidDensity', undefined) };
      const read = readNumber(typed, { least: 0.0001, most: 25, unit: 'g/mL' });
      return read.ok ? { ok: true, value: { ...of, solidDensity: read.value } } : read;
    },
  },
  {
    name: 'acidity',
    kind: 'line',
    read: (of) => (of.acidity ? acidityText(of.acidity) : ''),
    write: (of, typed) => {
      if (typed.trim() === '') return { ok: true, value: put(of, 'acidity', undefined) };
      const read = readAcidity(typed);
      return read.ok ? { ok: true, value: { ...of, acidity: read.value } } : read;
    },
  },
  {
    name: 'utility',
    kind: 'choice',
    read: (of) => (of.utility ? 'yes' : ''),
    write: (of, typed) => ({ ok: true, value: put(of, 'utility', typed === 'yes' ? true : undefined) }),
  },
  list('synonyms', /;/),
  list('hazards', /[;,\s]+/),
  text('note', 'lines'),
];
