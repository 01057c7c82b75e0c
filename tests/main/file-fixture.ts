import type { FileChoices, FilePreview } from '../../src/core/port/files.ts';
import type { Workbook } from './workbook-fixture.ts';

/** Hands a text over as a file and looks at it. */
export async function openedFile(
  { must }: Workbook,
  text: string,
  choices: FileChoices = {},
): Promise<{ readonly file: number; readonly preview: Extract<FilePreview, { at: 'table' }> }> {
  const { file } = await must('files.open', { name: 'inventory.csv', base64: Buffer.from(text).toString('base64') });
  const preview = await must('files.preview', { file, choices });
  if (preview.at !== 'table') throw new Error('no table');
  return { file, preview };
}

/** How many bottles are on the shelf. */
export function bottleCount({ keeper }: Workbook): number | undefined {
  return keeper.database().get<{ count: number }>('SELECT count(*) AS count FROM bottle')?.count;
}
