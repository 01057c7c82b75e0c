import type { TestKind } from '../shelf/shelf.ts';

/** What is said of tests, purifications and titrations of a bottle. */
export const testWords = {
  title: 'Record a test',
  note: 'A test stays once recorded: to correct one, record it again with what is right.',
  kinds: {
    tested: 'tested',
    peroxides: 'tested for peroxides, none found',
    purified: 'purified',
    titrated: 'titrated',
  } satisfies Record<TestKind, string>,
  /** A bottle with peroxides in it is not recorded as tested. */
  peroxidesFound:
    'Only where the test found none by your own rules. Found some: do not use the bottle, hold it back, and tell the person responsible.',
  fields: {
    done: 'what was done',
    on: 'on',
    found: 'found to be',
    assay: 'new assay, % w/w',
    strength: 'new strength with its basis',
    solvent: 'solvent',
    useBy: 'new use by',
    remark: 'remark',
  },
  found: { solution: 'a solution', neat: 'neat' },
  asBefore: (form: string) => `as before: ${form}`,
  densityGoes: 'The density measured before is left out: it was of what was there then.',
  record: 'Record it',
  recording: 'Recording…',
  recorded: (then: string) => `recorded: ${then}`,
  ahead: (then: string) => `then ${then}`,
  plansCount: 'plans count this bottle',
  heldBack: 'plans leave it alone still, as it is held back',
  emptyStill: 'it is empty still',
  pastStill: 'it is past its date still: give a later use-by date, or none',
  unknownStill: 'its strength is unknown still: give it above',
  needsDay: 'the day it was done is needed here',
  notAhead: 'the day needs to be today or before',
  needsFound: 'a titration finds a strength or an assay: it is needed here',
  needsPlain: 'equivalents per mole are not known for this bottle: give mol/L',
  useByBefore: 'a new use-by date needs to be after the day of the test',
  history: 'Tests',
  line: (what: string, form: string, before: string) =>
    form === before ? `${what}: ${form}` : `${what}: ${form}, before ${before}`,
  lineUseBy: (useBy: string, before: string) => (useBy === before ? `use by ${useBy}` : `use by ${useBy}, before ${before}`),
} as const;
