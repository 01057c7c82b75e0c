import { describe, expect, test } from 'vitest';
import { severityOf, worstFirst } from '../../src/core/bench/severity.ts';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import { sharesOfBatch } from '../../src/core/paper/batch-shares.ts';
import type { ChosenBatch } from '../../src/core/paper/context.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { Paper } from '../../src/core/paper/paper.ts';
import { type ChargeEntry, type Entry, type WeighingSheet } from '../../src/core/paper/sheet.ts';
import { routeSummary } from '../../src/core/paper/route-summary.ts';
import { weighingPaper, weighingSheet } from '../../src/core/paper/weighing-sheet.ts';
import type { ChargePlan, PlanResult } from '../../src/core/plan/result.ts';
import { computed, sourced } from '../../src/core/quantity/figure.ts';
import { bottle, charge, context, DEMO, manyCharges, plan, step, take } from './paper-fixture.ts';

const everyBatch = (result: PlanResult): ChosenBatch[] =>
  result.steps.flatMap((step) => Array.from({ length: step.batches.count }, (_, at) => ({ step: step.id, batch: at + 1 })));
const entries = (sheet: WeighingSheet): Entry[] => sheet.stages.flatMap((stage) => stage.entries);
const charges = (sheet: WeighingSheet): ChargeEntry[] => entries(sheet).filter((entry) => entry.do === 'charge');

function chargeOf(step: string, id: string, batch = 1): ChargeEntry {
  const found = charges(weighingSheet(step, batch, context(DEMO))).find((charge) => charge.id === id);
  if (!found) throw new Error(`no charge ${id}`);
  return found;
}

describe('weighing sheets', () => {
  const paper = weighingPaper(everyBatch(DEMO), context(DEMO));

  test('one sheet per batch, in working order', () => {
    expect(paper.sheets.map((sheet) => sheet.id)).toEqual(['1-1', '2-1', '2-2', '3-1', '4-1']);
    expect(paper.sheets.map((sheet) => sheet.batchWords)).toContain('batch 2 of 2');
  });

  test('every operation of the step stands once, in its order, charges numbered through', () => {
    for (const sheet of paper.sheets) {
      const operations = DEMO.steps.find((step) => step.id === sheet.step)?.operations ?? [];
      const ids = operations.map((one) => (one.kind === 'charge' ? one.id : one.kind === 'hold' ? one.hold.id : one.removal.id));
      expect(entries(sheet).map((entry) => entry.id)).toEqual(ids);
      expect(charges(sheet).map((charge) => charge.number)).toEqual(charges(sheet).map((_, at) => at + 1));
      expect(sheet.charges).toBe(charges(sheet).length);
    }
  });

  test.each([1, 2, 40, 120, 500])('%i charges: none lost, none twice', (count) => {
    const sheet = weighingSheet('many', 1, context(manyCharges(count)));
    expect(sheet.charges).toBe(count);
    expect(charges(sheet).map((charge) => charge.id)).toEqual(Array.from({ length: count }, (_, at) => `c${at + 1}`));
  });

  test('the same plan gives the same text, and survives being kept as JSON', () => {
    const again = weighingPaper(everyBatch(DEMO), context(DEMO));
    expect(JSON.stringify(again)).toBe(JSON.stringify(paper));
    expect(Paper.parse(JSON.parse(JSON.stringify(paper)))).toEqual(paper);
  });

  test('the order in which batches were picked does not matter', () => {
    expect(weighingPaper(everyBatch(DEMO).reverse(), context(DEMO))).toEqual(paper);
  });

  test('a step or batch that is not in the plan is refused', () => {
    expect(() => weighingSheet('nowhere', 1, context(DEMO))).toThrow('the step needs to be in the plan (got nowhere)');
    expect(() => weighingSheet('benzil', 3, context(DEMO))).toThrow('the batch needs to be 1 to 2 (got 3)');
    expect(() => weighingPaper([{ step: 'nowhere', batch: 1 }], context(DEMO))).toThrow('in the plan');
  });

  test('the head says which start was chosen', () => {
    const multiplier = computed('aimed at', 1.234, '', 'chosen', []);
    const chosen = { ...DEMO, start: { kind: 'chance' as const, chancePercent: 90, multiplier } };
    const [coupling] = weighingPaper(everyBatch(chosen), context(chosen)).sheets;
    expect(coupling?.follows).toContain('start chosen for a 90 % chance of enough, aiming at 1.234 times what has to be made');
  });

  test('the head says what is expected of this batch and which yield it rests on', () => {
    const [coupling, oxidation] = paper.sheets;
    expect(oxidation?.expected).toBe('expected 9.08\u00a0g benzil (92\u00a0% of 9.87\u00a0g)');
    expect(coupling?.follows).toBe('amounts follow the likeliest yield, 55\u00a0% (35\u00a0% to 70\u00a0%)');
    expect(oxidation?.yieldOf).toBe('yield, % of 9.87\u00a0g');
    expect(oxidation?.gases).toEqual([
      'Frees nitrogen dioxide: 4.32\u00a0g, 2.30\u00a0L by the equation. Fatal if inhaled. Never close the vessel.',
    ]);
  });

  test('a new vessel is said where its stage starts', () => {
    const oxidation = paper.sheets[1];
    expect(oxidation?.stages.map((stage) => [stage.title, stage.newVessel])).toEqual([
      ['Reaction', false],
      ['Quench', true],
      ['Purification', true],
    ]);
  });
});

