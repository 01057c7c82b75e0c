import { chooseFile } from '../../../parts/choose-file.ts';
import { goTo } from '../../../state/place.ts';
import { importShelf } from '../shelf-files.tsx';
import { panel } from '../shelf-store.ts';
import { openTable } from './import-store.ts';

const ACCEPTED =
  '.csv,.tsv,.txt,.xlsx,.json,text/csv,application/json,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** Lets the person choose a file and takes it in: a shelf file of our own at once, a table by way of its preview. */
export async function chooseShelfFile(): Promise<void> {
  const file = await chooseFile(ACCEPTED);
  if (!file) return;
  goTo('shelf');
  if (await isShelfFile(file)) {
    await importShelf(file);
    return;
  }
  panel.value = { show: 'import' };
  await openTable(file);
}

/** Told by its first sign, whatever it is called. */
async function isShelfFile(file: File): Promise<boolean> {
  const start = await file
    .slice(0, 1000)
    .text()
    .catch(() => '');
  return /^\ufeff?\s*\{/.test(start) || file.name.toLowerCase().endsWith('.json');
}
