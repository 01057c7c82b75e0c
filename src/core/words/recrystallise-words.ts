import type { SectionWords } from './section-words.ts';

/** What is wrong with a recrystallisation as typed. */
export const recrystalliseTyped = {
  solvent:
    'it begins with the solvent and what the solubility is counted per: “from water per 100 mL” or “per 100 g solvent” or “per 100 g solution”',
  part: (part: string) => `“${part}” is neither a solubility (“0 °C 0.53 g”) nor hot, cold, wash or source`,
  grams: 'a solubility needs to be more than 0 g',
  wholeSolution: 'a solubility per 100 g of solution needs to be below 100 g',
  range: 'a solubility needs a temperature from −200 to 1000 °C and at most 100 000 g',
  points: 'a solubility is needed, e.g. “0 °C 0.53 g”',
  hotAndCold: 'the hot and the cold temperature are needed: “hot 95 °C, cold 0 °C”',
  hotOverCold: 'hot needs to be above cold, from −200 to 1000 °C',
  wash: 'the wash needs to be more than 0 per g of product',
};

export const recrystalliseWords: SectionWords = {
  title: 'Recrystallisation',
  lines: {
    least: (v) => `Least hot ${v.solvent} (${v.celsius} °C) that dissolves it`,
    liquor: (v) => `Stays in the cold liquor (${v.celsius} °C)`,
    washed: () => 'Taken by the washings at most',
    crystals: () => 'Crystals at best',
    recovery: () => 'Best recovery',
    second: () => 'Second crop at best, half of the solvent taken off the liquor',
    decreasing: (v) => `It is no more soluble at ${v.hot} °C than at ${v.cold} °C: cooling brings no crystals.`,
    scatter: (v) =>
      `The solubilities lie up to ${v.percent} % off one straight line of ln S against 1/T: a wrong point, or another solid phase (a hydrate).`,
  },
  assumptions: {
    pure: 'the expected product goes in, pure; saturated when cold, nothing supersaturated, nothing else dissolved with it; best values, not what will be got.',
    points:
      'between two solubilities ln S runs straight against 1/T; nothing is guessed outside them. A hot solvent stays below its boiling point.',
  },
  plots: { solubility: (v) => `Solubility in ${v.solvent}, g per ${v.per}` },
};
