import type { Entry, HoldEntry, RemovalEntry } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { Blank } from './blank.tsx';
import { ChargeRows } from './charge-rows.tsx';
import { WarningRows } from './warnings.tsx';

interface RowsProps<E> {
  readonly entry: E;
  readonly columns: number;
  readonly secondCheck: boolean;
}

interface AnyRowsProps extends RowsProps<Entry> {
  readonly sources: readonly string[];
  readonly basisUnit: string;
}

/** One operation as rows of a table body that no page break cuts. */
export function OperationRows({ entry, columns, secondCheck, sources, basisUnit }: AnyRowsProps) {
  switch (entry.do) {
    case 'charge':
      return <ChargeRows charge={entry} columns={columns} secondCheck={secondCheck} sources={sources} basisUnit={basisUnit} />;
    case 'hold':
      return <HoldRows entry={entry} columns={columns} secondCheck={secondCheck} />;
    case 'removal':
      return <RemovalRows entry={entry} columns={columns} secondCheck={secondCheck} />;
  }
}

function HoldRows({ entry, columns, secondCheck }: RowsProps<HoldEntry>) {
  const both = entry.temperature && entry.check !== '';
  const reading = both ? words.blanks.both : entry.temperature ? words.blanks.highest : words.blanks.reading;
  return (
    <>
      <WarningRows warnings={entry.before} lead={words.before.hold} columns={columns} />
      <tr class="hold">
        <td class="number shape">■</td>
        <td class="what" colSpan={3}>
          <p>
            <strong>
              {words.hold} {entry.until}
            </strong>
            {entry.how !== '' && `, ${entry.how}`}.
          </p>
          <p>{[entry.check, entry.ifNot, entry.stands ?? '', entry.note].filter((one) => one !== '').join(' ')}</p>
        </td>
        <Blank label={words.blanks.start} />
        <Blank label={words.blanks.end} />
        <Blank label={reading} />
        <Blank label={words.blanks.initials} />
        {secondCheck && <Blank label={words.columns.check} />}
      </tr>
    </>
  );
}

function RemovalRows({ entry, columns, secondCheck }: RowsProps<RemovalEntry>) {
  return (
    <>
      <WarningRows warnings={entry.before} lead={words.before.removal} columns={columns} />
      <tr class="removal">
        <td class="number shape">▽</td>
        <td class="what" colSpan={3}>
          <p>
            <strong>{entry.title}</strong>
            {entry.takes !== '' && `: ${entry.takes}`}.{' '}
            {entry.waste !== '' && (
              <>
                {words.waste} <strong>“{entry.waste}”</strong>.{' '}
              </>
            )}
            {entry.waste === '' && entry.wasteNeeded && `${words.noWaste} `}
            {entry.note}
          </p>
        </td>
        <Blank label={words.blanks.takenOff} span={2} />
        <Blank label={words.blanks.time} />
        <Blank label={words.blanks.initials} />
        {secondCheck && <Blank label={words.columns.check} />}
      </tr>
    </>
  );
}
