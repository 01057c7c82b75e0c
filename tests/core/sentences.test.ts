import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { knownCodes, sentence } from '../../src/core/words/sentences.ts';

const core = join(import.meta.dirname, '..', '..', 'src', 'core');
const sources = readdirSync(core, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts') && !name.startsWith('words'))
  .map((name) => readFileSync(join(core, name), 'utf8'));

/** Codes as they stand in the sources: code: '…', unknown('…'), say('…'), refusal('…'), and the pairs table. */
function codesInSources(): ReadonlySet<string> {
  const patterns = [
    /code: '([^']+)'/g,
    /unknown\(\s*'([^']+)'/g,
    /say\('([^']+)'/g,
    /refusal\('([^']+)'/g,
    /(?:\w|\)), '([a-z][^']+)'\],$/gm,
  ];
  return new Set(
    sources.flatMap((text) => patterns.flatMap((pattern) => [...text.matchAll(pattern)].map((match) => match[1] ?? ''))),
  );
}

test('every code the core says has a sentence', () => {
  const codes = codesInSources();
  expect(codes.size).toBeGreaterThan(25);
  expect([...codes].filter((code) => !knownCodes().includes(code))).toEqual([]);
});

test('a sentence holds its values and no gaps', () => {
  const said = sentence({ code: 'short', values: { material: 'ethanol', form: '96 % v/v', amount: 63, unit: 'mL', uses: 4 } });
  expect(said).toBe('ethanol 96 % v/v is short by 63.0 mL over 4 steps.');
});

test('an unknown code shows itself', () => {
  expect(sentence({ code: 'nobody said this', values: {} })).toContain('nobody said this');
});
