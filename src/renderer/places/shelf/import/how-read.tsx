import { useSignal } from '@preact/signals';
import { useId, useLayoutEffect } from 'preact/hooks';
import type { Encoding, Separator } from '../../../../core/port/files.ts';
import { importScreenWords as words } from '../../../../core/words/shelf-import-screen-words.ts';
import { asking, choices, readOtherwise, type TablePreview } from './import-store.ts';

const how = words.how;

/** How the file was read, and the ways to read it otherwise. */
export function HowRead({ preview }: { readonly preview: TablePreview }) {
  const { sheets, own, format } = preview;
  // As chosen last, be it read already or not.
  const chosen = choices.value;
  const encoding = preview.encoding && (chosen.encoding ?? preview.encoding);
  const separator = preview.separator && (chosen.separator ?? preview.separator);
  const sheet = chosen.sheet ?? preview.sheet;
  return (
    <section class="import-how" aria-labelledby="import-how-title">
      <h2 id="import-how-title">{how.title}</h2>
      {encoding !== null && (
        <Choice<Encoding>
          label={how.encoding}
          value={encoding}
          names={words.encoding.names}
          choose={(one) => readOtherwise({ encoding: one })}
        />
      )}
      {separator !== null && (
        <Choice<Separator>
          label={how.separator}
          value={separator}
          names={how.separators}
          choose={(one) => readOtherwise({ separator: one })}
        />
      )}
      {sheets.length > 1 && (
        <Choice<string>
          label={how.sheet}
          value={String(sheet)}
          names={Object.fromEntries(sheets.map((name, at) => [String(at), name]))}
          choose={(one) => readOtherwise({ sheet: Number(one) })}
        />
      )}
      <HeadingRow row={preview.headingRow} />
      {own ? <p class="import-note">{how.own}</p> : format === 'xlsx' && <p class="import-note">{how.workbook}</p>}
    </section>
  );
}

interface ChoiceProps<C extends string> {
  readonly label: string;
  readonly value: C;
  readonly names: Readonly<Record<C, string>>;
  readonly choose: (one: C) => void;
}

function Choice<C extends string>({ label, value, names, choose }: ChoiceProps<C>) {
  const id = useId();
  const all = Object.keys(names) as C[];
  return (
    <p class="import-line">
      <label for={id}>{label}</label>
      <select
        id={id}
        class="choice"
        value={value}
        onChange={(event) => {
          const chosen = all.find((one) => one === event.currentTarget.value);
          if (chosen !== undefined) choose(chosen);
        }}
      >
        {all.map((one) => (
          <option key={one} value={one}>
            {names[one]}
          </option>
        ))}
      </select>
    </p>
  );
}

/** The number is read when the field is left or Enter is pressed; what is none stays there with a word about it. */
function HeadingRow({ row }: { readonly row: number }) {
  const id = useId();
  const typed = useSignal(String(row));
  useLayoutEffect(() => {
    typed.value = String(row);
  }, [row, typed]);
  const text = typed.value.trim();
  const wrong = !/^(0|[1-9]\d{0,3})$/.test(text) || Number(text) > 1000;
  const take = (): void => {
    if (!wrong && Number(text) !== row && !asking.value) readOtherwise({ headingRow: Number(text) });
  };
  return (
    <p class="import-line">
      <label for={id}>{how.headingRow}</label>
      <input
        id={id}
        class="import-number"
        inputMode="numeric"
        value={typed.value}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
        }}
        onBlur={take}
        onKeyDown={(event) => event.key === 'Enter' && take()}
      />
      {wrong && (
        <span id={`${id}-wrong`} class="import-wrong">
          {how.needsRow}
        </span>
      )}
    </p>
  );
}
