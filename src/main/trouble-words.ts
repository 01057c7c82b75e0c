import type { BackupEntry, StartTrouble } from '../core/port/program.ts';
import { startWords } from '../core/words/main-words.ts';
import { mayBegin } from './store/keeper.ts';
import type { Trouble } from './store/trouble.ts';

/** What the start-up screen says about a workbook that could not be opened. */
export function startTrouble(trouble: Trouble, backups: readonly BackupEntry[]): StartTrouble {
  const usable = mayBegin(trouble) ? backups : [];
  return { kind: trouble.kind, ...sentences(trouble, usable.length), backups: usable, mayBegin: mayBegin(trouble) };
}

function sentences(trouble: Trouble, backups: number): Pick<StartTrouble, 'title' | 'paragraphs' | 'lies'> {
  switch (trouble.kind) {
    case 'damaged':
      return { ...startWords.damaged(backups), lies: trouble.movedTo };
    case 'missing':
      return { ...startWords.missing(backups), lies: trouble.folder };
    case 'newer':
      return { ...startWords.newer, lies: trouble.file };
    case 'not ours':
      return { ...startWords.notOurs, lies: trouble.file };
    case 'network share':
      return { ...startWords.networkShare(trouble.share), lies: trouble.folder };
    case 'not writable':
      return { ...startWords.notWritable(trouble.detail), lies: trouble.folder };
  }
}
