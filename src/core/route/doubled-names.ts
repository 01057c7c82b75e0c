import { pointer } from '../words/file-problems.ts';

/**
 * JSON pointers of names that stand twice in one object of a JSON text. A JSON reader keeps the last and drops the
 * first without a word, which would lose a material or a yield.
 * @param text JSON that has been parsed without error.
 */
export function doubledNames(text: string): readonly string[] {
  const doubled: string[] = [];
  const open: { readonly names: Set<string> | null; key: string | number }[] = [];
  const tokens = /"(?:[^"\\]|\\.)*"|[{}[\],:]/g;
  let expectName = false;
  for (let token = tokens.exec(text); token; token = tokens.exec(text)) {
    const sign = token[0];
    const here = open.at(-1);
    if (sign === '{' || sign === '[') {
      open.push({ names: sign === '{' ? new Set() : null, key: sign === '{' ? '' : 0 });
      expectName = sign === '{';
    } else if (sign === '}' || sign === ']') {
      open.pop();
      expectName = false;
    } else if (sign === ',') {
      if (here && typeof here.key === 'number') here.key += 1;
      expectName = here?.names !== null && here !== undefined;
    } else if (sign !== ':' && expectName && here?.names) {
      const name = String(JSON.parse(sign));
      here.key = name;
      if (here.names.has(name)) doubled.push(pointer(open.map((one) => one.key)));
      here.names.add(name);
      expectName = false;
    }
  }
  return doubled;
}
