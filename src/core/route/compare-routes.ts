import { ratioText } from '../procedure/ratio-text.ts';
import { routeDiffWords as words } from '../words/route-diff-words.ts';
import { equationText } from './equation-text.ts';
import { CHARGE_FIELDS, HOLD_FIELDS, REMOVAL_FIELDS } from './operation-fields.ts';
import type { Operation, Route, Step } from './route.ts';
import { STEP_FIELDS } from './step-fields.ts';
import { stageFieldWords, STEP_MORE_FIELDS } from './step-more-fields.ts';
import type { TextField } from './text-field.ts';

/** One thing that differs between two routes: where, and what it was and is; null where it was not there or is gone. */
export interface Difference {
  /** Title of the step; null for the route itself and its materials. */
  readonly step: string | null;
  /** The operation or material, as it is called. */
  readonly of: string | null;
  readonly what: string;
  readonly before: string | null;
  readonly after: string | null;
}

/**
 * What differs between two routes, by step and operation, in the order of the newer one. Steps and operations are the
 * same where they have the same name in the file. Empty where nothing a person can see differs.
 */
export function compareRoutes(before: Route, after: Route): readonly Difference[] {
  return [
    ...texts(null, null, [
      [words.name, before.name, after.name],
      [words.note, before.note ?? '', after.note ?? ''],
    ]),
    ...materialDifferences(before, after),
    ...stepsDifferences(before, after),
  ];
}

/** What a field of a step or an operation is called on screen. */
export function fieldWords(name: string): string {
  return words.fields[name] ?? stageFieldWords(name, words.fields) ?? name;
}

function texts(
  step: string | null,
  of: string | null,
  pairs: readonly (readonly [what: string, before: string, after: string])[],
): readonly Difference[] {
  return pairs
    .filter(([, one, other]) => one !== other)
    .map(([what, one, other]) => ({ step, of, what, before: one === '' ? null : one, after: other === '' ? null : other }));
}

const whole = (
  step: string | null,
  of: string | null,
  what: string,
  before: string | null,
  after: string | null,
): Difference => ({
  step,
  of,
  what,
  before,
  after,
});

function materialDifferences(before: Route, after: Route): readonly Difference[] {
  const keys = new Set([...Object.keys(after.materials), ...Object.keys(before.materials)]);
  return [...keys].flatMap((key): readonly Difference[] => {
    const old = before.materials[key];
    const now = after.materials[key];
    if (!old) return [whole(null, null, words.material, null, now?.name ?? key)];
    if (!now) return [whole(null, null, words.material, old.name, null)];
    const entries = [...new Set([...Object.keys(old), ...Object.keys(now)])] as (keyof typeof old)[];
    return texts(
      null,
      now.name,
      entries.map((entry) => [words.entries[entry] ?? entry, shown(old[entry]), shown(now[entry])]),
    );
  });
}

function shown(value: unknown): string {
  if (value === undefined) return '';
  if (Array.isArray(value)) return value.join('; ');
  return typeof value === 'object' && value !== null ? Object.values(value).map(String).join(' · ') : String(value);
}

function stepsDifferences(before: Route, after: Route): readonly Difference[] {
  const gone = before.steps.filter((step) => !after.steps.some((one) => one.id === step.id));
  const kept = before.steps.filter((step) => after.steps.some((one) => one.id === step.id)).map((step) => step.id);
  const order = after.steps.filter((step) => kept.includes(step.id)).map((step) => step.id);
  const titles = (ids: readonly string[], route: Route): string =>
    ids.map((id) => route.steps.find((step) => step.id === id)?.title ?? id).join(' · ');
  return [
    ...gone.map((step) => whole(step.title, null, words.step, words.was, null)),
    ...after.steps.flatMap((step) => {
      const old = before.steps.find((one) => one.id === step.id);
      return old ? stepDifferences(old, step, before, after) : [whole(step.title, null, words.step, null, words.isNew)];
    }),
    ...(kept.join(' ') === order.join(' ') ? [] : [whole(null, null, words.order, titles(kept, before), titles(order, after))]),
  ];
}