describe('a charge on the sheet', () => {
  test('target, range, amounts, density with its source, mass instead of volume', () => {
    const acid = chargeOf('benzil', 'acid');
    expect(acid).toMatchObject({
      form: '68 % w/w',
      targetText: '39.9',
      unit: 'mL',
      accepted: '38.9–40.9',
      amounts: ['605\u00a0mmol', '12.9\u00a0equiv'],
      perGram: '4.00\u00a0mL/g',
      density: 'd\u00a01.405\u00a0g/mL',
      densityFrom: 'table, 20 °C',
      orByMass: 'or 56.1\u00a0g',
      low: 38.9,
      high: 40.9,
    });
  });

  test('the basis has no tolerance: it is recorded, up to the own limit of a batch', () => {
    expect(chargeOf('benzil', 'basis')).toMatchObject({
      accepted: 'weigh out, record it; 10.00\u00a0g at most',
      low: null,
      high: 10,
      contained: 'net',
    });
    expect(chargeOf('benzoin', 'basis')).toMatchObject({ accepted: 'weigh out, record it', low: null, high: null });
    expect(chargeOf('benzoin', 'basis').contained).toBe('net ÷ 1.0204');
  });

  test('a basis that goes in late is weighed first', () => {
    const sheet = weighingSheet('benzoin', 1, context(DEMO));
    expect(sheet.before.map((warning) => warning.words)).toContain(
      'Weigh charge 5, the basis, before the others: their amounts follow it.',
    );
    expect(weighingSheet('benzil', 1, context(DEMO)).before).toEqual([]);
  });

  test('hazards are never a dash: no entry and none listed are said in words', () => {
    expect(chargeOf('benzil', 'basis')).toMatchObject({
      hazards: [],
      hazardWords: 'no harmonised entry here: read the safety sheet',
    });
    expect(chargeOf('benzil', 'ice')).toMatchObject({ hazards: [], hazardWords: 'none listed' });
    expect(chargeOf('benzil', 'acid').hazardWords).toBe('');
    const texts = JSON.stringify(weighingPaper(everyBatch(DEMO), context(DEMO)));
    expect(texts).not.toMatch(/"[—-]"/);
  });

  test('portions are shown each and in total; where they cannot be read exactly, the total is large', () => {
    expect(chargeOf('dienone', 'koh')).toMatchObject({
      targetText: '2 × 0.85',
      totalText: '1.70\u00a0g in all',
      portionText: '0.85\u00a0g each',
    });
    expect(chargeOf('benzil', 'ice')).toMatchObject({
      targetText: '149',
      totalText: 'in 3 portions',
      portionText: 'about 50\u00a0mL each',
    });
  });

  test('caution, limit and notices stand with their own operation, the limit included', () => {
    expect(chargeOf('benzil', 'acid').before[0]?.words).toContain('Nitrogen dioxide is poisonous');
    expect(chargeOf('benzoin', 'lye').before).toEqual([
      { kind: 'limit', words: 'Limit 20\u00a0°C. If above it: stop adding and wait.' },
    ]);
    expect(chargeOf('dienone', 'koh').before[0]).toMatchObject({ kind: 'caution' });
    const hold = entries(weighingSheet('benzil', 1, context(DEMO))).find((entry) => entry.id === 'gas');
    expect(hold?.before[0]?.words).toBe('Limit 105\u00a0°C. If above it: take the bath away.');
  });

  test('a density says how far it can be trusted', () => {
    const density = sourced('density', 1.117, 'g/mL', 'table at 20 °C; from a handbook', 4, 'from memory');
    const lye = charge('lye', 'reaction', 'naoh', take('volume', 12.5, 'mL', 1), { density });
    const sheet = weighingSheet('one', 1, context(plan([step('one', 1, 'One', [lye])])));
    expect(charges(sheet)[0]).toMatchObject({ density: 'd\u00a01.117\u00a0g/mL', densityFrom: 'table at 20 °C, from memory' });
  });

  test('what is added until an end point has no range, but a largest amount', () => {
    const acid = charge('acid', 'quench', 'nitric', take('volume', 12.5, 'mL', 1), { endPoint: 'pH paper turns red', atMost: 2 });
    const sheet = weighingSheet('one', 1, context(plan([step('one', 1, 'One', [acid])])));
    expect(charges(sheet)[0]).toMatchObject({
      addition: 'until pH paper turns red',
      accepted: 'an estimate; 25.0\u00a0mL at most',
      low: null,
      high: null,
    });
  });

  test('what no balance shows is printed in a unit that suits it, never as zero and never in a row of zeros', () => {
    const seed = (target: number, portions: number) => {
      const one = charge('s', 'reaction', 'seed', take('mass', target, 'g', 8), { portions });
      return charges(weighingSheet('one', 1, context(plan([step('one', 1, 'One', [one])]))))[0];
    };
    expect(seed(3.05e-6, 1)).toMatchObject({ targetText: '3.05', targetUnit: 'µg', accepted: '2.97\u00a0µg–3.13\u00a0µg' });
    expect(seed(2.1e-5, 7)).toMatchObject({ targetText: '7 × 3.00', targetUnit: 'µg', totalText: '21.00\u00a0µg in all' });
  });

  test('an unknown amount is said to be unknown, never zero', () => {
    expect(chargeOf('quinoxaline', 'ethanol')).toMatchObject({
      target: null,
      targetText: 'unknown',
      accepted: 'fill in before weighing',
    });
  });

  test('each batch takes from the bottle that its turn comes to', () => {
    expect(chargeOf('benzil', 'acid', 1).sources).toEqual([{ words: 'lot N-117 · Acids cabinet', amount: '' }]);
    expect(chargeOf('benzil', 'acid', 2).sources).toEqual([
      { words: 'lot N-117 · Acids cabinet', amount: '10.1\u00a0mL' },
      { words: 'lot N-118 · Acids cabinet', amount: '29.8\u00a0mL' },
    ]);
    const bottles = [bottle('A', '', 7, 'g'), bottle('B', '', 5, 'g'), bottle('C', '', 3, 'g')];
    const taken = [1, 2, 3, 4].flatMap((batch) => sharesOfBatch(bottles, { batch, batches: 4 }));
    for (const one of bottles) {
      const sum = taken.filter((share) => share.lot === one.lot).reduce((all, share) => all + share.amount, 0);
      expect(sum).toBeCloseTo(one.amount, 12);
    }
  });

  test('only a dish that goes in whole is taken as it is; of any other it says how much', () => {
    expect(chargeOf('benzil', 'basis').sources).toEqual([
      { words: 'dish of step 1', amount: '9.96\u00a0g of about 19.9\u00a0g, not all of it' },
    ]);
    expect(chargeOf('dienone', 'basis')).toMatchObject({
      targetText: '11.94',
      accepted: 'weigh out, record it',
      sources: [
        { words: 'lot 21-B · Shelf C2', amount: '6.00\u00a0g' },
        { words: 'dish of step 2', amount: '5.94\u00a0g of about 18.2\u00a0g, not all of it' },
      ],
    });
    const dish = charge('basis', 'reaction', 'benzoin', take('mass', 9.83, 'g', 2), {
      isBasis: true,
      supply: { kind: 'step', step: 'benzoin', madeMoles: 0.09, wholeDish: true, bottles: [] },
    });
    const steps = [...DEMO.steps, step('whole', 9, 'Whole', [dish])];
    const [whole] = charges(weighingSheet('whole', 1, context({ ...DEMO, steps })));
    expect(whole).toMatchObject({
      accepted: 'all of it as it is, record it',
      sources: [{ words: 'dish of step 1', amount: '' }],
    });
  });

  test('a charge that comes from a bottle and from a make-up, or from nowhere, says how much from each', () => {
    const lye = (supply: ChargePlan['supply']): ChargeEntry => {
      const one = charge('lye', 'reaction', 'naoh', take('volume', 14.2, 'mL', 1), { supply });
      const [found] = charges(weighingSheet('one', 1, context({ ...DEMO, steps: [step('one', 1, 'One', [one])] })));
      if (!found) throw new Error('a charge is expected');
      return found;
    };
    const bottles = [bottle('L-1', 'Bases', 4, 'mL')];
    expect(lye({ kind: 'make up', makeUp: 'lye', bottles }).sources).toEqual([
      { words: 'lot L-1 · Bases', amount: '4.0\u00a0mL' },
      { words: 'make-up M1', amount: '10.2\u00a0mL' },
    ]);
    expect(lye({ kind: 'short', status: 'short', bottles }).sources[1]).toEqual({
      words: 'the rest: not on the shelf',
      amount: '10.2\u00a0mL',
    });
  });

  test('a bottle measured in mL is said in grams where the charge is weighed', () => {
    const basis = charge('basis', 'reaction', 'benzaldehyde', take('mass', 10.44, 'g', 2), {
      isBasis: true,
      density: sourced('density', 1.044, 'g/mL', 'table at 20 °C', 4),
      supply: { kind: 'bottles', bottles: [bottle('A', '', 4, 'mL'), bottle('B', '', 6, 'mL')] },
    });
    const [found] = charges(weighingSheet('one', 1, context(plan([step('one', 1, 'One', [basis])]))));
    expect(found?.sources.map((source) => source.amount)).toEqual(['4.18\u00a0g', '6.26\u00a0g']);
  });

  test('a step’s dish, the tap, a make-up and a missing bottle are told apart', () => {
    expect(chargeOf('benzil', 'basis').sources[0]?.words).toBe('dish of step 1');
    expect(chargeOf('benzil', 'ice').sources[0]?.words).toBe('tap or ice machine');
    expect(chargeOf('benzoin', 'lye').sources[0]?.words).toBe('make-up M1');
    const bare = { ...DEMO, fetch: DEMO.fetch.map((line) => (line.id === 'ethanol' ? { ...line, bottles: [] } : line)) };
    const short = charges(weighingSheet('dienone', 1, context(bare))).find((charge) => charge.id === 'ethanol');
    expect(short?.sources[0]?.words).toBe('not on the shelf');
  });

  test('a sheet names the bottle that its session can have, though the whole plan runs short of it', () => {
    const alone = charges(weighingSheet('dienone', 1, context(DEMO))).find((charge) => charge.id === 'ethanol');
    expect(alone?.sources).toEqual([{ words: 'lot E-40 · Solvents', amount: '' }]);
    const sheet = weighingPaper(everyBatch(DEMO), context(DEMO)).sheets.find((one) => one.step === 'dienone');
    const last = sheet && charges(sheet).find((charge) => charge.id === 'ethanol');
    expect(last?.sources).toEqual([
      { words: 'lot E-40 · Solvents', amount: '116\u00a0mL' },
      { words: 'the rest: not on the shelf', amount: '3\u00a0mL' },
    ]);
  });

  test('a decimal comma where the desktop writes one', () => {
    const sheet = weighingSheet('benzil', 1, context(DEMO, { mark: ',' }));
    expect(charges(sheet)[1]).toMatchObject({ targetText: '39,9', accepted: '38,9–40,9', perGram: '4,00\u00a0mL/g' });
  });
});

