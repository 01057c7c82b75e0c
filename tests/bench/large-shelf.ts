// A large shelf from a seed: the same bottles and ledger lines every time, for measuring and for looking.
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import type { ReferenceRows } from '../../src/core/reference-rows.ts';
import type { Database } from '../../src/main/store/database.ts';
import { type NewBottle, putBottle } from '../../src/main/store/bottles.ts';

/** Numbers from 0 to 1, the same for a seed: mulberry32. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

const GROUPS = [
  'bromo',
  'chloro',
  'fluoro',
  'iodo',
  'nitro',
  'amino',
  'hydroxy',
  'methoxy',
  'methyl',
  'ethyl',
  'cyano',
  'formyl',
];
const PARENTS: readonly (readonly [name: string, formula: string])[] = [
  ['benzoic acid', 'C7H6O2'],
  ['benzaldehyde', 'C7H6O'],
  ['pyridine', 'C5H5N'],
  ['acetophenone', 'C8H8O'],
  ['aniline', 'C6H7N'],
  ['anisole', 'C7H8O'],
  ['toluene', 'C7H8'],
  ['phenol', 'C6H6O'],
  ['quinoline', 'C9H7N'],
  ['indole', 'C8H7N'],
  ['thiophene', 'C4H4S'],
  ['cinnamic acid', 'C9H8O2'],
];

/** The built-in table's materials with a few other names each, and some two thousand substituted ones without a CAS number. */
export function manyMaterials(rows: ReferenceRows): readonly Material[] {
  const known = rows.materials.map(({ name, formula, cas }): Material => {
    const synonyms = rows.synonyms
      .filter((one) => one.cas === cas)
      .map((one) => one.synonym)
      .slice(0, 3);
    return { name, formula, cas, ...(synonyms.length === 0 ? {} : { synonyms }) };
  });
  const made = PARENTS.flatMap(([parent, formula]) =>
    GROUPS.flatMap((one) => [2, 3, 4].flatMap((at) => GROUPS.slice(0, 5).map((other) => `${at}-${one}-5-${other}${parent}`))).map(
      (name): Material => ({ name, formula }),
    ),
  );
  return [...known, ...made];
}

const FORMS: readonly Form[] = [
  { kind: 'neat' },
  { kind: 'neat', assayPercent: 98 },
  { kind: 'neat', assayPercent: 99.5 },
  { kind: 'solution', strength: { value: 1, basis: 'mol/L' } },
  { kind: 'solution', strength: { value: 35, basis: '% w/w' } },
  { kind: 'unknown' },
];
const SUPPLIERS = ['north store', 'central store', 'Hartmann', 'Lindqvist', 'Orsini', 'gift of the teaching laboratory', ''];
const ROOMS = ['Acids cabinet', 'Solvent store', 'Cold room', 'Freezer', 'Dry box', 'Bench', 'Fume cupboard', 'Balance room'];
const DAY = 86_400_000;

interface Size {
  readonly bottles: number;
  readonly lines: number;
  readonly seed: number;
  /** ISO date around which the dates lie. */
  readonly today: string;
}

/** Fills an empty shelf. Only inside a write. */
export function fillLargeShelf(database: Database, rows: ReferenceRows, { bottles, lines, seed, today }: Size): void {
  const chance = seeded(seed);
  const materials = manyMaterials(rows);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)] as T;
  const day = (from: number, to: number): string =>
    new Date(Date.parse(today) + Math.round(from + chance() * (to - from)) * DAY).toISOString().slice(0, 10);
  const make = (number: number): NewBottle => {
    // A few materials fill half of the shelf, as they do.
    const common = chance() < 0.5;
    const holds = common ? (materials[Math.floor(chance() ** 3 * 120)] as Material) : pick(materials);
    const form = chance() < 0.7 ? (FORMS[0] as Form) : pick(FORMS);
    return {
      id: `B-${number}`,
      holds,
      form,
      left: 1000,
      unit: form.kind === 'solution' ? 'mL' : 'g',
      lot: `${pick(['L', 'N', 'K', 'BX'])}${Math.floor(chance() * 60_000)}`,
      place: `${pick(ROOMS)} ${1 + Math.floor(chance() * 4)}, shelf ${pick(['A', 'B', 'C', 'D'])}${1 + Math.floor(chance() * 12)}`,
      supplier: pick(SUPPLIERS),
      received: day(-2000, -10),
      ...(chance() < 0.6 ? { useBy: day(-200, 900) } : {}),
      ...(chance() < 0.03 ? { heldBack: true } : {}),
    };
  };
  const at = `${today}T08:00:00.000Z`;
  const made = Array.from({ length: bottles }, (_none, at) => at + 1).map((number) =>
    putBottle(database, make(number), 'received', at),
  );
  // One line per bottle is there already. Each takes out little, so that nothing goes below zero; some bottles are emptied.
  const perBottle = Math.floor(lines / bottles) - 1;
  for (const bottle of made) {
    const empties = chance() < 0.05;
    for (let line = 0; line < perBottle; line++) {
      const last = empties && line === perBottle - 1;
      const change = last
        ? -(database.get<{ left: number }>('SELECT amount_left AS left FROM bottle WHERE id = ?', [bottle])?.left ?? 1)
        : -Math.ceil(chance() * 90_000_000);
      database.run("INSERT INTO ledger (bottle, kind, change, reason, at) VALUES (?, 'used', ?, ?, ?)", [
        bottle,
        change,
        `batch ${line + 1}`,
        at,
      ]);
    }
  }
}
