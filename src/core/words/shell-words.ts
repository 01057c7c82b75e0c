import type { PortErrorCode } from '../port/result.ts';

/** What the window around the five places says. */
export const shellWords = {
  program: 'Backweigh',
  places: { routes: 'Routes', plan: 'Plan', shelf: 'Shelf', buy: 'Buy', bench: 'Bench' },
  placesLabel: 'Places',
  skip: 'Skip to the work',
  explainHeading: 'Where this comes from',
  explainTitle: (label: string) => `Where ${label} comes from`,
  explainHint: (label: string) => `${label}: where it comes from`,
  explainEntered: (where: string) => `entered: ${where}`,
  explainSource: (source: string, mark: string | null) => (mark ? `${source} (${mark})` : source),
  explainAgain: 'as above',
  commands: 'Commands',
  commandsSearch: 'Type what you want to do',
  commandsNone: 'No command says that.',
  goTo: (place: string) => `Go to ${place}`,
  commandList: 'Show all commands',
  searchHere: 'Search in this place',
  undo: 'Undo the last change of the plan',
  nothingToUndo: 'Nothing to undo: what was changed before this window was opened is not on the list',
  redo: 'Redo the change of the plan',
  close: 'Close',
  planName: 'Name of the plan',
  planRenamed: 'name of the plan',
  otherPlans: 'Open another plan',
  noPlan: 'No plan is open',
  loading: 'Opening the workbook…',
  state: (revision: number, saved: string) => `${revision > 0 ? `revision ${revision} · ` : ''}saved ${saved}`,
  saving: 'saving…',
  unsaved: 'not saved yet',
  notSaved: 'not saved',
  firstLook: {
    label: 'First look',
    example: 'This is a ready example.',
    steps: [
      'At the right stands the target: type how much you need, 25 g or 180 mmol, and everything to the left follows.',
      'The cascade flows back from the target. Amber is what each step is expected to lose: change a yield, as 72 or as 65/72/80. Choose a step and its charges stand below.',
      'At the left is what to fetch from the shelf, and what is short; the weighing sheets are printed from the Bench. A procedure of your own is entered in Routes: New route, or Alt+N.',
    ],
    at: (step: number, of: number) => `${step} of ${of}`,
    next: 'Next',
    done: 'Done',
    skip: 'Skip',
    command: 'Show the first look again',
  },
  lost: 'The program behind this window does not answer. What you typed is kept here; it is saved as soon as it answers again.',
  noKey: {
    title: 'This page needs the key it was opened with',
    text: 'Backweigh opens its own window with a key in the address. Close this tab and start Backweigh again.',
  },
  cannotStart: {
    title: 'The workbook could not be opened',
    retry: 'Try again',
  },
  saveFailed: (why: string) => `The plan is not saved. ${why} What you typed is kept here.`,
  saveAgain: 'Save again',
  conflict: 'This plan was changed in another window. What you typed is kept here.',
  keepMine: 'Keep mine',
  takeOther: 'Take the other',
  trouble: {
    'invalid input': 'The program did not accept it.',
    'not found': 'It is no longer there.',
    refused: 'The program refused it.',
    conflict: 'It was changed somewhere else.',
    storage: 'The data file could not be used.',
    'not here': 'The program does not answer.',
    'unknown procedure': 'This window and the program are of different versions.',
    internal: 'Something went wrong inside the program.',
  } satisfies Record<PortErrorCode, string>,
} as const;

/** A port error in words: the program's own sentence where it gave one, else what the code means. */
export function troubleWords(trouble: { readonly code: PortErrorCode; readonly detail: string }): string {
  const own = trouble.detail.trim();
  if (own.endsWith('.')) return own;
  return own === '' ? shellWords.trouble[trouble.code] : `${shellWords.trouble[trouble.code]} (${own})`;
}
