import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Code, readCode, typedCode, withoutCode, writeCode } from '../../src/core/code/code.ts';
import { labelMeant } from '../../src/core/code/label-meant.ts';
import { afterKey, NO_KEYS, scannedIn } from '../../src/renderer/state/scan-keys.ts';

const label = fc
  .string({ minLength: 1, maxLength: 80, unit: 'grapheme' })
  .map((text) => text.normalize('NFC').replaceAll(/\s+/g, ' ').trim().slice(0, 80).trim())
  .filter((text) => text.length > 0 && !/BW[A-Z]\./i.test(text));
const code: fc.Arbitrary<Code> = fc.oneof(
  label.map((one) => ({ kind: 'bottle' as const, label: one })),
  fc
    .tuple(fc.integer({ min: 1, max: 2_000_000_000 }), fc.integer({ min: 1, max: 60 }), fc.integer({ min: 1, max: 99 }))
    .map(([paper, step, batch]) => ({ kind: 'sheet' as const, paper, sheet: `${step}-${batch}` })),
);

describe('codes', () => {
  test('what is written is read back, whatever the label', () => {
    fc.assert(
      fc.property(code, (one) => {
        expect(readCode(writeCode(one))).toEqual({ ok: true, code: one });
      }),
    );
  });

  test('by hand: the sum of place × sign, modulo 97', () => {
    // B . B - 1 2 = 66, 46, 66, 45, 49, 50: 66 + 92 + 198 + 180 + 245 + 300 = 1081 = 11 × 97 + 14.
    expect(writeCode({ kind: 'bottle', label: 'B-12' })).toBe('BWB.B-12.14');
    // Small letters in the frame: the scanner exchanges capitals, so they tell nothing of the label's own.
    for (const typed of ['bwb.b-12.14', 'bwb.B-12.14'])
      expect(readCode(typed)).toEqual({ ok: true, code: { kind: 'bottle', label: 'B-12' } });
  });

  test('a sign lost, changed or exchanged with its neighbour is misread, never another bottle', () => {
    const text = fc.integer({ min: 1, max: 999_999 }).map((number) => writeCode({ kind: 'bottle', label: `B-${number}` }));
    fc.assert(
      fc.property(text, fc.nat(), fc.constantFrom('0', '3', '7', 'Z', 'ß'), (whole, at, sign) => {
        // Behind the frame, before the check digits.
        const place = 4 + (at % (whole.length - 7));
        const changed = `${whole.slice(0, place)}${sign}${whole.slice(place + 1)}`;
        if (changed !== whole) expect(readCode(changed)).toEqual({ ok: false });
        const lost = `${whole.slice(0, place)}${whole.slice(place + 1)}`;
        const read = readCode(lost);
        if (read?.ok) expect(read).not.toMatchObject({ code: { label: whole.slice(4, -3) } });
        const swapped = `${whole.slice(0, place)}${whole[place + 1] ?? ''}${whole[place] ?? ''}${whole.slice(place + 2)}`;
        if (swapped !== whole && place + 1 < whole.length - 3) expect(readCode(swapped)).toEqual({ ok: false });
      }),
    );
  });

  test('a label whose accents stand apart is read back as one that is found', () => {
    const written = writeCode({ kind: 'bottle', label: 'Sa\u0308ure-1' });
    const read = readCode(written);
    expect(read).toEqual({ ok: true, code: { kind: 'bottle', label: 'S\u00e4ure-1' } });
    expect(labelMeant('S\u00e4ure-1', ['Sa\u0308ure-1', 'Saure-1'])).toEqual({ kind: 'one', label: 'Sa\u0308ure-1' });
  });

  test('a label is found whatever capitals the scanner types; two that differ only in them are never taken for each other', () => {
    const shelf = ['Sm-12a', 'B-7', 'b-7', 'C 1'];
    for (const typed of ['SM-12A', 'sm-12a', ' Sm-12a '])
      expect(labelMeant(typed, shelf)).toEqual({ kind: 'one', label: 'Sm-12a' });
    expect(labelMeant('c  1', shelf)).toEqual({ kind: 'one', label: 'C 1' });
    expect(labelMeant('b-7', shelf)).toEqual({ kind: 'one', label: 'b-7' });
    expect(labelMeant('B-7', shelf)).toEqual({ kind: 'several', labels: ['B-7', 'b-7'] });
    expect(labelMeant('B-70', shelf)).toEqual({ kind: 'none' });
  });

  test('a scanner set to a German keyboard is told, not obeyed', () => {
    // Its hyphen arrives as ß.
    expect(readCode('BWB.Bß12.14')).toEqual({ ok: false });
  });

  test('as a person types them', () => {
    expect(readCode('b-12')).toEqual({ ok: true, code: { kind: 'bottle', label: 'B-12' } });
    const sheet = { kind: 'sheet', paper: 12, sheet: '2-1' } as const;
    expect(typedCode(sheet)).toBe('S12.2-1');
    expect(readCode(' s12.2-1 ')).toEqual({ ok: true, code: sheet });
    for (const none of ['', 'benzil', '12.345 g', 'B', 'S1', 'ST,+00012.34  g', '2-1']) expect(readCode(none)).toBeNull();
  });
});

describe('what a scanner types', () => {
  const type = (text: string, pause = 8) => {
    let keys = NO_KEYS;
    let heard = '';
    let now = 1000;
    for (const key of text) {
      const next = afterKey(keys, key, (now += pause));
      keys = next.keys;
      if (!next.ours) heard += key;
    }
    return { keys, heard };
  };

  test('outside of fields no command hears its keys once the frame stands', () => {
    const { keys, heard } = type('BWB.B-10.12');
    expect([keys.text, heard]).toEqual(['BWB.B-10.12', 'BWB']);
    expect(scannedIn(writeCode({ kind: 'bottle', label: 'B-10' }), false)?.reading.ok).toBe(true);
  });

  test('keys apart by a long pause are no code', () => {
    expect(type('BWB.B-12.14', 2000).keys.text).toBe('4');
  });

  test('in a field it is taken out again, and what was typed before stays', () => {
    fc.assert(
      fc.property(code, fc.constantFrom('', '40 g', 'nitric acid', 'lot 7.'), (one, before) => {
        const scanned = scannedIn(`${before}${writeCode(one)}`, true);
        expect(scanned).toEqual({ reading: { ok: true, code: one }, rest: before });
      }),
    );
    expect(scannedIn('B-12', true)).toBeNull();
    expect(withoutCode('40 g')).toBe('40 g');
  });
});
