import type { LabelPaper, Paper } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { runReportWords } from '../../core/words/run-entry-words.ts';
import { solutionWords } from '../../core/words/solution-words.ts';

/** One run of pages with its own foot: a sheet of a session, or the whole list. */
export interface PageRun {
  /** Name of the page type in CSS. */
  readonly name: string;
  readonly foot: string;
  /** What stands over every page of the run, so that a page that lies alone says what it belongs to. */
  readonly head: string;
}

/** The page types of a paper, in order. */
export function pageRuns(paper: Paper): readonly PageRun[] {
  if (paper.kind === 'session papers') return paper.parts.flatMap(pageRuns).map((run, at) => ({ ...run, name: runName(at) }));
  if (paper.kind === 'weighing sheet') {
    return paper.sheets.map((sheet, at) => ({
      name: runName(at),
      foot: `${words.sheet(sheet.id)} · ${words.chargesHere(sheet.charges)}`,
      head: `${sheet.title} · ${sheet.batchWords} · ${words.sheet(sheet.id)}`,
    }));
  }
  if (paper.kind === 'make-up')
    return [{ name: runName(0), foot: solutionWords.paper.linesHere(paper.lines.length), head: paper.title }];
  if (paper.kind === 'run report') {
    const head = `${paper.step} · ${paper.title}`;
    return [{ name: runName(0), foot: runReportWords.end(paper.entries.length), head }];
  }
  if (paper.kind === 'route summary') return [{ name: runName(0), foot: words.linesHere(paper.steps.length), head: paper.title }];
  if (paper.kind === 'labels') return [];
  if (paper.kind === 'session day')
    return [{ name: runName(0), foot: words.batchesHere(paper.batches.length), head: paper.title }];
  const lines = paper.kind === 'fetch list' ? paper.lines : paper.lines.length;
  return [{ name: runName(0), foot: words.linesHere(lines), head: paper.title }];
}

export function runName(at: number): string {
  return `run-${at + 1}`;
}

/**
 * The page rules of a paper as CSS: size, and in the margin of every page the standing sentence, the plan with its
 * revision, what is on this sheet, and the page of pages. Margin boxes print; nothing else on the page has to move.
 */
export function pageRules(paper: Paper, state: string): string {
  if (paper.kind === 'labels') return labelRules(paper);
  const left = (foot: string) => {
    const after = ` · ${state} · ${foot}`;
    const before = `${words.program} · `;
    const name = cutTo(
      paper.plan === '' ? paper.title : paper.plan,
      Math.max(SHORTEST_NAME, LONGEST_FOOT - before.length - after.length),
    );
    return cssText(`${words.standing}\n${before}${name}${after}`);
  };
  const counted = `${cssText(words.page.before)} counter(page) ${cssText(words.page.between)} counter(pages)`;
  const base = `@page { size: ${paper.size === 'A4' ? 'A4' : 'letter'}; margin: 12mm 11mm 18mm 11mm; }`;
  const runs = pageRuns(paper).map(
    ({ name, foot, head }) => `@page ${name} {
  @top-right { content: ${cssText(cutTo(head, LONGEST_HEAD))}; text-align: right; vertical-align: bottom; width: 100%; ${HEAD} }
  @bottom-left { content: ${left(foot)}; white-space: pre-line; text-align: left; vertical-align: top; width: 86%; ${FOOT} }
  @bottom-right { content: "\\A" ${counted}; white-space: pre; text-align: right; vertical-align: top; width: 14%; ${FOOT} }
}
.${name} { page: ${name}; }`,
  );
  return [base, ...runs].join('\n');
}

/** Labels fill their page: it has no margins, and nothing stands in them. */
function labelRules({ layout, size }: LabelPaper): string {
  const page = layout.single ? `${layout.width}mm ${layout.height}mm` : size === 'A4' ? 'A4' : 'letter';
  return `@page { size: ${page}; margin: 0; }`;
}

/** A plan's name is cut where the foot would not stay on its line; the head of the paper has it whole. */
const LONGEST_FOOT = 94;
const SHORTEST_NAME = 12;
/** A title longer than this would break into a second line over the page. */
const LONGEST_HEAD = 90;

function cutTo(name: string, longest: number): string {
  return name.length > longest ? `${name.slice(0, longest - 1).trimEnd()}…` : name;
}

const HEAD =
  'font: 10pt/12pt "Liberation Sans", "Helvetica Neue", Arial, "DejaVu Sans", sans-serif; color: #000; padding-bottom: 1mm;';

const FOOT =
  'font: 10pt/13pt "Liberation Sans", "Helvetica Neue", Arial, "DejaVu Sans", sans-serif; color: #000; border-top: 0.6pt solid #000; padding-top: 2mm; margin-top: 2mm;';

/** A CSS string: quotes, backslashes and line breaks escaped, so that no plan name can end it. */
export function cssText(text: string): string {
  const escaped = text.replace(/["\\]/g, '\\$&').replace(/\p{Cc}/gu, (sign) => `\\${sign.charCodeAt(0).toString(16)} `);
  return `"${escaped}"`;
}
