import type { ChargeEntry } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { Blank, BlankPair } from './blank.tsx';
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
}

/** A charge: what stands before it, what to take, what was taken. */
export function ChargeRows({ charge, columns, secondCheck }: ChargeRowsProps) {
  return (
    <>
      <WarningRows warnings={charge.before} lead={words.before.charge(charge.number)} columns={columns} />
      <MainRow charge={charge} secondCheck={secondCheck} />
      <tr class="charge-more">
        <td colSpan={3}>
          {charge.addition !== '' && (
            <p>
              <strong>{charge.addition}</strong>
            </p>
          )}
          <p>{[hazardsText(charge), ...asides(charge)].join(' · ')}</p>
          {charge.note !== '' && <p>{charge.note}</p>}
        </td>
      </tr>
      {charge.portions > 1 && <Portions charge={charge} columns={columns} />}
      {charge.isBasis && <Rescale charge={charge} columns={columns} />}
    </>
  );
}

function MainRow({ charge, secondCheck }: Omit<ChargeRowsProps, 'columns'>) {
  return (
    <tr class="charge">
      <td class="number" rowSpan={2}>
        {charge.number}
      </td>
      <td class="what">
        <p class="material">{charge.material}</p>
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

/** Two readings of a burette and their difference; what a cylinder holds is read once; a mass is tare, gross, net. */
function Amounts({ charge }: { readonly charge: ChargeEntry }) {
  const { by, unit, readTwice } = charge;
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
        {charge.target !== null && <span class="target-unit">{`\u00a0${charge.unit}`}</span>}
      </p>
      {charge.totalText !== '' && <p>{charge.totalText}</p>}
      <p>{charge.accepted}</p>
    </td>
  );
}

/** Density with the mass it stands for, and what to measure with. */
function asides(charge: ChargeEntry): string[] {
  const device = charge.target !== null && charge.device !== '' ? words.with(charge.device) : '';
  const density = charge.orByMass === '' ? charge.density : words.weighInstead(charge.density, charge.orByMass);
  return [density, device].filter((line) => line !== '');
}

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
function Rescale({ charge, columns }: { readonly charge: ChargeEntry; readonly columns: number }) {
  return (
    <tr class="rescale">
      <td />
      <td colSpan={4}>
        <p>{words.rescale(charge.contained)}</p>
      </td>
      <Blank label={words.contained} span={columns - 5} />
    </tr>
  );
}