function stepDifferences(old: Step, now: Step, before: Route, after: Route): readonly Difference[] {
  const name = (key: string, route: Route): string => route.materials[key]?.name ?? key;
  const fields = [...STEP_FIELDS.filter((field) => field.name !== 'product'), ...STEP_MORE_FIELDS].map(
    (field) => [fieldWords(field.name), field.read(old, { route: before }), field.read(now, { route: after })] as const,
  );
  return [
    ...texts(now.title, null, [
      [words.equation, equationText(old, before), equationText(now, after)],
      [words.basis, name(old.basis, before), name(now.basis, after)],
      [words.product, name(old.product, before), name(now.product, after)],
      ...fields,
      [words.printedProduct, old.printed?.product ?? '', now.printed?.product ?? ''],
      [words.printedYield, old.printed?.yield ?? '', now.printed?.yield ?? ''],
    ]),
    ...operationsDifferences(old, now, before, after),
    ...unseen(old, now),
  ];
}

/** Entries of a step that no field here shows: named, so that no difference stays unsaid. */
const SEEN = new Set(
  'id title equation basis product yieldPercent yieldSource productAssayPercent keeps lossPerBatch recrystallise batchLimit conditions protection spill firstAid heat source note printed recovers stages carriedWith yieldCountedIn operations'.split(
    ' ',
  ),
);

function unseen(old: Step, now: Step): readonly Difference[] {
  const entries = [...new Set([...Object.keys(old), ...Object.keys(now)])].filter((entry) => !SEEN.has(entry)) as (keyof Step)[];
  const text = (step: Step, entry: keyof Step): string => (step[entry] === undefined ? '' : JSON.stringify(step[entry]));
  return texts(
    now.title,
    null,
    entries.map((entry) => [entry, text(old, entry), text(now, entry)]),
  );
}

function operationsDifferences(old: Step, now: Step, before: Route, after: Route): readonly Difference[] {
  const gone = old.operations.filter((one) => !now.operations.some((other) => other.id === one.id));
  const kept = old.operations.filter((one) => now.operations.some((other) => other.id === one.id));
  const order = now.operations.filter((one) => old.operations.some((other) => other.id === one.id));
  const moved = kept.map((one) => one.id).join(' ') !== order.map((one) => one.id).join(' ');
  const list = (operations: readonly Operation[], route: Route): string =>
    operations.map((one) => called(one, route)).join(' · ');
  return [
    ...gone.map((one) => whole(now.title, called(one, before), words.operation, words.was, null)),
    ...now.operations.flatMap((one) => {
      const other = old.operations.find((each) => each.id === one.id);
      if (!other) return [whole(now.title, called(one, after), words.operation, null, words.isNew)];
      return operationDifferences(other, one, { title: now.title, before, after });
    }),
    ...(moved ? [whole(now.title, null, words.order, list(kept, before), list(order, after))] : []),
  ];
}

/** An operation as it is called in a list. */
export function called(one: Operation, route: Route): string {
  if (one.do === 'charge') return route.materials[one.material]?.name ?? one.material;
  return one.do === 'hold' ? words.hold(one.until) : words.removal(one.how);
}

interface Between {
  readonly title: string;
  readonly before: Route;
  readonly after: Route;
}

function operationDifferences(old: Operation, now: Operation, { title, before, after }: Between): readonly Difference[] {
  if (old.do !== now.do) return [whole(title, called(now, after), words.operation, called(old, before), called(now, after))];
  const pairs = <T>(fields: readonly TextField<T>[], one: T, other: T): readonly (readonly [string, string, string])[] =>
    fields.map((field) => [fieldWords(field.name), field.read(one, { route: before }), field.read(other, { route: after })]);
  const all =
    old.do === 'charge' && now.do === 'charge'
      ? [
          [words.material, called(old, before), called(now, after)] as const,
          [words.ratio, ratioText(old.rule), ratioText(now.rule)] as const,
          [words.printed, old.printed ?? '', now.printed ?? ''] as const,
          ...pairs(CHARGE_FIELDS, old, now),
        ]
      : old.do === 'hold' && now.do === 'hold'
        ? pairs(HOLD_FIELDS, old, now)
        : old.do === 'removal' && now.do === 'removal'
          ? pairs(REMOVAL_FIELDS, old, now)
          : [];
  return texts(title, called(now, after), all);
}
