import type { ChargeEntry } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { Blank, BlankPair } from './blank.tsx';
import { isLong } from './long-name.ts';
import { WarningRows } from './warnings.tsx';

/** Up to so many portions get a box each to tick; more are counted by hand. */
const MOST_TICKS = 12;

/** A target with more signs than this is set smaller, so that it stays inside its column. */
const LONGEST_LARGE = 7;
const WEIGHED = [words.columns.tare, words.columns.gross, words.columns.net];
const MEASURED = [words.blanks.from, words.blanks.to, words.blanks.added];

interface ChargeRowsProps {
  readonly charge: ChargeEntry;
  readonly columns: number;
  readonly secondCheck: boolean;
  /** What densities and tolerances of this sheet rest on, by number from 1. */
  readonly sources: readonly string[];
  /** What the net of the basis is written in: "g", "kg". */
  readonly basisUnit: string;
}

/** A charge: what stands before it, what to take, what was taken. */
export function ChargeRows({ charge, columns, secondCheck, sources, basisUnit }: ChargeRowsProps) {
  return (
    <>
      <WarningRows warnings={charge.before} lead={words.before.charge(charge.number)} columns={columns} />
      {isLong(charge.material) && <NameRow charge={charge} columns={columns} />}
      <MainRow charge={charge} secondCheck={secondCheck} />
      <tr class="charge-more">
        <td colSpan={3}>
          <p>
            {charge.addition !== '' && <strong>{`${charge.addition} · `}</strong>}
            {[hazardsText(charge), ...asides(charge, sources), ...ended(charge.note)].join(' · ')}
          </p>
        </td>
      </tr>
      {charge.portions > 1 && <Portions charge={charge} columns={columns} />}
      {charge.isBasis && <Rescale charge={charge} columns={columns} basisUnit={basisUnit} />}
    </>
  );
}

/** A name too long for its column stands over the row, across the page. */
function NameRow({ charge, columns }: Pick<ChargeRowsProps, 'charge' | 'columns'>) {
  return (
    <tr class="charge-name">
      <td class="number" rowSpan={3}>
        {charge.number}
      </td>
      <td colSpan={columns - 1}>
        <p class="material">{charge.material}</p>
      </td>
    </tr>
  );
}

function MainRow({ charge, secondCheck }: Pick<ChargeRowsProps, 'charge' | 'secondCheck'>) {
  return (
    <tr class="charge">
      {!isLong(charge.material) && (
        <td class="number" rowSpan={2}>
          {charge.number}
        </td>
      )}
      <td class="what">
        {!isLong(charge.material) && <p class="material">{charge.material}</p>}
        {charge.form !== '' && <p>{charge.form}</p>}
        {charge.sources.map((source, at) => (
          <p key={at}>
            {source.words}
            {source.amount !== '' && `: ${source.amount}`}
          </p>
        ))}
      </td>
      <Target charge={charge} />
      <td class="amounts">
        {charge.amounts.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {charge.perGram !== '' && <p>{charge.perGram}</p>}
      </td>
      <Amounts charge={charge} />
      <BlankPair rows={2} />
      {secondCheck && <Blank rows={2} />}
    </tr>
  );
}

const LARGE_UNITS: ReadonlySet<string> = new Set(['kg', 't', 'L', 'm³']);

/** Two readings of a burette and their difference; what a cylinder holds is read once; a mass is tare, gross, net. */
function Amounts({ charge }: { readonly charge: ChargeEntry }) {
  const { by, readTwice, targetUnit } = charge;
  // What is written beside a target in kilograms or litres is read in them; no balance shows micrograms.
  const unit = targetUnit !== undefined && LARGE_UNITS.has(targetUnit) ? targetUnit : charge.unit;
  if (by === 'volume' && readTwice === false) return <Blank label={words.blanks.measured(unit)} span={3} rows={2} />;
  const measured = by === 'volume';
  return (
    <>
      {(measured ? MEASURED : WEIGHED).map((label) => (
        <Blank key={label} label={measured ? `${label}\u00a0${unit}` : unit} rows={2} />
      ))}
    </>
  );
}

function Target({ charge }: { readonly charge: ChargeEntry }) {
  return (
    <td class="target">
      <p class={charge.targetText.length > LONGEST_LARGE ? 'target-line target-long' : 'target-line'}>
        <span class="target-number">{charge.targetText}</span>
        {charge.target !== null && <span class="target-unit">{`\u00a0${charge.targetUnit ?? charge.unit}`}</span>}
      </p>
      {charge.totalText !== '' && <p>{charge.totalText}</p>}
      <p>{charge.accepted}</p>
    </td>
  );
}

/** Density with the mass it stands for, and what to measure with. */
function asides(charge: ChargeEntry, sources: readonly string[]): string[] {
  const marked = (text: string, from = ''): string => (text === '' || from === '' ? text : `${text}${sourceMark(from, sources)}`);
  const device = charge.target !== null && charge.device !== '' ? words.with(marked(charge.device, charge.deviceFrom)) : '';
  const density = marked(charge.density, charge.densityFrom);
  return [charge.orByMass === '' ? density : words.weighInstead(density, charge.orByMass), device].filter((line) => line !== '');
}

function sourceMark(from: string, sources: readonly string[]): string {
  return words.sourceMark(sources.indexOf(from) + 1);
}

const ended = (note: string): string[] => (note === '' ? [] : [note]);

function hazardsText(charge: ChargeEntry): string {
  return charge.hazards.length > 0 ? charge.hazards.join('\u2002') : `${words.hazardsNone}: ${charge.hazardWords}`;
}

function Portions({ charge, columns }: { readonly charge: ChargeEntry; readonly columns: number }) {
  const ticks = charge.portions <= MOST_TICKS ? Array.from({ length: charge.portions }, (_, at) => at + 1) : [];
  return (
    <tr class="portions">
      <td />
      <td colSpan={columns - 1}>
        {words.blanks.portions(charge.portionText)}{' '}
        {ticks.map((tick) => (
          <span key={tick} class="tick">
            {tick}
          </span>
        ))}
        {ticks.length === 0 && <span class="line" />}
      </td>
    </tr>
  );
}

/** How to rescale with a pencil when the basis came out different. */
function Rescale({ charge, columns, basisUnit }: Pick<ChargeRowsProps, 'charge' | 'columns' | 'basisUnit'>) {
  return (
    <tr class="rescale">
      <td />
      <td colSpan={4}>
        <p>{words.rescale(charge.contained, basisUnit)}</p>
      </td>
      <Blank label={words.contained(basisUnit)} span={columns - 5} />
    </tr>
  );
}
