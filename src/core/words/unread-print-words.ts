import type { UnreadPrint } from '../procedure/unread-prints.ts';

/** Where a printed text cannot be read: the step, the charge, the text with its place, and what is expected there. */
export function unreadPrintText({ title, of, text, problem }: UnreadPrint): string {
  const what = of === 'product' ? 'product as printed' : of === 'yield' ? 'yield as printed' : of.name;
  const at = Math.max(0, Math.min(problem.at, text.length));
  const place = at === 0 ? '' : ` after “${text.slice(0, at).trimEnd()}”`;
  return `${title}, ${what}: “${text}” cannot be read${place}: ${problem.words}.`;
}

/** All of them on one line, as a file is taken in; empty where every print can be read. */
export function unreadPrintsText(prints: readonly UnreadPrint[]): string {
  if (prints.length === 0) return '';
  return `As published, kept as they stand and marked at their place: ${prints.map(unreadPrintText).join(' ')} Their ratios are planned with.`;
}
