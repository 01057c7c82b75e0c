import { foldName } from '../matter/facts.ts';
import { routeEditWords as words } from '../words/route-edit-words.ts';
import { GROUPS_TAKEN, type Removal, type Route } from './route.ts';
import { readNumber, wrong, type Written } from './text-field.ts';

/** What a removal takes, in one line: "liquids 100 %, benzoin 95 %". */
export function takesText(takes: Removal['takes'], route: Route): string {
  return takes.map(({ what, percent }) => `${route.materials[what]?.name ?? what} ${percent} %`).join('; ');
}

/** Reads what a removal takes; a percentage that is left out is 100. Pieces are parted by ";" or by a comma and a space. */
export function readTakes(text: string, route: Route): Written<Removal['takes']> {
  const takes: Removal['takes'] = [];
  let at = 0;
  for (const piece of text.split(/(;|,\s)/)) {
    const from = at;
    at += piece.length;
    const said = piece.trim();
    if (said === '' || said === ';' || said === ',') continue;
    const number = /\s+(\d+(?:[.,]\d+)?)\s*%$/.exec(said);
    const name = number ? said.slice(0, number.index) : said;
    const percent = number ? readNumber(number[1] ?? '', { least: 0, most: 100, unit: '%' }) : { ok: true as const, value: 100 };
    if (!percent.ok) return { ...percent, at: from + (number?.index ?? 0) };
    const what = takenNamed(name, route);
    if (what === null) return wrong(words.takesWhat(name), from);
    takes.push({ what, percent: percent.value });
  }
  return takes.length > 20 ? wrong(words.takes) : { ok: true, value: takes };
}

function takenNamed(name: string, route: Route): string | null {
  const folded = foldName(name);
  return GROUPS_TAKEN.find((one) => one === folded) ?? materialNamedIn(name, route);
}

/** The key of the material of a route that goes by this name, key or other name; null where none does. */
export function materialNamedIn(name: string, route: Route): string | null {
  const folded = foldName(name);
  const found = Object.entries(route.materials).find(
    ([key, one]) => key === name || [one.name, ...(one.synonyms ?? [])].some((said) => foldName(said) === folded),
  );
  return found?.[0] ?? null;
}
