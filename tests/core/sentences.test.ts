import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { sectionWords } from '../../src/core/words/bench-number-words.ts';
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

test('a heat below zero has the sign of a number, not a hyphen that reads as “to”', () => {
  const said = sentence({ code: 'heat at great dilution only', values: { material: 'potassium hydroxide', heat: -57.61 } });
  expect(said).toContain('(−57.6 kJ/mol)');
});

test('an unknown code shows itself', () => {
  expect(sentence({ code: 'nobody said this', values: {} })).toContain('nobody said this');
});

test('every line and assumption of the neutralise and gas sections has words', () => {
  const own = readdirSync(join(core, 'quench'), { encoding: 'utf8' }).map((name) =>
    readFileSync(join(core, 'quench', name), 'utf8'),
  );
  const codes = own.flatMap((text) =>
    [...text.matchAll(/bench(?:Line|Words|Range)\(\s*'([^']+)'/g)].map((match) => match[1] ?? ''),
  );
  const assumed = own.flatMap((text) =>
    [...text.matchAll(/assumptions(?:: | = )\[([^\]]+)\]/g)].flatMap((match) =>
      [...(match[1] ?? '').matchAll(/'([^']+)'/g)].map((one) => one[1] ?? ''),
    ),
  );
  const words = [sectionWords('neutralise'), sectionWords('gas')];
  expect(codes.length).toBeGreaterThan(20);
  expect(codes.filter((code) => !words.some((one) => code in one.lines))).toEqual([]);
  expect(assumed.length).toBeGreaterThan(8);
  expect(assumed.filter((code) => !words.some((one) => code in one.assumptions))).toEqual([]);
});
