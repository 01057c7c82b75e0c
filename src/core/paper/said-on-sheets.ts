import { benchNumberWords as words } from '../words/bench-number-words.ts';
import type { WeighingSheet } from './sheet.ts';

/**
 * Bench numbers of sheets that are printed together: what they rest on is printed once, and the numbers of a further
 * batch of the same step point to the first where they are the same. Cautions are not among them and stand on every sheet.
 */
export function saidOnce(sheets: readonly WeighingSheet[]): WeighingSheet[] {
  const blocks = new Map<string, string>();
  const assumed = new Map<string, string>();
  return sheets.map((sheet) => {
    const { bench = [] } = sheet;
    if (bench.length === 0) return sheet;
    const numbers = JSON.stringify([sheet.step, bench]);
    const same = blocks.get(numbers);
    if (same !== undefined) return { ...sheet, bench: [{ title: '', lines: [words.numbersAsOn(same)], assumed: '' }] };
    blocks.set(numbers, sheet.id);
    return {
      ...sheet,
      bench: bench.map((block) => {
        const said = block.assumed === '' ? undefined : assumed.get(block.assumed);
        if (said !== undefined) return { ...block, assumed: words.asOn(said) };
        assumed.set(block.assumed, sheet.id);
        return block;
      }),
    };
  });
}
