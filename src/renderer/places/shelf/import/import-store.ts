import { computed, signal } from '@preact/signals';
import {
  type FileChoices,
  type FilePreview,
  type FileProgress,
  type FileWritten,
  LARGEST_TABLE_FILE,
} from '../../../../core/port/files.ts';
import type { PortResult } from '../../../../core/port/result.ts';
import type { FateKind } from '../../../../core/shelf/import/fate.ts';
import type { ColumnUse } from '../../../../core/shelf/import/table.ts';
import { shelfImportWords } from '../../../../core/words/shelf-import-words.ts';
import { importScreenWords as words } from '../../../../core/words/shelf-import-screen-words.ts';
import { troubleWords } from '../../../../core/words/shell-words.ts';
import { saveFile } from '../../../parts/save-file.ts';
import { call } from '../../../state/connection.ts';
import { intakes, intakeSaid } from './intakes-store.ts';
import { forgetRows, shownFate } from './import-rows-store.ts';

export type TablePreview = Extract<FilePreview, { at: 'table' }>;

/** How far a file has come. What was shown last stays on screen while it is read anew. */
export type ImportState =
  | { readonly at: 'nothing' }
  /** `file` is null while it is handed over. */
  | { readonly at: 'reading'; readonly name: string; readonly file: number | null }
  | { readonly at: 'failed'; readonly name: string; readonly words: string }
  | {
      readonly at: 'encoding';
      readonly name: string;
      readonly file: number;
      readonly ask: Extract<FilePreview, { at: 'encoding' }>;
    }
  | { readonly at: 'shown'; readonly name: string; readonly file: number; readonly preview: TablePreview }
  | { readonly at: 'writing'; readonly name: string; readonly file: number; readonly preview: TablePreview }
  | { readonly at: 'written'; readonly name: string; readonly written: FileWritten };

const NOTHING: ImportState = { at: 'nothing' };
export const importState = signal<ImportState>(NOTHING);
/** What the person has said of how the file is to be read. */
export const choices = signal<FileChoices>({});
/** A question is on its way to main. */
export const asking = signal(false);
export const stopping = signal(false);
/** What stood in the way of the last change; what was shown before it still is. */
export const importTrouble = signal('');
export const importSaid = signal('');
export const progress = signal<FileProgress>({ stage: 'idle', done: 0, of: 0 });

/** What is needed to look at a file again after the window was loaded anew. */
export interface KeptImport {
  readonly name: string;
  readonly file: number;
  readonly choices: FileChoices;
}

const NO_IMPORT: KeptImport | null = null;
/** The file that is open, as it is kept over a reload of the window. */
export const keptImport = signal<KeptImport | null>(NO_IMPORT);

/** The file that is open and how it is read; null where none is, or it is written already. */
export function openImport(): KeptImport | null {
  const state = importState.value;
  return 'file' in state && state.file !== null ? { name: state.name, file: state.file, choices: choices.value } : null;
}

/** The uses of the columns as they were chosen last, be they read already or not. */
export const mapping = computed(() => {
  const state = importState.value;
  if (state.at !== 'shown' && state.at !== 'writing') return [];
  const chosen = choices.value.mapping;
  return chosen?.length === state.preview.mapping.length ? chosen : state.preview.mapping;
});

/** The choices that what is shown was read with: one that could not be followed is taken back to them. */
let shownWith: FileChoices = {};

/** Only the newest question's answer counts. */
let question = 0;

/** Hands a file over and shows what would become of it. */
export async function openTable(file: File): Promise<void> {
  question += 1;
  const mine = question;
  choices.value = {};
  shownWith = {};
  importTrouble.value = '';
  importSaid.value = '';
  shownFate.value = 'all';
  importState.value = { at: 'reading', name: file.name, file: null };
  const failed = (said: string): void => {
    if (mine === question) importState.value = { at: 'failed', name: file.name, words: said };
  };
  if (file.size > LARGEST_TABLE_FILE) return failed(shelfImportWords.file.tooLarge(LARGEST_TABLE_FILE));
  const base64 = await base64Of(file);
  if (base64 === null) return failed(words.unreadable);
  const opened = await call('files.open', { name: file.name.slice(0, 300) || 'file', base64 });
  if (mine !== question) return;
  if (!opened.ok) return failed(troubleWords(opened));
  importState.value = { at: 'reading', name: file.name, file: opened.value.file };
  await look(file.name, opened.value.file);
}

function base64Of(file: File): Promise<string | null> {
  const reader = new FileReader();
  return new Promise((done) => {
    reader.addEventListener('load', () => done(typeof reader.result === 'string' ? reader.result.replace(/^[^,]*,?/, '') : null));
    reader.addEventListener('error', () => done(null));
    reader.readAsDataURL(file);
  });
}

