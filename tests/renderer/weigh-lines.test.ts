import { expect, test } from 'vitest';
import { cameTwice, wasTaken } from '../../src/renderer/state/weigh-lines.ts';

test('a line that was taken and comes again at once is held back once, then it counts; another line always counts', () => {
  wasTaken('5.80 g');
  expect([cameTwice('5.80 g'), cameTwice('5.80 g')]).toEqual([true, false]);
  wasTaken('5.80 g');
  expect([cameTwice('5.81 g'), cameTwice('5.80 g')]).toEqual([false, false]);
});
