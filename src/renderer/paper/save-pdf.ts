import type { Port } from '../../core/port/port.ts';
import { paperPageWords } from '../../core/words/paper-page-words.ts';
import { troubleWords } from '../../core/words/shell-words.ts';

/** Has main print an issued paper to a PDF and hands it to the person as a file. Gives back what to say. */
export async function savePdf(id: number, port: Pick<Port, 'call'>): Promise<string> {
  const answer = await port.call('papers.pdf', { id });
  if (!answer.ok) return paperPageWords.screen.failed(troubleWords(answer));
  const { name, base64 } = answer.value;
  download(name, base64);
  return name;
}

/** A link that is clicked once: the only download this window makes. */
function download(name: string, base64: string): void {
  const bytes = Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], { type: 'application/pdf' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
