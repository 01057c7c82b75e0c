/** What the plan command says. */
export const commandWords = {
  usage: [
    "Usage: npm run -s plan -- FILE.route.json --draw '25 g of PRODUCT' [--draw …] [--shelf FILE.shelf.json] [--run RECORD.json …] [--plan FILE.plan.json] [--start '90 %' | --start 1.2] [--date YYYY-MM-DD] [--beside OTHER.plan.json | --beside route] [--most] [--json]",
    '--run reads an exported run record, as often as there are records: the scale of each step is held against the largest of them.',
    '--beside puts another plan of the route next to this one, or this plan at the route’s own yields, and marks what differs.',
    '--most adds how much of the first draw everything on the shelf allows, and what limits it.',
    'Exit codes: 0 planned; 1 the route cannot be planned; 2 the command or a file is wrong.',
  ].join('\n'),
  runHint: 'Exported run records are read with --run.',
  oneRoute: 'One route file is needed.',
  noDraw: "Say what is wanted: --draw '25 g of PRODUCT', or a plan file.",
  wrongStart: (got: string): string =>
    `--start needs a chance of enough such as '90 %' (1 to 99.9 %), or how many times what has to be made is aimed at, such as 1.2 (0.01 to 100) (got ${got})`,
  wrongDate: (got: string): string => `--date needs a date such as 2027-03-04 (got ${got})`,
  unreadable: (file: string, why: string): string => `${file} cannot be read: ${why}`,
  problems: (file: string, lines: readonly string[]): string =>
    [`${file} has ${lines.length === 1 ? 'a problem' : `${lines.length} problems`}:`, ...lines.map((line) => `  ${line}`)].join(
      '\n',
    ),
} as const;
