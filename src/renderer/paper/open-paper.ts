import { Paper } from '../../core/paper/paper.ts';
import type { Port } from '../../core/port/port.ts';
import { FRAGMENT } from '../../core/port/wire.ts';
import type { IssuedPaper } from '../../core/port/workbook.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { dayAndTime } from '../parts/day-text.ts';
import type { ShownPaper } from './paper-state.ts';

/** Which paper an address asks for: `#paper=12`, or `#paper=preview` for one that is not issued yet. */
export function askedPaper(hash: string): number | 'preview' | null {
  const asked = new URLSearchParams(hash.replace(/^#/, '')).get(FRAGMENT.paper);
  if (asked === 'preview') return 'preview';
  return asked !== null && /^[1-9]\d{0,9}$/.test(asked) ? Number(asked) : null;
}

/** Where the Bench leaves a paper that is to be looked at before it is issued. */
export const PREVIEW = 'backweigh preview';

export type Opened = { readonly ok: true; readonly shown: ShownPaper } | { readonly ok: false; readonly words: string };

/** Reads the preview that the Bench left in this tab. */
export function openPreview(storage: Pick<Storage, 'getItem'>): Opened {
  const text = storage.getItem(PREVIEW);
  if (text === null) return { ok: false, words: words.screen.missing };
  try {
    return check(JSON.parse(text), { words: words.notIssued, short: words.notIssued, id: null, revision: 0, issued: '' });
  } catch {
    return { ok: false, words: words.screen.unreadable };
  }
}

/** Reads an issued paper through the port; checked before it is drawn, like every document that comes in. */
export async function openIssued(id: number, port: Port): Promise<Opened> {
  const answer = await port.call('papers.read', { id });
  if (!answer.ok) return { ok: false, words: troubleWords(answer) };
  const { revision, issued, paper } = answer.value;
  return check(paper, { words: stateWords(answer.value), short: numberWords(answer.value), id, revision, issued });
}

type Issued = Pick<IssuedPaper, 'id' | 'revision' | 'issued'>;

function stateWords(paper: Issued): string {
  return `${numberWords(paper)} · ${dayAndTime(paper.issued)}`;
}

/** The revision of its plan, or its own number where it belongs to none. */
function numberWords({ id, revision }: Issued): string {
  return revision === 0 ? words.paper(id) : words.revision(revision);
}

function check(paper: unknown, state: ShownPaper['state']): Opened {
  const read = Paper.safeParse(paper);
  return read.success ? { ok: true, shown: { paper: read.data, state } } : { ok: false, words: words.screen.unreadable };
}
