/**
 * Groups of hazard statements by which a shelf is looked through. Classes and codes: Regulation (EC) No 1272/2008 (CLP),
 * Annex I parts 2 to 4 and Annex III.
 */
export const HAZARD_GROUPS = [
  'explosive',
  'flammable',
  'oxidising',
  'reacts with water',
  'gas under pressure',
  'corrosive',
  'acutely toxic',
  'harmful or irritant',
  'long-term health',
  'environment',
  'no entry',
] as const;
export type HazardGroup = (typeof HAZARD_GROUPS)[number];

type Listed = Exclude<HazardGroup, 'no entry'>;

/** First to last code of each span. H204 to H211 are explosives and desensitised ones; H240 and H241 may explode on heating. */
const SPANS: readonly (readonly [group: Listed, from: number, to: number])[] = [
  ['explosive', 200, 211],
  ['explosive', 240, 241],
  ['flammable', 220, 228],
  ['flammable', 230, 232],
  ['flammable', 241, 242],
  ['flammable', 250, 252],
  ['flammable', 260, 261],
  ['reacts with water', 260, 261],
  ['oxidising', 270, 272],
  ['gas under pressure', 280, 284],
  ['corrosive', 290, 290],
  ['corrosive', 314, 314],
  ['corrosive', 318, 318],
  ['acutely toxic', 300, 301],
  ['acutely toxic', 310, 311],
  ['acutely toxic', 330, 331],
  ['harmful or irritant', 302, 303],
  ['harmful or irritant', 312, 313],
  ['harmful or irritant', 315, 317],
  ['harmful or irritant', 319, 320],
  ['harmful or irritant', 332, 333],
  ['harmful or irritant', 335, 336],
  ['long-term health', 304, 304],
  ['long-term health', 334, 334],
  ['long-term health', 340, 373],
  ['environment', 400, 430],
];

/** Supplemental statements (CLP Annex II) that belong to a group. */
const SUPPLEMENTAL: Readonly<Record<string, Listed>> = {
  EUH001: 'explosive',
  EUH014: 'reacts with water',
  EUH019: 'explosive',
  EUH029: 'reacts with water',
  EUH044: 'explosive',
  EUH066: 'harmful or irritant',
  EUH071: 'corrosive',
};

/** The groups of a bottle's statements; null statements, which are not known, are a group of their own and never none. */
export function hazardGroups(statements: readonly string[] | null): ReadonlySet<HazardGroup> {
  if (statements === null) return new Set<HazardGroup>(['no entry']);
  const groups = new Set<HazardGroup>();
  for (const code of statements) {
    const supplemental = SUPPLEMENTAL[code];
    if (supplemental) groups.add(supplemental);
    const number = /^H(\d{3})/.exec(code)?.[1];
    if (number === undefined) continue;
    for (const [group, from, to] of SPANS) if (Number(number) >= from && Number(number) <= to) groups.add(group);
  }
  return groups;
}