describe('holds, removals, make-ups', () => {
  const find = (step: string, id: string) => entries(weighingSheet(step, 1, context(DEMO))).find((entry) => entry.id === id);

  test('a hold says until when, how hot, how long, and what to do if not', () => {
    expect(find('benzil', 'gas')).toMatchObject({
      until: 'until no brown gas is left',
      how: '95–100\u00a0°C, about 90\u00a0min',
      ifNot: 'If not: go on heating; at most 3 h, then ask.',
      temperature: true,
    });
    expect(find('benzil', 'acid-free')).toMatchObject({ check: 'Check: pH paper 6–7.', temperature: false });
  });

  test('a removal names its waste container', () => {
    expect(find('benzil', 'filter')).toMatchObject({
      title: 'Filter',
      takes: 'takes off the liquids',
      waste: 'nitric acid, aqueous, vented',
      wasteNeeded: true,
    });
  });

  test('what is made up comes first, the diluent before what is stirred into it', () => {
    const [lye] = weighingSheet('benzoin', 1, context(DEMO)).makeUps;
    expect(lye?.label).toBe('M1');
    expect(lye?.parts.map((part) => [part.material, part.target])).toEqual([
      ['water', '12.5\u00a0g'],
      ['sodium hydroxide 50 % w/w', '3.41\u00a0g'],
    ]);
    expect(weighingSheet('benzil', 1, context(DEMO)).makeUps).toEqual([]);
  });

  test('each hazard code is explained once, the worst first, with whose it is, formed gases included', () => {
    const sheet = weighingSheet('benzil', 1, context(DEMO));
    const codes = sheet.statements.map((statement) => statement.code);
    expect(codes).toEqual(['H330', 'H331', 'EUH071', 'H314', 'H270', 'H225', 'H272', 'H319', 'H290']);
    expect(sheet.statements[0]).toEqual({ code: 'H330', words: 'Fatal if inhaled.', of: 'nitrogen dioxide (formed)' });
    expect(sheet.statements[3]?.of).toBe('nitric acid, nitrogen dioxide (formed)');
    expect(sheet.unlisted).toBe('No harmonised entry here, read the safety sheet: benzoin, benzil (formed).');
  });

  test('the stronger solution that is thinned first is among the hazards of the sheet', () => {
    const sheet = weighingSheet('benzoin', 1, context(DEMO));
    const of = (code: string) => sheet.statements.find((statement) => statement.code === code)?.of;
    expect([of('H290'), of('H302')]).toEqual(['sodium hydroxide', expect.stringContaining('sodium hydroxide 50 % w/w')]);
  });

  test('severity: what kills before what burns before what irritates; joined codes by the worst of them', () => {
    expect(worstFirst(['H410', 'H319', 'H225', 'H351', 'H350', 'H314', 'H301', 'H300', 'EUH066'])).toEqual([
      'H300',
      'H301',
      'H350',
      'H314',
      'H351',
      'H225',
      'H319',
      'H410',
      'EUH066',
    ]);
    expect(severityOf('H302+H310')).toBe(severityOf('H310'));
  });
});

