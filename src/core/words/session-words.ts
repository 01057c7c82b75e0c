import type { BeforeTheDay } from '../session/day-before.ts';

const NB = '\u00a0';

/** Minutes from the beginning of a day as a time: "13:40", or with the days that have gone by. */
export function timeOfDay(starts: string, minutes: number): string {
  const [hours = '0', rest = '0'] = starts.split(':');
  const at = Number(hours) * 60 + Number(rest) + Math.round(minutes);
  const days = Math.floor(at / 1440);
  const two = (value: number): string => String(value).padStart(2, '0');
  const time = `${two(Math.floor((at % 1440) / 60))}:${two(at % 60)}`;
  return days === 0 ? time : `${time}, ${days === 1 ? 'the next day' : `${days} days later`}`;
}

/** Minutes as hours and minutes: "3 h 40 min". */
export function hoursText(minutes: number): string {
  const whole = Math.round(minutes);
  const [hours, rest] = [Math.floor(whole / 60), whole % 60];
  if (hours === 0) return `${rest}${NB}min`;
  return rest === 0 ? `${hours}${NB}h` : `${hours}${NB}h ${rest}${NB}min`;
}

const plural = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

/** What is said of a session and its day. */
/** What no list can count. @param what the material and its form. */
export const uncounted = (what: string, step: number): string =>
  `${what}: how much of it step ${step} takes is not known, so no list counts it. Enter what is missing there, and have it ready`;

