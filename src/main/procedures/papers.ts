import { mainWords } from '../../core/words/main-words.ts';
import { issuePaper, listPapers, readPaper } from '../store/papers.ts';
import { stateOfRevision } from '../store/plans.ts';
import { Refusal } from '../store/refusal.ts';
import type { Procedures } from './context.ts';
import { plainProblem } from './plain-data.ts';

type PaperName = Extract<keyof Procedures, `papers.${string}`>;

const MOST_CHARACTERS = 4_000_000;

export const paperProcedures: Procedures<PaperName> = {
  'papers.issue': ({ keeper, clock }, { planId, state, revision, kind, title, paper }) => {
    const problem = plainProblem(paper);
    if (problem !== null) throw new Refusal('invalid input', problem);
    const data = JSON.stringify(paper);
    if (data.length > MOST_CHARACTERS) throw new Refusal('invalid input', mainWords.tooLarge(MOST_CHARACTERS));
    const database = keeper.database();
    const issued = clock.now();
    const of = planId === null || revision === undefined ? state : stateOfRevision(database, planId, revision);
    const plan = planId === null || of === null ? null : { id: planId, state: of };
    return { ...database.write(() => issuePaper(database, { plan, kind, title, data, at: issued })), issued };
  },

  'papers.read': ({ keeper }, { id }) => readPaper(keeper.database(), id),

  'papers.list': ({ keeper }, { planId }) => listPapers(keeper.database(), planId),

  'papers.pdf': async ({ keeper, host }, { id }) => {
    const { title, revision } = readPaper(keeper.database(), id);
    const bytes = await host.pdf(id);
    return { name: pdfName(title, revision), base64: Buffer.from(bytes).toString('base64') };
  },

  'papers.print': async ({ keeper, host }, { id }) => {
    const { title, revision } = readPaper(keeper.database(), id);
    return { how: await host.print(id, pdfName(title, revision)) };
  },
};

/** A file name every system takes: letters, digits, and a few marks. */
function pdfName(title: string, revision: number): string {
  const plain = title
    .replace(/[^\p{L}\p{N} ,()_-]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 80);
  return `${plain === '' ? 'Paper' : plain}${revision === 0 ? '' : `, revision ${revision}`}.pdf`;
}