describe('fetch list', () => {
  test('every line of the plan once, grouped by place, numbered through', () => {
    const paper = fetchPaper(everyBatch(DEMO), context(DEMO));
    const lines = paper.places.flatMap((place) => place.lines);
    expect(lines.map((line) => line.number)).toEqual(lines.map((_, at) => at + 1));
    expect(lines.filter((line) => line.status !== 'from a step')).toHaveLength(DEMO.fetch.length);
    expect(paper.lines).toBe(lines.length);
    expect(paper.places.map((place) => place.place)).toEqual([
      'Acids cabinet',
      'Bases',
      'Shelf C2',
      'Solvents',
      'From earlier steps',
      'Tap and ice machine',
    ]);
    expect(paper.session).toBe('for the whole plan');
    expect(paper.makeUps.map((makeUp) => makeUp.label)).toEqual(['M1']);
  });

  test('a session takes its part, from the bottles its sheets name', () => {
    const paper = fetchPaper([{ step: 'benzil', batch: 2 }], context(DEMO));
    const lines = paper.places.flatMap((place) => place.lines);
    expect(paper.session).toBe('for step 2 batch 2');
    expect(lines.map((line) => line.material)).toEqual(['nitric acid', 'ethanol', 'benzoin', 'water']);
    expect(lines[0]).toMatchObject({ need: '39.9\u00a0mL', lots: ['lot N-117: 10.1\u00a0mL', 'lot N-118: 29.8\u00a0mL'] });
    expect(paper.makeUps).toEqual([]);
  });

  test('a bottle too small for the plan may be enough for a session', () => {
    const lineIn = (chosen: readonly ChosenBatch[]) =>
      fetchPaper(chosen, context(DEMO))
        .places.flatMap((place) => place.lines)
        .find((line) => line.material === 'ethanol');
    expect(lineIn([{ step: 'benzil', batch: 1 }])).toMatchObject({ status: 'enough here; short for the whole plan', mark: 'ok' });
    expect(lineIn([{ step: 'dienone', batch: 1 }])).toMatchObject({ mark: 'ok', lots: ['lot E-40'] });
    expect(lineIn(everyBatch(DEMO))).toMatchObject({ status: 'short', mark: 'act' });
  });

  test('what earlier steps hand over has to be fetched too, less what stands on the shelf', () => {
    const paper = fetchPaper(everyBatch(DEMO), context(DEMO));
    const handed = paper.places.find((place) => place.place === 'From earlier steps')?.lines ?? [];
    expect(handed.map((line) => [line.material, line.need, line.uses])).toEqual([
      ['benzoin', '19.92\u00a0g', 'step\u00a02'],
      ['benzil', '5.94\u00a0g', 'step\u00a03'],
      ['benzil', '10.04\u00a0g', 'step\u00a04'],
    ]);
  });

  test('the sessions of a plan add up to the plan', () => {
    const parts = everyBatch(DEMO).map((one) => fetchPaper([one], context(DEMO)));
    const acid = parts
      .flatMap((paper) => paper.places.flatMap((place) => place.lines))
      .filter((line) => line.material === 'nitric acid');
    const sum = acid.reduce((all, line) => all + Number.parseFloat(line.need), 0);
    expect(sum).toBeCloseTo(79.8, 6);
  });

  test('bottles passed over are named with the reason', () => {
    const paper = fetchPaper(everyBatch(DEMO), context(DEMO));
    const line = paper.places.flatMap((place) => place.lines).find((one) => one.material === 'benzaldehyde');
    expect(line).toMatchObject({
      status: 'out of date',
      mark: 'act',
      lots: ['not lot B-08: past its date, 31 Oct 2026; its 250\u00a0g would be enough once it is tested or purified'],
    });
  });
});

