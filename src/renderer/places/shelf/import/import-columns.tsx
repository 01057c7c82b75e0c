import { FIELD_NAMES, SHELF_FIELDS, type FieldName } from '../../../../core/shelf/import/fields.ts';
import { unitsOf } from '../../../../core/shelf/import/guess.ts';
import { columnName, type ColumnUse } from '../../../../core/shelf/import/table.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { shelfImportWords } from '../../../../core/words/shelf-import-words.ts';
import { mapping, type TablePreview, useColumn } from './import-store.ts';

const words = importScreenWords.columns;

/** Every column of the file with its first cells, and what it is taken for. */
export function ImportColumns({ preview }: { readonly preview: TablePreview }) {
  const uses = mapping.value;
  const missing = (['name', 'left'] as const).filter((field) => !uses.some((use) => use?.field === field));
  // A CAS number names a material as well.
  const wanted = uses.some((use) => use?.field === 'cas') ? missing.filter((field) => field !== 'name') : missing;
  const headings = preview.columns.map(({ heading }) => heading.trim()).filter((one) => one !== '');
  const twice = [...new Set(headings.filter((one, at) => headings.indexOf(one) !== at))];
  return (
    <section class="import-columns" aria-labelledby="import-columns-title">
      <h2 id="import-columns-title">{words.title}</h2>
      <p class="import-note">{words.text}</p>
      {twice.length > 0 && <p class="import-wrong">{words.twice(twice)}</p>}
      {wanted.length > 0 && <p class="import-wrong">{words.missing(wanted.map((field) => shelfImportWords.fields[field]))}</p>}
      <ul>
        {preview.columns.map(({ heading, cells }, column) => (
          // Columns have no other name than their place in the file.
          <Column
            key={column}
            heading={heading === '' ? words.noHeading(columnName(column)) : heading}
            cells={cells}
            column={column}
          />
        ))}
      </ul>
    </section>
  );
}

interface ColumnProps {
  readonly heading: string;
  readonly cells: readonly string[];
  readonly column: number;
}

function Column({ heading, cells, column }: ColumnProps) {
  const use = mapping.value[column] ?? null;
  return (
    <li class={use ? 'import-column' : 'import-column left-out'}>
      <p class="import-column-head">
        <b>{heading}</b>
        <small>{cells.join(' · ')}</small>
      </p>
      <p class="import-column-use">
        <select
          class="choice"
          aria-label={words.use(heading)}
          value={use?.field ?? ''}
          onChange={(event) => {
            const field = FIELD_NAMES.find((name) => name === event.currentTarget.value);
            useColumn(column, field === undefined ? null : { field });
          }}
        >
          <option value="">{words.leaveOut}</option>
          {FIELD_NAMES.map((name) => (
            <option key={name} value={name}>
              {shelfImportWords.fields[name]}
            </option>
          ))}
        </select>
        {use && <Settings heading={heading} use={use} column={column} />}
      </p>
    </li>
  );
}

const NUMBERS: ReadonlySet<string> = new Set(['number', 'amount', 'strength']);

/** What a column's cells may not say themselves: their unit, the decimal sign, which of day and month comes first. */
function Settings({ heading, use, column }: { readonly heading: string; readonly use: ColumnUse; readonly column: number }) {
  const { kind } = SHELF_FIELDS[use.field];
  const units = unitsOf(use.field);
  const change = (more: Partial<ColumnUse>): void => useColumn(column, { ...use, ...more });
  return (
    <>
      {units.length > 0 && (
        <Setting
          label={words.unit(heading)}
          value={use.unit ?? ''}
          names={{ '': noUnit(use.field), ...Object.fromEntries(units.map((unit) => [unit, unit])) }}
          choose={(unit) => change({ unit: unit === '' ? undefined : unit })}
        />
      )}
      {NUMBERS.has(kind) && (
        <Setting
          label={words.decimal(heading)}
          value={use.decimal ?? ''}
          names={{ '': words.decimals.ask, point: words.decimals.point, comma: words.decimals.comma }}
          choose={(sign) => change({ decimal: sign === 'point' || sign === 'comma' ? sign : undefined })}
        />
      )}
      {kind === 'date' && (
        <Setting
          label={words.dates(heading)}
          value={use.dates ?? ''}
          names={{ '': words.orders.ask, day: words.orders.day, month: words.orders.month }}
          choose={(order) => change({ dates: order === 'day' || order === 'month' ? order : undefined })}
        />
      )}
    </>
  );
}

function noUnit(field: FieldName): string {
  return field === 'strength' ? words.noBasis : words.noUnit;
}

interface SettingProps {
  readonly label: string;
  readonly value: string;
  readonly names: Readonly<Record<string, string>>;
  readonly choose: (one: string) => void;
}

function Setting({ label, value, names, choose }: SettingProps) {
  return (
    <select
      class="choice import-setting"
      aria-label={label}
      value={value}
      onChange={(event) => choose(event.currentTarget.value)}
    >
      {Object.entries(names).map(([one, shown]) => (
        <option key={one} value={one}>
          {shown}
        </option>
      ))}
    </select>
  );
}
