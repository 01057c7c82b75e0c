import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sessionOf } from '../../src/core/paper/session.ts';
import { batchLines, dayNotes } from '../../src/core/paper/session-day-lines.ts';
import type { SessionContext } from '../../src/core/paper/session-papers.ts';
import { sessionPapers } from '../../src/core/paper/session-papers.ts';
import { Paper } from '../../src/core/paper/paper.ts';
import { dayBefore } from '../../src/core/session/day-before.ts';
import { sessionDay } from '../../src/core/session/session-day.ts';
import { hoursText, timeOfDay } from '../../src/core/words/session-words.ts';
import { demoContext, demoInput as input, demoPlan as result } from './demo-fixture.ts';
import { charge, DEMO, hold, plan, step, take } from './paper-fixture.ts';

const batch = (id: string, number = 1) => ({ step: id, batch: number });

describe('the day of a session', () => {
  test('by hand: additions and holds of the fixture, one step waiting for the other', () => {
    const day = sessionDay(DEMO, [batch('benzil', 2), batch('benzil'), batch('benzoin')]);
    const [benzoin, first, second] = day.batches;
    expect(day.batches.map((one) => `${one.number}-${one.batch}`)).toEqual(['1-1', '2-1', '2-2']);
    // Lye over 10 min and whatever holds of the fixture have a time; benzil takes its basis from that dish.
    expect(benzoin?.begins).toBe(0);
    expect([first?.begins, second?.begins]).toEqual([benzoin?.ends, benzoin?.ends]);
    // "no brown gas is left", about 90 min, is the only time of step 2.
    expect(first?.timed.map((one) => [one.what, one.minutes])).toEqual([['no brown gas is left', 90]]);
    expect(first?.openHolds).toEqual(['the washings are acid-free']);
    expect(day.ends).toBe((benzoin?.ends ?? 0) + 90);
    expect(day.known).toBe((benzoin?.known ?? 0) + 180);
  });

  test('what runs over the end of the day is named with its end, and what cannot begin before it', () => {
    // Benzoin takes 100 min, benzil 90 min after it: with an hour and three quarters benzil waits for the next day.
    const chosen = [batch('benzoin'), batch('benzil'), batch('benzil', 2)];
    const day = sessionDay(DEMO, chosen);
    expect(dayNotes(day, 1.5, '09:00')).toContain('Not over by 10:30, at the earliest: 1-1: crystals fill the liquid, to 10:40.');
    expect(dayNotes(day, 1.5, '09:00')).toContain('Cannot begin before 10:30: 2-1, 2-2.');
    // 100 min for 1-1: in 90 min nothing ends; in 120 min the first does, and the others are for another day.
    expect(dayNotes(day, 1.5, '09:00').join(' ')).toContain('no batch ends within the day: plan another day for 1-1, 2-1, 2-2.');
    expect(dayNotes(day, 2, '09:00').join(' ')).toContain('To stop overnight: after 1-1; plan another day for 2-1, 2-2.');
    expect(dayNotes(day, 24, '09:00').join(' ')).not.toContain('overnight');
    expect(dayNotes(day, 2, '09:00').join(' ')).toContain('2-1, 2-2: no brown gas is left, to 12:10');
    expect(dayNotes(day, 24, '09:00').join(' ')).not.toMatch(/Not over|Cannot begin/);
    // Overnight.
    expect(dayNotes(day, 2, '22:00').join(' ')).toContain('to 01:10, the next day');
  });

  test('the known times are never said to be the whole, and what goes past the day is said', () => {
    const day = sessionDay(DEMO, [batch('benzil')]);
    expect(dayNotes(day, 1, '09:00').join(' ')).toContain('30\u00a0min past the 1\u00a0h of this day');
    expect(dayNotes(day, 8, '09:00').join(' ')).toContain('At least');
    expect(dayNotes(day, 8, '09:00').join(' ')).not.toMatch(/\bfits|enough time|safe/i);
    expect(batchLines(day.batches[0] ?? expect.fail(), '09:00').times).toEqual([
      'to 10:30 · hold of 1\u00a0h 30\u00a0min: no brown gas is left',
    ]);
  });

  test('every operation is counted once: with its time, as an open hold, or as an operation without a time', () => {
    const minutes = fc.option(fc.integer({ min: 1, max: 600 }), { nil: null });
    fc.assert(
      fc.property(fc.array(minutes, { maxLength: 20 }), fc.array(minutes, { maxLength: 20 }), (additions, holds) => {
        const operations = [
          ...additions.map((over, at) => charge(`c${at}`, 'reaction', 'water', take('mass', 1, 'g', 2), { overMinutes: over })),
          ...holds.map((about, at) =>
            hold({ do: 'hold', id: `h${at}`, stage: 'reaction', until: 'x', ...(about === null ? {} : { aboutMinutes: about }) }),
          ),
        ];
        const day = sessionDay(plan([step('one', 1, 'One', operations)]), [batch('one')]);
        const [only] = day.batches;
        expect((only?.timed.length ?? 0) + (only?.openHolds.length ?? 0) + (only?.openOperations ?? 0)).toBe(operations.length);
        const sum = [...additions, ...holds].reduce<number>((all, one) => all + (one ?? 0), 0);
        expect([day.known, day.ends]).toEqual([sum, sum]);
      }),
    );
  });

  test('times of day run over midnight in words', () => {
    expect(timeOfDay('09:00', 285)).toBe('13:45');
    expect(timeOfDay('16:30', 480)).toBe('00:30, the next day');
    expect(timeOfDay('00:00', 3 * 1440)).toBe('00:00, 3 days later');
    expect([hoursText(0), hoursText(90), hoursText(120)]).toEqual(['0\u00a0min', '1\u00a0h 30\u00a0min', '2\u00a0h']);
  });
});

describe('the ready example', () => {
  const chosen = result.steps.flatMap((one) => Array.from({ length: one.batches.count }, (_, at) => batch(one.id, at + 1)));
  const bottles = new Map(input.shelf.bottles.map((one) => [one.id, one]));

  test('before the day: what is short, what is past its date by then, what is made up', () => {
    const list = dayBefore(result, sessionOf(result, chosen), bottles, input.asOf);
    expect(list.map((one) => one.do)).toEqual(['get', 'test', 'make up']);
    // A day after the nitric acid has expired it is to be tested too.
    const acid = input.shelf.bottles.find((one) => one.lot === '26-063');
    const later = dayBefore(result, sessionOf(result, chosen), bottles, '2099-01-01');
    expect(later.filter((one) => one.do === 'test').map((one) => one.bottle)).toContain(acid?.id);
  });

  test('all papers: the day, the fetch list, the make-ups, each sheet once', () => {
    const around: SessionContext = { ...demoContext, input, day: (iso) => iso };
    const about = { name: '', date: '2027-02-25', starts: '09:00', hours: 8, batches: chosen };
    const papers = sessionPapers(about, chosen, around);
    expect(Paper.safeParse(papers).success).toBe(true);
    expect(papers.parts.map((one) => one.kind)).toEqual(['session day', 'fetch list', 'make-up', 'weighing sheet']);
    expect(papers.title).toBe('Papers for Session of 2027-02-25');
    const sheets = papers.parts.flatMap((one) => (one.kind === 'weighing sheet' ? one.sheets.map((sheet) => sheet.id) : []));
    expect(sheets).toEqual(['1-1', '2-1', '2-2', '3-1', '4-1']);
    expect(sessionPapers(about, chosen, around)).toEqual(papers);
    expect(() => sessionPapers(about, [], around)).toThrow('got none');
  });
});
