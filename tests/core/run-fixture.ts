import { canonicalJson } from '../../src/core/canonical-json.ts';
import type { Recorded, RunEntry } from '../../src/core/run/entry.ts';
import type { RunCharge, RunSheet } from '../../src/core/run/run-sheet.ts';
import { whyNotWritten } from '../../src/core/run/state.ts';

/** A charge by mass, 10.00 g ± 1 %, unless said otherwise. */
export function charge(more: Partial<RunCharge> & { readonly id: string }): RunCharge {
  return {
    material: more.id,
    name: more.id,
    isBasis: false,
    by: 'mass',
    unit: 'g',
    decimals: 2,
    exact: 10,
    target: 10,
    low: 9.9,
    high: 10.1,
    portions: 1,
    scales: true,
    gramsPerMillilitre: null,
    molesPerUnit: 0.01,
    bottles: [],
    ...more,
  };
}

/** Benzil from benzoin by hand: C14H12O2 212.248 → C14H10O2 210.232, a reagent in proportion and a fixed rinse. */
export function sheetOf(
  charges: readonly RunCharge[] = usual(),
  order: readonly string[] = charges.map((one) => one.id),
): RunSheet {
  const entries = order.map((id) => (charges.some((one) => one.id === id) ? chargeEntry(id) : holdEntry(id)));
  return {
    backweigh: 'run',
    version: 1,
    plan: 'benzil',
    route: 'benzil',
    step: 'oxidation',
    batch: 1,
    asOf: '2027-02-25',
    secondCheck: false,
    charges: [...charges],
    sheet: {
      id: '1-1',
      step: 'oxidation',
      stepNumber: 1,
      batch: 1,
      batches: 1,
      title: '1 · Oxidation',
      batchWords: 'batch 1 of 1',
      expected: '',
      follows: '',
      equation: '',
      equationProblem: '',
      boxes: [],
      before: [],
      statements: [],
      gases: [],
      makeUps: [],
      stages: [{ title: 'Reaction', apparatus: '', newVessel: false, fill: '', entries }],
      charges: charges.length,
      temperatureLog: false,
      theoryGrams: 9.905,
      yieldOf: '',
      product: 'benzil',
      sourceWords: '',
    },
    basis: { material: 'benzoin', name: 'benzoin', moles: 10 / 212.248, grams: 10 },
    product: {
      material: 'benzil',
      holds: { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6' },
      molarMass: 210.232,
      ratio: 1,
      grams: 9.0,
      yieldPercent: 91,
    },
  };
}

const usual = (): readonly RunCharge[] => [
  charge({ id: 'benzoin', isBasis: true, low: null, high: null, molesPerUnit: 1 / 212.248 }),
  charge({
    id: 'nitric',
    by: 'volume',
    unit: 'mL',
    decimals: 1,
    exact: 50,
    target: 50,
    low: 47.5,
    high: 52.5,
    gramsPerMillilitre: 1.4,
  }),
  charge({ id: 'rinse', scales: false, portions: 2 }),
];

function chargeEntry(id: string): RunSheet['sheet']['stages'][number]['entries'][number] {
  return {
    do: 'charge',
    id,
    number: 1,
    before: [],
    material: id,
    form: '',
    sources: [],
    isBasis: id === 'benzoin',
    contained: '',
    by: 'mass',
    target: null,
    unit: 'g',
    decimals: 2,
    low: null,
    high: null,
    portions: 1,
    targetText: '',
    totalText: '',
    portionText: '',
    accepted: '',
    device: '',
    amounts: [],
    perGram: '',
    density: '',
    orByMass: '',
    hazards: [],
    hazardWords: '',
    addition: '',
    note: '',
  };
}

function holdEntry(id: string): RunSheet['sheet']['stages'][number]['entries'][number] {
  return { do: 'hold', id, before: [], until: 'until it is clear', how: '', check: '', ifNot: '', note: '', temperature: false };
}

/** Entries written one after the other; what would be refused is thrown. */
export function recorded(sheet: RunSheet, entries: readonly RunEntry[]): readonly Recorded[] {
  const written: Recorded[] = [];
  for (const entry of entries) {
    const why = whyNotWritten(sheet, written, entry);
    if (why) throw new Error(`${canonicalJson(entry)}: ${why.code}`);
    written.push({ number: written.length + 1, at: `2027-02-25T09:00:${String(written.length).padStart(2, '0')}.000Z`, entry });
  }
  return written;
}

export const by = 'AB';

/** A weighing that is taken; complete unless said otherwise. */
export function taken(id: string, net: number, more: Partial<Extract<RunEntry, { kind: 'charged' }>> = {}): RunEntry {
  return {
    kind: 'charged',
    by,
    charge: id,
    portion: 1,
    net,
    unit: 'g',
    text: `${net} g`,
    bottle: null,
    lot: '',
    taken: null,
    moles: null,
    complete: true,
    ...more,
  };
}
