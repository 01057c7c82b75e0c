import type { FileProblem } from '../port/result.ts';

/** The parts of a schema checker's issue that words are made from. */
interface Issue {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  readonly expected?: string | undefined;
  readonly values?: readonly unknown[] | undefined;
  readonly keys?: readonly string[] | undefined;
  readonly minimum?: number | bigint | undefined;
  readonly maximum?: number | bigint | undefined;
  readonly inclusive?: boolean | undefined;
  readonly origin?: string | undefined;
  readonly format?: string | undefined;
  readonly pattern?: string | undefined;
  readonly errors?: readonly (readonly Issue[])[] | undefined;
  readonly issues?: readonly Issue[] | undefined;
  readonly message?: string | undefined;
  readonly discriminator?: string | undefined;
  readonly options?: readonly unknown[] | undefined;
}

/** RFC 6901 pointer of a place in a file. */
export function pointer(path: readonly PropertyKey[]): string {
  return path.map((part) => `/${String(part).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** Words for every issue a schema found, each with its place. `root` is the value that was checked. */
export function schemaProblems(issues: readonly Issue[], root: unknown, at: readonly PropertyKey[] = []): FileProblem[] {
  return issues.flatMap((issue) => problemsOf(issue, root, [...at, ...issue.path]));
}

function problemsOf(issue: Issue, root: unknown, path: readonly PropertyKey[]): FileProblem[] {
  if (issue.code === 'invalid_union' && issue.errors && issue.errors.length > 0) {
    return schemaProblems(nearestBranch(issue.errors), root, path);
  }
  if (issue.code === 'invalid_key' && issue.issues)
    return [{ at: pointer(path), words: 'a key is letters, digits, "_", "." or "-", and begins with a letter or digit' }];
  if (issue.code === 'unrecognized_keys' && issue.keys) {
    return issue.keys.map((key) => ({ at: pointer([...path, key]), words: `"${key}" is not known here` }));
  }
  return [{ at: pointer(path), words: words(issue, valueAt(root, path)) }];
}

/** Of a union's branches the one the writer most likely meant: its kind matches, then the fewest problems. */
function nearestBranch(branches: readonly (readonly Issue[])[]): readonly Issue[] {
  const cost = (branch: readonly Issue[]): number =>
    branch.reduce((sum, issue) => sum + (issue.path.at(-1) === 'kind' || issue.path.length === 0 ? 100 : 1), 0);
  return [...branches].sort((a, b) => cost(a) - cost(b))[0] ?? [];
}

function words(issue: Issue, value: unknown): string {
  const got = value === undefined ? '' : ` (got ${shorten(value)})`;
  switch (issue.code) {
    case 'invalid_type':
      return value === undefined
        ? `${article(issue.expected ?? 'value')} is missing here`
        : `${article(issue.expected ?? 'value')} is expected here${got}`;
    case 'invalid_value':
      return `${(issue.values ?? []).map((one) => JSON.stringify(one)).join(' or ')} is expected here${got}`;
    case 'too_small':
      return `${subject(issue)} needs to be ${issue.inclusive === false ? 'more than' : 'at least'} ${String(issue.minimum)}${got}`;
    case 'too_big':
      return `${subject(issue)} needs to be ${issue.inclusive === false ? 'less than' : 'at most'} ${String(issue.maximum)}${got}`;
    case 'invalid_format':
      return `${FORMATS[issue.format ?? ''] ?? PATTERNS.find(([sign]) => issue.pattern?.includes(sign))?.[1] ?? 'text of another form'} is expected here${got}`;
    case 'invalid_union':
      return issue.discriminator ? `${kinds(issue)}${got}` : `no allowed form fits here${got}`;
    case 'custom':
      return `${issue.message ?? 'this value does not fit'}${got}`;
    default:
      return `this value does not fit${got}`;
  }
}

const FORMATS: Readonly<Record<string, string>> = { date: 'a date such as 2027-03-04' };

/** What a pattern of the schema asks for, by a piece of it. */
const PATTERNS: readonly (readonly [piece: string, words: string])[] = [
  ['EUH', 'a hazard statement such as H225 or EUH066'],
  ['{2,7}', 'a CAS number such as 64-17-5'],
  ['A-Za-z0-9', 'a key of letters, digits, "_", "." or "-", beginning with a letter or digit,'],
];

/** What may stand where a kind is told apart, e.g. `"kind" needs to be "neat", "solution" or "unknown"`. */
function kinds({ discriminator, options }: Issue): string {
  const known = (options ?? []).map((one) => JSON.stringify(one));
  const list = known.length > 1 ? `${known.slice(0, -1).join(', ')} or ${known.at(-1)}` : known.join('');
  return `"${discriminator}" needs to be ${list === '' ? 'one of the kinds the schema lists' : list}`;
}

function subject(issue: Issue): string {
  if (issue.origin === 'string') return 'the number of characters';
  if (issue.origin === 'array') return 'the number of entries';
  return 'the number';
}

function article(expected: string): string {
  const name =
    {
      record: 'group of fields in { }',
      object: 'group of fields in { }',
      array: 'list in [ ]',
      string: 'text',
      int: 'whole number',
      boolean: 'true or false',
    }[expected] ?? expected;
  return name === 'text' || name === 'true or false' ? name : /^[aeiou]/.test(name) ? `an ${name}` : `a ${name}`;
}

function shorten(value: unknown): string {
  if (typeof value === 'number' && !Number.isFinite(value)) return 'a number too large';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) => (value !== null && typeof value === 'object' ? (value as Record<PropertyKey, unknown>)[key] : undefined),
    root,
  );
}
