import { formatSignificant } from '../quantity/format.ts';
import type { SectionWords } from './section-words.ts';

const capital = (said: string): string => said.charAt(0).toUpperCase() + said.slice(1);
const figure = (value: unknown): string => formatSignificant(Number(value), 3);

export const additionWords: SectionWords = {
  title: 'Addition',
  lines: {
    shortest: (v) => `The cooling cannot keep up with an addition of ${v.material} shorter than`,
    'shortest with the rest': (v) => `The same for ${v.material} with dilution and neutralisation counted`,
    'shortest by vessel': (v) => `The same for ${v.material} by what the ${v.vessel} itself carries away (U × A × ΔT)`,
    scaled: (v) =>
      `${capital(String(v.material))} went in over ${figure(v.minutes)} min at ${figure(v.grams)} g of basis; at this scale a lower bound, not a time to aim for`,
    'no time given': (v) =>
      `The procedure gives no time for adding ${v.material}: settle one before the work. A lower bound, not a time to aim for`,
    'too short': (v) =>
      `${capital(String(v.material))} over ${figure(v.minutes)} min, as the procedure has it, is shorter than a lower bound that is known here. Do not add it so fast: smaller batches, better cooling, or more time. Lower bound`,
  },
  assumptions: {
    cooling:
      'the cooling power entered in the laboratory’s list; heat freed evenly over the addition, none of it held back; nothing else to cool.',
    scaled:
      'The known addition is scaled with the cube root of the amount: a vessel of the same shape, the same U and ΔT, a feed that only the cooling limits. Mixing, accumulation and gas can ask for more.',
  },
};
