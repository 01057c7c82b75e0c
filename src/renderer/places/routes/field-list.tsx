import { fieldWords } from '../../../core/route/compare-routes.ts';
import type { Edited } from '../../../core/route/edited.ts';
import type { FieldContext, TextField } from '../../../core/route/text-field.ts';
import { routeDiffWords } from '../../../core/words/route-diff-words.ts';
import { EntryField } from './entry-field.tsx';

interface FieldListProps<T> {
  /** The step, and the operation, they are of. */
  readonly keep: string;
  readonly fields: readonly TextField<T>[];
  readonly of: T;
  readonly context: FieldContext;
  /** Keeps a changed step or operation; `field` is what was changed, in words. */
  readonly onChange: (value: T, field: string) => Edited;
}

/** Every field of a step or an operation, from its table. */
export function FieldList<T>({ keep, fields, of, context, onChange }: FieldListProps<T>) {
  return (
    <>
      {fields
        .filter((field) => field.when?.(of) ?? true)
        .map((field) => {
          const label = fieldWords(field.name);
          return (
            <EntryField
              key={field.name}
              keep={`${keep}/${field.name}`}
              label={label}
              kind={field.kind}
              choices={field.choices?.(of, context) ?? []}
              placeholder={routeDiffWords.examples[field.name]}
              value={field.read(of, context)}
              onCommit={(text) => {
                const written = field.write(of, text, context);
                return written.ok ? onChange(written.value, label) : written;
              }}
            />
          );
        })}
    </>
  );
}
