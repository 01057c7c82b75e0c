/** What labels of bottles say, and where they are made. */
export const labelWords = {
  title: (labels: readonly string[]) =>
    labels.length === 1 ? `Label of ${labels[0] ?? ''}` : `Labels of ${labels[0] ?? ''} and ${labels.length - 1} more`,
  cas: (cas: string) => `CAS ${cas}`,
  inWater: (strength: string) =>
    strength.includes(', titrated') ? strength.replace(', titrated', ' in water, titrated') : `${strength} in water`,
  unlisted: (names: readonly string[]) =>
    names.length === 1
      ? `No harmonised entry here: read the safety sheet.`
      : `No harmonised entry here for ${names.join(', ')}: read the safety sheet.`,
  noneAtStrength: 'No hazard statement listed here holds at this strength: read the safety sheet.',
  lot: 'lot',
  noLot: 'no lot',
  place: 'place',
  received: 'received',
  opened: 'opened',
  useBy: 'use by',
  signal: { Danger: 'Danger', Warning: 'Warning', '': '' },
  codeOf: (label: string) => `Code of ${label}`,
  /** Alternative texts of the pictograms. */
  pictograms: {
    GHS01: 'exploding bomb',
    GHS02: 'flame',
    GHS03: 'flame over circle',
    GHS04: 'gas cylinder',
    GHS05: 'corrosion',
    GHS06: 'skull and crossbones',
    GHS07: 'exclamation mark',
    GHS08: 'health hazard',
    GHS09: 'environment',
  } as Readonly<Record<string, string>>,
  tooMuch: (labels: string) => `Too much for this size, so the print runs over: ${labels}. Choose larger labels.`,

  form: {
    title: 'Label',
    labels: 'Labels',
    size: 'Labels',
    start: 'First label at place',
    startHint: (places: number) => `1 to ${places}, along the rows: for a sheet that is partly used`,
    badStart: (places: number) => `The first place needs a whole number from 1 to ${places}.`,
    preview: 'Preview',
    issue: 'Print or save',
    all: (count: number) => `Labels of all ${count} found`,
    tooMany: (most: number) => `At most ${most} labels at a time: narrow the search.`,
    failed: (why: string) => `No labels were made. ${why}`,
    note: 'For your own bottles. The supplier’s label stays on, and local rules for labels hold.',
    scan: 'A scanner pointed at its code opens the bottle from any place, and picks it in weighing mode.',
  },
} as const;
