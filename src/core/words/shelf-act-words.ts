import type { StateKind } from '../shelf/bottle-state.ts';
import type { UseByWindow } from '../shelf/find/filters.ts';
import type { HazardGroup } from '../shelf/find/hazard-groups.ts';
import type { Written } from '../shelf/written.ts';

const many = (count: number): string => (count === 1 ? '1 bottle' : `${count.toLocaleString('en')} bottles`);

/** What is said of acts on bottles, on many of them, and of narrowing the list. */
export const shelfActWords = {
  filters: {
    title: 'Narrow the list',
    place: 'place',
    state: 'state',
    hazard: 'hazard',
    useBy: 'use by',
    any: 'any',
    noPlace: 'no place written',
    placeOption: (place: string, bottles: number) => `${place} (${bottles.toLocaleString('en')})`,
    states: {
      good: 'good',
      soon: 'use soon',
      'out of date': 'out of date',
      'held back': 'held back',
      empty: 'empty',
      'unknown strength': 'unknown strength',
    } satisfies Record<StateKind, string>,
    hazards: {
      explosive: 'explosive',
      flammable: 'flammable',
      oxidising: 'oxidising',
      'reacts with water': 'reacts with water',
      'gas under pressure': 'gas under pressure',
      corrosive: 'corrosive',
      'acutely toxic': 'acutely toxic',
      'harmful or irritant': 'harmful or irritant',
      'long-term health': 'long-term health',
      environment: 'environment',
      'no entry': 'no harmonised entry here',
    } satisfies Record<HazardGroup, string>,
    useBys: {
      passed: 'passed',
      'in 30 days': 'within 30 days',
      'in 90 days': 'within 90 days',
      'in a year': 'within a year',
      'no date': 'no date',
    } satisfies Record<UseByWindow, string>,
    none: 'Show all',
    nothing: {
      title: 'No bottle is like that',
      text: 'Nothing on the shelf answers the search and everything it is narrowed to.',
    },
  },
  nearly: (names: readonly string[], count: number) => `Nothing is spelled so; nearly: ${names.join(', ')} (${many(count)})`,
  order: (column: string, down: boolean) => (down ? `sorted by ${column}, downward` : `sorted by ${column}`),

  choose: {
    one: (id: string) => `choose ${id}`,
    column: 'chosen',
    count: (count: number) => `${many(count)} chosen`,
    all: (count: number) => `Choose all ${count.toLocaleString('en')} found`,
    allChosen: (count: number) => `all ${count.toLocaleString('en')} found are chosen`,
    none: 'Choose none',
    change: 'Change place or dates',
  },
  many: {
    title: (count: number) => `Change ${many(count)}`,
    hint: 'What is left empty stays as it is on each bottle.',
    place: 'place',
    received: 'received',
    opened: 'opened',
    useBy: 'use by',
    takeOff: 'take it off',
    takeOffDate: (date: string) => `take the date “${date}” off`,
    heldBack: 'holding back',
    holds: { '': 'leave as it is', hold: 'hold back from plans', release: 'let plans use them' },
    nothing: 'Nothing was filled in yet.',
    put: (count: number) => `Change ${many(count)}`,
    changed: (count: number) => (count === 0 ? 'Nothing differed: nothing was changed.' : `${many(count)} changed.`),
    failed: (why: string) => `Not changed: ${why} What you typed is still here.`,
    undo: 'Undo the change',
    undone: (count: number, left: readonly string[]) =>
      left.length === 0
        ? `Put back on ${many(count)}.`
        : `Put back on ${many(count)}; ${left.slice(0, 5).join(', ')} changed again since and stay.`,
  },

  weigh: {
    title: 'Weigh the bottle',
    gross: 'bottle with cap on the balance, g',
    remark: 'remark',
    record: 'Record what is left',
    needsTare: 'What this bottle weighs empty is not known: enter its tare under “Written on the bottle” first.',
    tare: (tare: string) => `empty: ${tare}`,
    lighter: (tare: string) => `the mass needs to be at least that of the empty bottle (${tare})`,
    noDensity: 'no density is known to turn its mass into millilitres: record the volume with Adjust instead',
    needsMass: 'a mass is expected here, such as 352.4 g',
    ahead: (left: string) => `then ${left} is left`,
    same: 'that is what the ledger says already',
  },
  split: {
    title: 'Split into another bottle',
    amount: 'how much goes over',
    place: 'place of the new bottle',
    record: 'Split it',
    ahead: (here: string, there: string) => `then ${here} here and ${there} in the new bottle`,
  },
  another: 'Another like this',
  wrong: 'Entered wrong',
  asOn: (id: string) => `as on ${id}`,
  correct: {
    title: (id: string) => `Put ${id} right`,
    hint: (id: string) =>
      `${id} is emptied and the right bottle comes in its place, in one go. When it came and whether it is held back carry over; undo takes back both or neither.`,
    put: (id: string) => `Put it in the place of ${id}`,
    keep: 'Leave it as it is',
  },
  waiting: (count: number) =>
    count === 1
      ? 'A bottle you began to enter is set aside and comes back after this one.'
      : `${count} bottles you began to enter are set aside and come back after this one.`,

  half: {
    split: (other: string) => `with ${other}`,
    correction: (other: string) => `with ${other}`,
    made: (other: string) => `undoing it leaves ${other} as it is`,
  },
  edits: {
    title: 'Changes of what is written',
    undo: 'Undo',
    undoOne: (what: string) => `Undo: ${what}`,
    undone: 'undone later',
    undoes: 'put back',
    ofMany: (count: number) => `one of ${many(count)}`,
    fields: {
      lot: 'lot',
      place: 'place',
      supplier: 'supplier',
      received: 'received',
      opened: 'opened',
      useBy: 'use by',
      heldBack: 'held back',
      note: 'note',
      tare: 'tare, g',
      water: 'water, % w/w',
      price: 'price',
    } satisfies Record<keyof Written, string>,
    fromTo: (field: string, before: string, after: string) => `${field}: ${before} → ${after}`,
    none: 'none',
    yes: 'yes',
    no: 'no',
  },
  fields: {
    tare: 'empty bottle with cap, g',
    water: 'water found in it, % w/w',
    price: 'price, in your currency',
    tareWrong: 'a mass is expected here, such as 112.35 g',
    waterWrong: 'a percentage from 0 to 100 is expected here',
    priceWrong: 'a price from 0 on is expected here, such as 24.50',
  },
} as const;
