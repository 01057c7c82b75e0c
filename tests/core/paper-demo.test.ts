import { describe, expect, test } from 'vitest';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import type { ChargeEntry, Entry, WeighingSheet } from '../../src/core/paper/sheet.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { chargeOf, draw, planOf, route, step } from './build.ts';
import { demoContext, demoPlan } from './demo-fixture.ts';

// The sheets a person would print from the ready example: what is computed, not what a fixture says.
const result = demoPlan;
const context = demoContext;
/** Of the stronger lye that is thinned for the first step. */
const lye = result.makeUps.flatMap((makeUp) => makeUp.parts.flatMap((part) => part.hazards ?? []));
const everyBatch = result.steps.flatMap((step) =>
  Array.from({ length: step.batches.count }, (_, at) => ({ step: step.id, batch: at + 1 })),
);
const paper = weighingPaper(everyBatch, context);

function sheet(id: string): WeighingSheet {
  const found = paper.sheets.find((one) => one.id === id);
  if (!found) throw new Error(`no sheet ${id}`);
  return found;
}
const entries = (one: WeighingSheet): Entry[] => one.stages.flatMap((stage) => stage.entries);
function charge(sheetId: string, id: string): ChargeEntry {
  const found = entries(sheet(sheetId)).find((entry) => entry.id === id);
  if (found?.do !== 'charge') throw new Error(`no charge ${id}`);
  return found;
}

describe('how much of each source', () => {
  test('half of a dish is weighed out of it, and never more than the own limit', () => {
    for (const id of ['2-1', '2-2']) {
      expect(charge(id, 'benzoin')).toMatchObject({
        targetText: '9.83',
        accepted: 'weigh out, record it; 10.00\u00a0g at most',
        sources: [{ words: 'dish of step 1', amount: '9.83\u00a0g of about 19.65\u00a0g, not all of it' }],
      });
    }
  });

  test('what comes from a bottle and from a dish is split, and the parts add up', () => {
    expect(charge('3-1', 'benzil')).toMatchObject({
      targetText: '11.75',
      sources: [
        { words: 'lot 21-B · shelf C2', amount: '6.00\u00a0g' },
        { words: 'dish of step 2', amount: '5.75\u00a0g of about 17.91\u00a0g, not all of it' },
      ],
    });
  });

  test('no charge of the example is taken as it is: every dish serves several uses', () => {
    const accepted = paper.sheets.flatMap(entries).flatMap((entry) => (entry.do === 'charge' ? [entry.accepted] : []));
    expect(accepted.filter((one) => one.includes('as it is'))).toEqual([]);
  });

  test('a dish is whole only where nobody else takes of it', () => {
    const chain = route({ A: 'C6H12O', B: 'C6H10O', C: 'C6H8O' }, [
      step({ id: 'one', basis: 'A', product: 'B' }),
      step({ id: 'two', basis: 'B', product: 'C' }),
    ]);
    const whole = (draws: Parameters<typeof planOf>[1]): unknown => chargeOf(planOf(chain, draws), 'two', 'B').supply;
    expect(whole([draw('C', 5)])).toMatchObject({ kind: 'step', wholeDish: true });
    expect(whole([draw('C', 5), draw('B', 1)])).toMatchObject({ kind: 'step', wholeDish: false });
  });

  test('the fetch list takes the same of each bottle as the sheets', () => {
    const lines = fetchPaper(everyBatch, context).places.flatMap((place) => place.lines);
    expect(lines.find((line) => line.material === 'benzil' && line.lots[0]?.includes('21-B'))?.need).toBe('6.00\u00a0g');
  });
});

describe('hazards of a sheet', () => {
  test('the gas of the oxidation is named first, and everything formed is counted', () => {
    const [worst] = sheet('2-1').statements;
    expect(worst).toEqual({ code: 'H330', words: 'Fatal if inhaled.', of: 'nitrogen dioxide (formed)' });
    // Told of immediately before the charge that frees it, and nowhere twice.
    expect(sheet('2-1').gases).toEqual([]);
    const before =
      sheet('2-1')
        .stages.flatMap((stage) => stage.entries)
        .find((one) => one.id === 'nitric-acid')?.before ?? [];
    const said = before.map((one) => one.words).filter((one) => /Fatal if inhaled|closed vessel/.test(one));
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/^nitrogen dioxide comes off, .*by the equation; what is charged beyond it can free more/);
    expect(sheet('2-1').unlisted).toBe('No harmonised entry here, read the safety sheet: benzoin, benzil (formed).');
  });

  test('every statement of every charge and product is on the sheet', () => {
    for (const { id, step: key, statements } of paper.sheets) {
      const step = result.steps.find((one) => one.id === key);
      const charged = step?.operations.flatMap((one) => (one.kind === 'charge' ? (one.hazards ?? []) : [])) ?? [];
      const formed = step?.formed.flatMap((one) => one.hazards ?? []) ?? [];
      expect(new Set(statements.map((one) => one.code)), id).toEqual(
        new Set([...charged, ...formed, ...(id === '1-1' ? lye : [])]),
      );
    }
  });
});

