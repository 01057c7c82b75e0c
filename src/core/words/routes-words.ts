import type { ChargeRule, PlainRule, StepYield } from '../route/route.ts';

/** What the Routes place says. */
export const routesWords = {
  title: 'Routes',
  count: (count: number) => (count === 1 ? '1 route' : `${count} routes`),
  steps: (count: number) => (count === 1 ? '1 step' : `${count} steps`),
  revision: (revision: number) => `revision ${revision}`,
  changed: (when: string) => `changed ${when}`,
  use: {
    last: (when: string) => `used ${when}`,
    never: 'not used yet',
    largest: (amount: string, material: string) => `largest run ${amount} of ${material}`,
    noRun: 'no run recorded',
    mean: (percent: string) => `mean overall yield ${percent} %`,
    meanUnknown: (unrun: number) =>
      `mean overall yield not known: ${unrun === 1 ? 'one step has' : `${unrun} steps have`} no finished run with a yield`,
  },
  search: 'Find a route by its name',
  putAway: {
    do: 'Put away',
    back: 'Take out again',
    done: (route: string) => `“${route}” is put away: it stands under “put away” at the left, its plans stay.`,
    undone: (route: string) => `“${route}” is taken out again.`,
    list: (count: number) => `Put away (${count})`,
    command: 'Put the open route away, or take it out again',
  },
  noneFound: 'No route has that in its name.',
  loading: 'Reading the routes…',
  opening: 'Opening the route…',
  failed: 'The route could not be opened',
  retry: 'Try again',
  empty: {
    title: 'There is no route yet',
    text: 'A route is the whole synthesis: its steps with their balanced equations, charges and yields. Make one from the procedure in hand, a line at a time, or take in a route file; its form is described in resources/schema.',
  },
  choose: 'Choose a route at the left to read it.',
  import: 'Import a route file',
  export: 'Export as a file',
  planThis: 'Plan this route',
  plans: 'Plans of this route',
  fileName: (route: string) =>
    `${
      route
        .replaceAll(/[^\p{L}\p{N} ._-]+/gu, '')
        .trim()
        .slice(0, 80) || 'route'
    }.route.json`,
  imported: (route: string) => `“${route}” is taken in.`,
  exported: (file: string) => `Saved as ${file}.`,
  notRead: (file: string) => `${file} could not be read.`,
  tooLarge: (file: string) => `${file} is larger than 20 MB: a route file is much smaller.`,
  refused: {
    title: (file: string, count: number) => (count === 1 ? `${file} has one problem` : `${file} has ${count} problems`),
    text: 'Nothing was taken in. Each line names the place in the file and what is expected there.',
    place: 'place in the file',
    problem: 'problem',
    wholeFile: 'the whole file',
    close: 'Close',
  },
  materials: 'Materials it names',
  basis: (name: string) => `basis ${name}`,
  yield: (value: StepYield) => `${yieldText(value)} % yield`,
  batchLimit: (grams: number, reason: string) => `At most ${ratioDigits(grams)} g of basis in a batch: ${reason}.`,
  note: 'Note',
  rule: (rule: ChargeRule): string =>
    rule.kind === 'until'
      ? `about ${plainRule(rule.estimate)}, until ${rule.endPoint}; at most ${rule.atMost} × that`
      : plainRule(rule),
  portions: (count: number) => `in ${count} portions`,
  heads: { stage: 'stage', operation: 'operation', published: 'as published', ratio: 'as ratio to the basis', how: 'how' },
  published: {
    label: (name: string) => `${name} as published`,
    ratioLabel: (name: string) => `Ratio of ${name}`,
    example: 'as printed',
    product: 'Product as published',
    yield: 'Yield as published',
    productExample: 'e.g. 35–37 g',
    yieldExample: 'e.g. 91–96 %',
  },
  saved: (revision: number) => `Saved as revision ${revision}.`,
  commands: {
    import: 'Import a route file',
    export: 'Export the open route as a file',
    plan: 'Plan the open route',
  },
} as const;

/** A yield in per cent, without its unit: one figure, or "65 / 72 / 80". */
export function yieldText(value: StepYield): string {
  if (typeof value === 'number') return ratioDigits(value);
  return [value.lowest, value.likeliest, value.highest].map(ratioDigits).join(' / ');
}

/** Digits a rule's figure is shown with: more than a print tells. What is worked out from a print has sixteen. */
const RATIO_DIGITS = 4;

/** The figure of a rule as it is shown and typed: 13.42 equiv, 1250 mL/mol; whole numbers keep all their digits. */
export function ratioDigits(value: number): string {
  return Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(RATIO_DIGITS)));
}

/** "to neutralise, to pH 7 with 10 % excess", as it is typed and read. */
export function neutraliseText(rule: { readonly endPH: number; readonly excessPercent?: number | undefined }): string {
  const excess = rule.excessPercent ? ` with ${rule.excessPercent} % excess` : '';
  return `to neutralise, to pH ${rule.endPH}${excess}`;
}

function plainRule(rule: PlainRule): string {
  switch (rule.kind) {
    case 'basis':
      return 'basis';
    case 'equivalents':
      return `${ratioDigits(rule.equivalents)} equiv`;
    case 'mass ratio':
      return `${ratioDigits(rule.gramsPerGram)} g/g`;
    case 'volumes':
      return `${ratioDigits(rule.millilitresPerGram)} mL/g`;
    case 'molar volume':
      return `${ratioDigits(rule.millilitresPerMole)} mL/mol`;
    case 'to concentration':
      return `to ${ratioDigits(rule.molesPerLitre)} mol/L`;
    case 'make up to':
      return `up to ${ratioDigits(rule.millilitresPerMole)} mL/mol in all`;
    case 'per batch':
      return `${ratioDigits(rule.amount)} ${rule.unit} each batch`;
    case 'to neutralise':
      return neutraliseText(rule);
  }
}