test('the buying list has what is short, why, and what it is for', () => {
  const paper = buyingPaper(context(DEMO));
  expect(paper.lines.map((line) => [line.number, line.material, line.short])).toEqual([
    [1, 'ethanol', '3.10\u00a0mL'],
    [2, 'benzaldehyde', '36.9\u00a0g'],
  ]);
  expect(paper.lines[0]?.uses).toBe('step 1, Benzoin coupling; step 2, Oxidation to benzil; step 3, Condensation to the dienone');
  expect(paper.lines[1]?.why).toBe(
    'lot B-08: past its date, 31 Oct 2026; its 250\u00a0g would be enough once it is tested or purified',
  );
  expect(Paper.parse(JSON.parse(JSON.stringify(paper)))).toEqual(paper);
});

test('a route summary holds each step and draw once, and its picture stays within its width', () => {
  const summary = routeSummary(context(DEMO));
  expect(Paper.parse(JSON.parse(JSON.stringify(summary)))).toEqual(summary);
  expect(summary.steps.map((step) => step.number)).toEqual(DEMO.steps.map((step) => step.number));
  expect(summary.draws).toHaveLength(DEMO.draws.length);
  const said = summary.picture.words.map((word) => word.text);
  for (const step of DEMO.steps) expect(said).toContain(String(step.number));
  for (const word of summary.picture.words) {
    expect(word.x).toBeGreaterThanOrEqual(0);
    expect(word.x).toBeLessThanOrEqual(summary.picture.width);
  }
  expect(summary.picture.width).toBeLessThan(720);
  expect(summary.picture.shapes.filter((shape) => shape.kind === 'line')).toHaveLength(DEMO.steps.length);
});
