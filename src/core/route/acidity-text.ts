import type { Material } from '../matter/material.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { type Written, wrong } from './text-field.ts';

type Acidity = NonNullable<Material['acidity']>;

/**
 * Acidity in one line: "acid 2.16; 7.21; 12.3" charged with all its protons, "base 10.7" charged with none, "2.35; 9.78
 * with 1 proton" in between, "neither".
 */
export function acidityText({ pKa, protons }: Acidity): string {
  const list = pKa.join('; ');
  if (pKa.length === 0) return 'neither';
  if (protons === pKa.length) return `acid ${list}`;
  return protons === 0 ? `base ${list}` : `${list} with ${protons} ${protons === 1 ? 'proton' : 'protons'}`;
}

const FORM = /^\s*(acid|base)?\s*(?:pKa)?\s*([-−\d.,;\s]+?)(?:\s+with\s+(\d+)\s+protons?)?\s*$/i;

/** Reads acidity as `acidityText` writes it; several pKa are parted by ";", or by a comma and a space. */
export function readAcidity(text: string): Written<Acidity> {
  if (/^\s*neither\s*$/i.test(text)) return { ok: true, value: { pKa: [], protons: 0 } };
  const found = FORM.exec(text);
  const parts = (found?.[2] ?? '').split(/;|,\s/).map((one) => one.trim().replace('−', '-').replace(',', '.'));
  const pKa = parts.map(Number);
  const kind = found?.[1]?.toLowerCase();
  const said = found?.[3] === undefined ? null : Number(found[3]);
  const protons = said ?? (kind === 'acid' ? pKa.length : 0);
  const clear = (kind !== undefined) !== (said !== null) && parts.every((one) => /^-?\d+(?:\.\d+)?$/.test(one));
  const inside = pKa.length <= 8 && protons <= pKa.length && pKa.every((one) => one >= -20 && one <= 50);
  return found && clear && inside ? { ok: true, value: { pKa, protons } } : wrong(words.acidity);
}
