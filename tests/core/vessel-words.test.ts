import { expect, test } from 'vitest';
import { vesselBox } from '../../src/core/paper/vessel-words.ts';
import { benchWords } from '../../src/core/words/bench-words.ts';
import { stageVolume } from './paper-fixture.ts';

test('a vessel that is too small is called so, never filled to more than it may hold', () => {
  // 3.37 L in a flask of 1 L.
  expect(vesselBox([stageVolume('reaction', 3370, 1000)], '.').lines[0]).toMatch(
    /^too small: 3370.mL would be in it, 337.%; two thirds at most$/,
  );
  expect(vesselBox([stageVolume('reaction', 600, 1000)], '.').lines[0]).toMatch(/^filled to 600.mL, 60.%; two thirds at most$/);
  expect(benchWords.batches.vessel('1 L flask', 337, 67, 'quench')).toBe(
    '1 L flask, too small for the quench: 337 % of it, 67 % at most',
  );
  expect(benchWords.batches.vessel('1 L flask', 60, 67, 'work-up')).toBe('1 L flask, filled to 60 % at most, in the work-up');
});
