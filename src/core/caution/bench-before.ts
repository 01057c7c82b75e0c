import type { BenchLine, BenchSection } from '../bench/bench-section.ts';
import type { Notice } from '../words/notice.ts';

/** Cautions that say themselves that gas must get away. */
const SAYS_VENT: ReadonlySet<string> = new Set(['gas freed', 'frees', 'reacts with water', 'acid frees carbon dioxide']);

export interface Before {
  readonly kind: BenchSection['kind'];
  readonly lines: readonly BenchLine[];
}

/**
 * Bench numbers that stand immediately before an operation, by section, without what a caution there says already.
 * @param notices cautions before the same operation. @param operation its id.
 */
export function benchBefore(sections: readonly BenchSection[], operation: string, notices: readonly Notice[]): readonly Before[] {
  const vents = notices.some(({ code, values }) => SAYS_VENT.has(code) && !(code === 'frees' && values.gases === ''));
  const told = (line: BenchLine): boolean => vents && line.code === 'no closed vessel';
  return sections.flatMap(({ kind, lines }) => {
    const here = lines.filter((line) => line.operation === operation && !told(line));
    return here.length === 0 ? [] : [{ kind, lines: here }];
  });
}
