import type { Port } from '../../core/port/port.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';
import { saveFile } from '../parts/save-file.ts';

/** Has main print an issued paper to a PDF and hands it to the person as a file. Gives back what to say. */
export async function savePdf(id: number, port: Pick<Port, 'call'>): Promise<string> {
  const answer = await port.call('papers.pdf', { id });
  if (!answer.ok) return paperPageWords.screen.failed(troubleWords(answer));
  const { name, base64 } = answer.value;
  const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  saveFile(name, new Blob([bytes], { type: 'application/pdf' }));
  return paperPageWords.screen.saved(name);
}
