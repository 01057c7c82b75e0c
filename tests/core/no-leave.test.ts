import { expect, test } from 'vitest';
import type { SectionCode } from '../../src/core/bench/bench-section.ts';
import { sectionWords } from '../../src/core/words/bench-number-words.ts';
import { knownCodes, sentence } from '../../src/core/words/sentences.ts';

/** Words that somebody in a hurry could take as leave to go on. */
const LEAVE =
  /\b(safely|ok|harmless|no danger|no risk|without risk|permitted|allowed to|go ahead|can go on|may be added|can be used|may be used|take less|use less|sufficient|fine)\b/i;
/** “unknown is not safe” and the procedure’s safety are no leave. */
const SAFE = /(?<!\bnot )(?<!’s )\bsafe(?!ty)\b/i;

const SECTIONS: readonly SectionCode[] = ['heat', 'addition', 'neutralise', 'gas', 'vessel', 'recrystallise'];

test.each(SECTIONS)('no line and no assumption of “%s” reads as leave to go on', (code) => {
  const { lines, assumptions } = sectionWords(code);
  for (const value of ['one', 1, '', 5]) {
    const values = new Proxy<Record<string, string | number>>({}, { get: () => value });
    for (const [name, make] of Object.entries(lines)) {
      expect(make(values), name).not.toMatch(LEAVE);
      expect(make(values), name).not.toMatch(SAFE);
    }
  }
  for (const text of Object.values(assumptions)) expect(text).not.toMatch(LEAVE);
});

test('no sentence that the core can say reads as leave to go on', () => {
  for (const code of knownCodes()) {
    for (const values of [{}, { material: 'one', other: 'two', bottles: 1, lots: 1, quench: 1, spent: 1 }]) {
      const said = sentence({ code, values });
      expect(said, code).not.toMatch(LEAVE);
      expect(said, code).not.toMatch(SAFE);
    }
  }
});
