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
  const made = as === 'json' ? await jsonOf() : await tableOf(as);
  if (typeof made !== 'string') {
    const name = importScreenWords.export.name(today.value, as);
    saveFile(name, new Blob([made.content], { type: TYPES[as] }));
    said.value = shelfWords.files.exported(name);
  } else said.value = shelfWords.files.failed(made);
}

type Made = string | { readonly content: BlobPart };

async function jsonOf(): Promise<Made> {
  const answer = await call('shelf.export', {});
  return answer.ok ? { content: answer.value.text } : troubleWords(answer);
}

async function tableOf(as: 'csv' | 'xlsx'): Promise<Made> {
  const answer = await call('files.shelf', { as });
  return answer.ok ? { content: bytesOf(answer.value.base64) } : troubleWords(answer);
}

function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
