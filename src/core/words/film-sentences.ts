import { formatAmount } from '../quantity/format.ts';
import type { Notice } from './notice.ts';

type Values = Notice['values'];

const text = (values: Values, name: string): string => String(values[name] ?? '');
const grams = (values: Values, name: string): string => {
  const shown = formatAmount({ value: Number(values[name]), unit: 'g', digits: 3 });
  return `${shown.text} ${shown.unit}`;
};
const share = (values: Values): string => {
  const percent = Number(values.percent);
  // "100 %" of what still leaves something would be untrue.
  return percent > 99.9 ? 'more than 99.9 %' : `${percent.toPrecision(3)} %`;
};

/** What sets the largest batch, and what would allow a larger one. */
const LIMITS: Readonly<Record<string, { readonly by: (v: Values) => string; readonly change: string }>> = {
  'own limit': {
    by: (v) => `the limit of ${text(v, 'limit')} g (${text(v, 'reason')})`,
    change: 'a limit that allows more, if whoever set it agrees',
  },
  cooling: { by: () => 'the cooling', change: 'better cooling or a longer addition' },
  vessel: { by: (v) => `the ${text(v, 'reason')}`, change: 'a larger vessel' },
};

/** What stays behind in a batch beside what comes out of it; sentences.ts takes these in. */
export const FILM_SENTENCES: Readonly<Record<string, (values: Values) => string>> = {
  'batch gives nothing': (v) => {
    const limit = LIMITS[text(v, 'why')] ?? LIMITS['vessel'];
    return `“${text(v, 'step')}” gives nothing, in however many batches: the largest that ${limit?.by(v) ?? ''} allows makes ${grams(v, 'made')} of ${text(v, 'material')}, and ${grams(v, 'lost')} stays behind in it. What would help: less left behind (check the amount entered, or rinse it out), or ${limit?.change ?? ''}.`;
  },
  'film not known so well': (v) =>
    `Only ${grams(v, 'out')} of the ${grams(v, 'made')} a batch makes is to come out of it; ${grams(v, 'lost')} stays behind. No such loss is known so exactly: a batch like this may give nothing at all. Ask for ${grams(v, 'least')} or more from each batch, or check the amount entered as left behind.`,
  'film takes most': (v) =>
    `Of the ${grams(v, 'made')} a batch makes, ${grams(v, 'lost')} stays behind in it (${share(v)}): the start is large because of this loss. Check the amount that is entered as left behind; larger batches lose less.`,
};
