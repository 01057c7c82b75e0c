import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sessionOf } from '../../src/core/paper/session.ts';
import { dayBefore } from '../../src/core/session/day-before.ts';
import { dayNotes } from '../../src/core/paper/session-day-lines.ts';
import { KEEPS_FIELD, keepsText, STANDS_FIELD } from '../../src/core/route/keeps.ts';
import type { Keeps, Step } from '../../src/core/route/route.ts';
import { sessionDay } from '../../src/core/session/session-day.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

const plain = step({ id: '1', basis: 'a', product: 'b' });
const context = { route: route({ a: 'C6H12', b: 'C6H12' }, [plain]) };
const typed = (text: string): Keeps | string | undefined => {
  const read = KEEPS_FIELD.write(plain, text, context);
  return read.ok ? read.value.keeps : read.words;
};

describe('how long a product keeps', () => {
  test.each([
    ['3 days, in the fridge', { hours: 72, where: 'in the fridge' }, '3 days, in the fridge'],
    ['3 days in the fridge', { hours: 72, where: 'in the fridge' }, '3 days, in the fridge'],
    ['12 h', { hours: 12 }, '12 h'],
    ['1 day', { hours: 24 }, '1 day'],
    ['1,5 d; dark', { hours: 36, where: 'dark' }, '36 h, dark'],
    ['2 weeks', { hours: 336 }, '2 weeks'],
  ])('%s', (text, keeps, shown) => {
    expect(typed(text)).toEqual(keeps);
    expect(keepsText(keeps)).toBe(shown);
  });
  test('what is no time is a question; no text is not known', () => {
    for (const text of ['for ever', '3', '0 days', 'in the fridge', '2 months', '-1 day'])
      expect(typed(text)).toContain('such as');
    expect(typed('400 weeks')).toEqual({ hours: 67_200 });
    expect(typed('600 weeks')).toContain('ten years');
    expect(typed('')).toBeUndefined();
  });
  test('whatever is written is read as the same', () => {
    const where = fc.option(fc.constantFrom('in the fridge', 'dry, dark', 'under argon: −20 °C'), { nil: undefined });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 87_600 }), where, (hours, place) => {
        const keeps = place === undefined ? { hours } : { hours, where: place };
        expect(typed(keepsText(keeps))).toEqual(keeps);
      }),
    );
  });
});

describe('a day that is too short', () => {
  /** Step 1 is over after 2 h, step 2 takes 20 h more; the day has 8 h, and the next begins 24 h after it. */
  const notes = (keeps: Keeps | null): string => {
    const wait = (aboutMinutes: number): Step['operations'] => [
      { do: 'hold', id: 'wait', stage: 'reaction', until: 'it is done', aboutMinutes },
    ];
    const [made, used] = [
      step({ id: '1', basis: 'a', product: 'b', more: wait(120), extra: keeps ? { keeps } : {} }),
      step({ id: '2', basis: 'b', product: 'c', more: wait(1200) }),
    ];
    const own = route({ a: 'C6H12', b: 'C6H12', c: 'C6H12' }, [made, used]);
    const result = planOf(own, [draw('c', 1, 'mol')], [bottle('a', 1e3)]);
    const day = sessionDay(result, [
      { step: '1', batch: 1 },
      { step: '2', batch: 1 },
    ]);
    return dayNotes(day, 8, '09:00').join(' ');
  };
  test('what was made keeps until the next day begins, 22 h on, or it does not', () => {
    expect(notes({ hours: 72, where: 'in the fridge' })).toContain('b keeps 3 days, in the fridge.');
    expect(notes({ hours: 22 })).toContain('b keeps 22 h.');
    expect(notes({ hours: 21 })).toContain('b keeps 21 h: not until 09:00 of the next day.');
  });
  test('where the route does not say, it is not known, and never said to keep', () => {
    expect(notes(null)).toContain('How long b keeps is not known: the route does not say.');
    expect(notes(null)).not.toMatch(/b keeps \d/);
  });
});

test('what is to be got before the day is named without “neat”', () => {
  const own = route({ a: 'C6H12', b: 'C6H12' }, [step({ id: '1', basis: 'a', product: 'b' })]);
  const result = planOf(own, [draw('b', 1, 'mol')]);
  const session = sessionOf(result, [{ step: '1', batch: 1 }]);
  expect(dayBefore(result, session, new Map(), '2027-02-25')).toMatchObject([{ do: 'get', what: 'a' }]);
});

describe('a hold after which a batch may stand', () => {
  /** Its mixture is there after 3 h of a day of 8 h that begins at 09:00; what follows takes 10 h more. */
  const notes = (stands: Keeps | null, crystals = 180): string => {
    const more: Step['operations'] = [
      { do: 'hold', id: 'crystals', stage: 'reaction', until: 'crystals', aboutMinutes: crystals, ...(stands ? { stands } : {}) },
      { do: 'hold', id: 'dry', stage: 'work-up', until: 'dry', aboutMinutes: 600 },
    ];
    const result = planOf(
      route({ a: 'C6H12', b: 'C6H12' }, [step({ id: '1', basis: 'a', product: 'b', more })]),
      [draw('b', 1, 'mol')],
      [bottle('a', 1e3)],
    );
    return dayNotes(sessionDay(result, [{ step: '1', batch: 1 }]), 8, '09:00').join(' ');
  };
  test('is where the day can end, when it stands until the next one begins: 21 h after 12:00', () => {
    expect(notes({ hours: 21, where: 'in the cold' })).toContain(
      'By the route 1-1 may stand after “crystals”: 21 h, in the cold.',
    );
    expect(notes({ hours: 20 })).toContain('1-1 may stand after “crystals” only 20 h: not until 09:00 of the next day.');
  });
  test('is none where the route says nothing, or where it is not over by the end of the day', () => {
    expect(notes(null)).toContain('A hold that may stand overnight, entered with the route, can change that.');
    expect(notes({ hours: 48 }, 500)).not.toContain('may stand after');
  });
  test('is typed like the time a product keeps', () => {
    const hold = { do: 'hold', id: 'h', stage: 'reaction', until: 'crystals' } as const;
    const read = STANDS_FIELD.write(hold, '16 h, stoppered', context);
    expect(read.ok && read.value.stands).toEqual({ hours: 16, where: 'stoppered' });
    expect(read.ok && STANDS_FIELD.read(read.value, context)).toBe('16 h, stoppered');
    expect(STANDS_FIELD.write(hold, 'overnight', context).ok).toBe(false);
  });
});