/** Reads the open file as it is chosen now. */
async function look(name: string, file: number): Promise<void> {
  question += 1;
  const mine = question;
  const before = importState.peek();
  const answer = await watched(file, () => call('files.preview', { file, choices: choices.peek() }));
  if (mine !== question) return;
  if (!answer.ok) {
    const said = troubleWords(answer);
    choices.value = shownWith;
    if (before.at === 'shown' || before.at === 'encoding') importTrouble.value = words.notReadAgain(said);
    else importState.value = { at: 'failed', name, words: said };
    return;
  }
  importTrouble.value = '';
  shownWith = choices.peek();
  const ask = answer.value;
  importState.value = ask.at === 'encoding' ? { at: 'encoding', name, file, ask } : { at: 'shown', name, file, preview: ask };
  if (ask.at === 'table' && shownFate.peek() !== 'all' && ask.counts[shownFate.peek() as FateKind] === 0) shownFate.value = 'all';
  forgetRows(file);
}

const LOOK_EVERY = 150;

/** Asks something that may take long, and how far it is meanwhile. */
async function watched<T>(file: number, ask: () => Promise<PortResult<T>>): Promise<PortResult<T>> {
  asking.value = true;
  stopping.value = false;
  const timer = setInterval(() => void readProgress(file), LOOK_EVERY);
  try {
    return await ask();
  } finally {
    clearInterval(timer);
    asking.value = false;
    stopping.value = false;
    progress.value = { stage: 'idle', done: 0, of: 0 };
  }
}

async function readProgress(file: number): Promise<void> {
  const answer = await call('files.progress', { file });
  if (answer.ok && asking.peek()) progress.value = answer.value;
}

/** Reads the file otherwise; columns are guessed anew where its fields may have become others. */
export function readOtherwise(change: Partial<FileChoices>): void {
  const state = importState.peek();
  if (state.at !== 'shown' && state.at !== 'encoding') return;
  const { mapping: _guessedAnew, ...kept } = choices.peek();
  choices.value = { ...kept, ...change };
  void look(state.name, state.file);
}

/** Says what a column is; the column that was it before is left out. */
export function useColumn(column: number, use: ColumnUse | null): void {
  const state = importState.peek();
  if (state.at !== 'shown') return;
  const next = mapping.peek().map((one, at) => (at === column ? use : one?.field === use?.field && use ? null : one));
  choices.value = { ...choices.peek(), mapping: next };
  void look(state.name, state.file);
}

/** Takes rows that are there already in as further bottles, or not. */
export function takeDuplicates(take: boolean): void {
  const state = importState.peek();
  if (state.at !== 'shown') return;
  choices.value = { ...choices.peek(), takeDuplicates: take };
  void look(state.name, state.file);
}

export async function writeRows(): Promise<void> {
  const state = importState.peek();
  if (state.at !== 'shown' || asking.peek()) return;
  const { name, file, preview } = state;
  importState.value = { at: 'writing', name, file, preview };
  const answer = await watched(file, () => call('files.write', { file, preview: preview.preview }));
  if (answer.ok) {
    intakes.value = null;
    intakeSaid.value = '';
    importState.value = { at: 'written', name, written: answer.value };
    return;
  }
  importState.value = state;
  importTrouble.value = troubleWords(answer);
  // The shelf has moved on, or it was stopped: what is shown must be what would be written.
  await look(name, file);
  if (importState.peek().at === 'shown') importTrouble.value = troubleWords(answer);
}

export async function stop(): Promise<void> {
  const state = importState.peek();
  if (!('file' in state)) return;
  stopping.value = true;
  // It is not handed over yet: its answer, when it comes, is to nobody.
  if (state.file === null) return failNow(state.name);
  await call('files.cancel', { file: state.file });
}

/** Looks again at a file that was open before the window was loaded anew: the program still holds it, or says that it does not. */
export async function resumeImport(): Promise<void> {
  const kept = keptImport.peek();
  if (!kept || importState.peek().at !== 'nothing') return;
  const { name, file } = kept;
  choices.value = kept.choices;
  shownWith = kept.choices;
  importState.value = { at: 'reading', name, file };
  await look(name, file);
  if (importState.peek().at === 'failed') importState.value = { at: 'failed', name, words: words.goneMeanwhile };
}

/** Lets go of the file. */
export function closeImport(): void {
  const state = importState.peek();
  question += 1;
  if ('file' in state && state.file !== null) void call('files.close', { file: state.file });
  importState.value = NOTHING;
  keptImport.value = NO_IMPORT;
}

function failNow(name: string): void {
  question += 1;
  stopping.value = false;
  importState.value = { at: 'failed', name, words: shelfImportWords.file.cancelled };
}

export async function saveRefused(): Promise<void> {
  const state = importState.peek();
  if (state.at !== 'shown') return;
  const answer = await call('files.refused', { file: state.file });
  if (!answer.ok) {
    importTrouble.value = troubleWords(answer);
    return;
  }
  const name = words.rows.refusedName(state.name);
  saveFile(name, new Blob([answer.value.text], { type: 'text/csv' }));
  importSaid.value = words.rows.refusedSaved(name);
}