describe('no less than the target', () => {
  test('the nitric acid that carries the heat has no range under its target', () => {
    const acid = charge('2-1', 'nitric-acid');
    expect(acid.note).toContain('Use no less.');
    expect(acid.accepted).toMatch(/^39\.5–[\d.]+, no less$/);
    expect(acid.low).toBe(acid.target);
    expect(acid.target).toBeGreaterThanOrEqual(4 * 9.83 * (1 - 1e-3));
  });
});

describe('a bottle past its date', () => {
  test('is told before its charge, with its lot and what to do', () => {
    const first = charge('1-1', 'benzaldehyde').before.map((warning) => `${warning.kind}: ${warning.words}`);
    expect(first).toContainEqual(
      expect.stringMatching(
        /^caution: benzaldehyde of at least 98 % w\/w, lot [\d-]+, is past its date: not to be used before it has been tested or purified/,
      ),
    );
    // Nothing else of the example is past its date, and nothing else says so.
    const others = paper.sheets
      .flatMap(entries)
      .filter((entry) => entry.before.some(({ words }) => words.includes('past its date')));
    expect(others.map((entry) => entry.id)).toEqual(['benzaldehyde']);
  });
});

describe('what a sheet says before anything is weighed', () => {
  test('an unknown heat is said to be unknown', () => {
    for (const { id, boxes } of paper.sheets) {
      expect(boxes[0]?.lines, id).toContain('heat of reaction: no figure entered, unknown');
    }
    const heat = { kilojoulesPerMole: 100 };
    const known = planOf(route({ A: 'C6H12O', B: 'C6H10O' }, [step({ id: 'one', basis: 'A', product: 'B', extra: { heat } })]), [
      draw('B', 9.8143),
    ]);
    const [first] = weighingPaper([{ step: 'one', batch: 1 }], {
      ...context,
      result: known,
      bench: () => [],
      cautions: () => new Map(),
    }).sheets;
    expect(first?.boxes[0]?.lines).toContainEqual(expect.stringMatching(/^heat given off: [\d.]+\u00a0kJ a batch/));
  });

  test('what to do with a spill and for who is hurt, or that nothing is written', () => {
    expect(sheet('2-1').emergency).toEqual([
      'Spill: Sodium hydrogencarbonate, then water; never paper, sawdust or solvent.',
      'First aid: Whoever breathed the brown gas sees a doctor even if well: the lungs suffer hours later.',
    ]);
    expect(sheet('1-1').emergency).toEqual([
      'Spill and first aid: nothing written in the route. Read the safety sheets before starting.',
    ]);
  });

  test('what of the product is put aside to keep stands with the product', () => {
    const kept = result.draws.filter((one) => one.kept);
    expect(kept.map((one) => one.purpose)).toEqual(['kept sample']);
    expect(kept[0]?.material).toBe('benzil');
    const owners = paper.sheets.filter((one) => (one.keep ?? '') !== '');
    expect(owners.map((one) => [one.id, one.keep])).toEqual(
      ['2-1', '2-2'].map((id) => [id, 'Put aside to keep, of all batches together: 2.00\u00a0g (kept sample)']),
    );
  });
});

test('what comes before the first charge into a new vessel stands under the old one', () => {
  const titles = (of: WeighingSheet | undefined): unknown =>
    of?.stages.map((stage) => [stage.title, stage.newVessel, stage.entries.map((entry) => entry.id)]);
  const hold = { do: 'hold', stage: 'quench', until: 'it has cooled' } as const;
  const pour = {
    do: 'charge',
    id: 'water',
    stage: 'quench',
    material: 'A',
    rule: { kind: 'mass ratio', gramsPerGram: 2 },
  } as const;
  const one = step({
    id: 'one',
    basis: 'A',
    product: 'B',
    more: [{ ...hold, id: 'before' }, pour, { ...hold, id: 'after' }],
    extra: { stages: { quench: { newVessel: true } } },
  });
  const quenched = planOf(route({ A: 'C6H12O', B: 'C6H10O' }, [one]), [draw('B', 5)]);
  expect(
    titles(
      weighingPaper([{ step: 'one', batch: 1 }], { ...context, result: quenched, bench: () => [], cautions: () => new Map() })
        .sheets[0],
    ),
  ).toEqual([
    ['Reaction', false, ['c1', 'before']],
    ['Quench', true, ['water', 'after']],
  ]);
  expect(sheet('2-1').stages[0]?.entries.map((entry) => entry.id)).toContain('cooled');
});

test('what runs off through a filter is said, and the vessel of the stage before is not named as if it were new', () => {
  const workUp = sheet('2-1').stages.find((stage) => stage.title === 'Work-up');
  const mixture = result.steps.find((one) => one.id === 'benzil')?.batches.stages;
  const off = mixture?.find((one) => one.stage === 'work-up')?.runsOff?.value ?? 0;
  const poured = mixture?.find((one) => one.stage === 'quench')?.volume.value ?? 0;
  // The acid mixture, but for its solid, and at most three times the estimated washings.
  expect(off).toBeGreaterThan(poured - 10 + 2.9 * 98);
  expect(off).toBeLessThan(poured + 3.1 * 98);
  expect(workUp?.fill).toMatch(
    /^still in the \d+ mL beaker, .* · filtrate and washings up to 4\d\d(\.\d)?\u00a0mL: the filter flask/,
  );
  expect(sheet('2-1').stages[0]?.fill).not.toContain('still in');
  expect(sheet('2-1').stages[0]?.fill).not.toContain('filtrate');
});
