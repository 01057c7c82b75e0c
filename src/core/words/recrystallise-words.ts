import type { SectionWords } from './section-words.ts';

/** What is wrong with a recrystallisation as typed. */
export const recrystalliseTyped = {
  solvent:
    'it begins with the solvent and what the solubility is counted per: “from water per 100 mL” or “per 100 g solvent” or “per 100 g solution”',
  part: (part: string) => `“${part}” is neither a solubility (“0 °C 0.53 g”) nor hot, cold, wash, excess, change or source`,
  grams: 'a solubility needs to be more than 0 g',
  wholeSolution: 'a solubility per 100 g of solution needs to be below 100 g',
  range: 'a solubility needs a temperature from −200 to 1000 °C and at most 100 000 g',
  points: 'a solubility is needed, e.g. “0 °C 0.53 g”; for those of the built-in table, only “from water” and no “per”',
  per: 'what the solubilities are counted per is needed: “from water per 100 mL” or “per 100 g solvent” or “per 100 g solution”',
  hotAndCold: 'the hot and the cold temperature are needed: “hot 95 °C, cold 0 °C”',
  hotOverCold: 'hot needs to be above cold, from −200 to 1000 °C',
  wash: 'the wash needs to be more than 0 per g of product',
  excess: 'the excess of hot solvent needs to be above 0 and at most 1000 %',
  change: 'the temperature at which the solid changes needs to be from −200 to 1000 °C',
};

function marked(mark: string | number | undefined): string {
  return mark === '' || mark === undefined ? '' : ` (${mark})`;
}

export const recrystalliseWords: SectionWords = {
  title: 'Recrystallisation',
  lines: {
    least: (v) => `Least hot ${v.solvent} (${v.celsius} °C) that dissolves it`,
    liquor: (v) => `Stays in the cold liquor (${v.celsius} °C)`,
    washed: () => 'Taken by the washings at most',
    crystals: () => 'Crystals at best',
    recovery: () => 'Best recovery',
    taken: (v) => `Hot ${v.solvent} with ${v.percent} % over the least`,
    second: () => 'Second crop at best, half of the solvent taken off the liquor',
    both: () => 'Both crops, of what went in',
    'from table': (v) => `Solubility of ${v.solute} from the built-in table: ${v.source}${marked(v.mark)}.`,
    'from table, hydrate': (v) =>
      `Solubility of ${v.solute} from the built-in table, turned into the hydrate with ${v.water} H₂O: ${v.source}${marked(v.mark)}.`,
    conflict: (v) =>
      `For ${v.celsius} °C two solubilities are given, ${v.least} g and ${v.most} g per 100: which one holds? Their mean is used here.`,
    change: (v) =>
      `Between ${v.from} and ${v.to} °C (near ${v.near} °C) the solubilities break: another solid lies under the solution, a hydrate or another crystal form. Each side has its own line; between them the figures are estimates.`,
    'change stated': (v) =>
      `At ${v.near} °C the solid changes, as entered. Each side has its own line; between ${v.from} and ${v.to} °C the figures are estimates.`,
    'change crossed': (v) =>
      `Cooling goes past ${v.near} °C: the crystals may hold water or solvent that is not counted here, so that more comes out, and weighs more, than said.`,
    'change marked': (v) =>
      `The handbook marks a change of the solid near ${v.from} to ${v.to} °C: the crystals may hold water that is not counted here.`,
    beyond: (v) =>
      `${v.celsius} °C lies outside the solubilities that are known (${v.from} to ${v.to} °C): the figure follows their line beyond, as an estimate. Measure there.`,
    boils: (v) => `${v.solvent} boils at ${v.boils} °C: at ${v.hot} °C it is no liquid without pressure.`,
    freezes: (v) => `${v.solvent} freezes at ${v.freezes} °C when pure: at ${v.cold} °C the liquor may set.`,
    'boiling unknown': (v) => `The boiling point of ${v.solvent} is not known here: compare it with the hot temperature.`,
    'oils out': (v) =>
      `The product melts at ${v.melts} °C when pure: at ${v.hot} °C it may melt before it dissolves and come out as an oil.`,
    decreasing: (v) => `It is no more soluble at ${v.hot} °C than at ${v.cold} °C: cooling brings no crystals.`,
    scatter: (v) =>
      `The solubilities lie up to ${v.percent} % off a straight line of ln S against 1/T: a bend, a wrong point, or another solid (a hydrate).`,
  },
  assumptions: {
    pure: 'the expected product goes in, pure; saturated when cold, nothing supersaturated, nothing else dissolved with it; best values, not what will be got.',
    points: 'Between two solubilities ln S runs straight against 1/T; beyond the last one only a little way, and said so.',
    table: 'The table counts the pure substance in the pure solvent; which hydrate or form crystallises it does not say.',
  },
  plots: { solubility: (v) => `Solubility in ${v.solvent}, g per ${v.per}` },
  marks: { hot: 'hot', cold: 'cold' },
  columns: { celsius: '°C', grams: 'g per 100', line: 'fitted line', share: '% w/w' },
};
