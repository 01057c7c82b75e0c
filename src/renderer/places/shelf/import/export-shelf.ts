import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { shelfWords } from '../../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../../core/words/shell-words.ts';
import { saveFile } from '../../../parts/save-file.ts';
import { call } from '../../../state/connection.ts';
import { today } from '../../../state/workbook.ts';
import { said } from '../shelf-store.ts';

export type ExportKind = 'csv' | 'xlsx' | 'json';

const TYPES: Readonly<Record<ExportKind, string>> = {
  csv: 'text/csv',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  json: 'application/json',
};

/** Gives the whole shelf out as a file of one kind. */
export async function exportShelf(as: ExportKind): Promise<void> {
  said.value = importScreenWords.export.making;
  const answer = await call('files.shelf', { as });
  if (!answer.ok) {
    said.value = shelfWords.files.failed(troubleWords(answer));
    return;
  }
  const name = importScreenWords.export.name(today.value, as);
  saveFile(name, new Blob([bytesOf(answer.value.base64)], { type: TYPES[as] }));
  said.value = shelfWords.files.exported(name);
}

function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