export const sessionWords = {
  title: 'Session',
  note: 'a spell of bench work',
  none: 'a new session',
  pick: 'Sessions of this plan',
  name: 'name',
  noName: (date: string) => `Session of ${date}`,
  date: 'day',
  starts: 'begins',
  hours: 'hours',
  keep: 'Keep this session',
  kept: (when: string) => `kept ${when}`,
  archive: 'Archive',
  archived: 'archived',
  takeBack: 'Take it out of the archive',
  archiveSaid: (name: string) => `${name} is archived.`,
  failed: (why: string) => `The session is not kept. ${why}`,
  unread: (why: string) => `The sessions could not be read. ${why}`,
  badDate: 'A day is needed, such as 2027-02-25.',
  pastDay: 'This day has gone by.',
  badTime: 'A time is needed, such as 09:00.',
  badHours: 'The hours of the day need a number above 0, up to 24.',
  gone: (sheets: string) => `The plan no longer has ${sheets}: left out here, kept in the session.`,

  day: {
    title: 'The day',
    note: 'what the route gives times for',
    none: 'Choose a batch, and its times stand here.',
    columns: ['no.', 'batch', 'known times', 'ends at the earliest'],
    batch: (sheet: string, title: string) => `${sheet} · ${title}`,
    known: (minutes: string) => `${minutes} known`,
    nothingKnown: 'no time is given in the route',
    open: (holds: number, operations: number) =>
      [
        holds > 0 ? `${plural(holds, 'hold', 'holds')} without a time` : '',
        operations > 0 ? `${plural(operations, 'operation', 'operations')} without a time (weighing, adding, work-up)` : '',
      ]
        .filter(Boolean)
        .join(', '),
    openHold: (what: string) => `hold without a time: ${what}`,
    addition: (time: string, what: string, minutes: string) => `to ${time} · ${what} added over ${minutes}`,
    hold: (time: string, what: string, minutes: string) => `to ${time} · hold of ${minutes}: ${what}`,
    /** Batches against the end of the day. */
    over: (end: string, list: string) => `Not over by ${end}, at the earliest: ${list}.`,
    overBy: (what: string, ends: string) => (what === '' ? `to ${ends}` : `${what}, to ${ends}`),
    notBegun: (end: string, list: string) => `Cannot begin before ${end}: ${list}.`,
    /** Where a day that is too short can end. */
    stop: (inDay: string, rest: string) =>
      `${inDay === '' ? `By the known times no batch ends within the day: plan another day for ${rest}` : `To stop overnight: after ${inDay}; plan another day for ${rest}`}.`,
    standHint: 'A hold that may stand overnight, entered with the route, can change that.',
    keeps: (product: string, how: string) => `${product} keeps ${how}.`,
    keepsNot: (product: string, how: string, starts: string) =>
      `${product} keeps ${how}: not until ${starts} of the next day. Go on with it, or begin it on another day.`,
    keepsUnknown: (product: string) => `How long ${product} keeps is not known: the route does not say.`,
    stands: (sheets: string, what: string, how: string) => `By the route ${sheets} may stand after “${what}”: ${how}.`,
    standsNot: (sheets: string, what: string, how: string, starts: string) =>
      `By the route ${sheets} may stand after “${what}” only ${how}: not until ${starts} of the next day.`,
    ends: (time: string) => `ends ${time} at the earliest`,
    timesAs: (batch: string) => `the same times as ${batch}`,
    afterMakers: (time: string) => `cannot begin before ${time}: it waits for what is made here`,
    past: (hours: string, by: string) =>
      `The known times alone run ${by} past the ${hours} of this day, if every batch begins as soon as it can.`,
    inDay: (left: string) => `At least: what has no time in the route is not counted. Of the day ${left} remain for all of that.`,
    oneAfter: (known: string) => `One batch after the other the known times come to ${known}.`,
    oneAfterPast: (known: string, by: string) =>
      `One batch after the other the known times come to ${known}, ${by} more than the day has.`,
  },

  before: {
    title: 'Before the day',
    none: 'Nothing has to be done before, as far as the plan and the shelf tell.',
    'make up': (one: Extract<BeforeTheDay, { do: 'make up' }>, amount: string) => `Make up ${one.label}, ${one.what}: ${amount}`,
    test: (one: Extract<BeforeTheDay, { do: 'test' }>, useBy: string) =>
      `Test or purify ${one.what}, ${one.lot === '' ? one.bottle : `lot ${one.lot}`}: use by ${useBy}`,
    titrate: (one: Extract<BeforeTheDay, { do: 'titrate' }>) => `Titrate ${one.what}: its strength is not known`,
    get: (one: Extract<BeforeTheDay, { do: 'get' }>, amount: string) =>
      amount === '' ? `Get ${one.what}` : `Get ${one.what}: short by ${amount}`,
    count: (one: Extract<BeforeTheDay, { do: 'count' }>) => uncounted(one.what, one.step),
    steps: (one: Extract<BeforeTheDay, { do: 'steps' }>) =>
      `${one.what} is not made yet: ${one.steps.length === 1 ? 'step' : 'steps'} ${one.steps.join(', ')} first`,
  },

  papers: {
    makeUpPage: (gives: string) => `made once for the whole session, on its own page of these papers: ${gives}`,
    all: 'All papers of the session',
    allNote: (fetch: number, makeUps: number, sheets: number) =>
      [
        'the day',
        `fetch list, ${plural(fetch, 'line', 'lines')}`,
        makeUps === 0 ? '' : plural(makeUps, 'make-up', 'make-ups'),
        plural(sheets, 'sheet', 'sheets'),
      ]
        .filter(Boolean)
        .join(' · '),
    title: (name: string) => `Papers for ${name}`,
    dayTitle: (name: string) => `Day of ${name}`,
    unnamedDay: (date: string) => `Day of the session, ${date}`,
    date: (date: string, starts: string, hours: string) => `${date}, from ${starts}, ${hours}`,
    columns: ['no.', 'batch', 'times in the route', 'ends at the earliest', 'begun', 'ended'],
    beforeColumns: ['', 'before the day', 'done, date'],
    least:
      'All times are lower bounds: weighing, work-up and whatever has no time in the route comes on top. “to 10:30” is when it is over, at the earliest.',
  },
} as const;
