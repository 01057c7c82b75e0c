import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const core = join(import.meta.dirname, '..', '..', 'src', 'core');
const files = readdirSync(core, { recursive: true, encoding: 'utf8' }).filter(
  (name) => name.endsWith('.ts') && !/^(words|paper|port)/.test(name),
);

/** Exported functions of the core with the comment that stands right above them. */
function exportedFunctions(): readonly { readonly where: string; readonly comment: string }[] {
  return files.flatMap((name) => {
    const text = readFileSync(join(core, name), 'utf8');
    return [...text.matchAll(/(\/\*\*(?:(?!\*\/)[\s\S])*\*\/\n)?^export (?:function|const) (\w+)(?=[(<:])/gm)].map((match) => ({
      where: `${name}: ${match[2]}`,
      comment: match[1] ?? '',
    }));
  });
}

test('every exported function of the core says what it means', () => {
  const all = exportedFunctions();
  expect(all.length).toBeGreaterThan(80);
  expect(all.filter((one) => one.comment.replaceAll(/[\s/*]/g, '').length < 20).map((one) => one.where)).toEqual([]);
});
