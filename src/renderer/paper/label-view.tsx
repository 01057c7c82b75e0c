import type { BottleLabel, LabelPaper } from '../../core/paper/paper.ts';
import { labelWords as words } from '../../core/words/label-words.ts';
import { Pictogram } from '../parts/pictogram.tsx';
import { QrCode } from '../parts/qr-code.tsx';
import { runName } from './page-rules.ts';

type Layout = LabelPaper['layout'];

/** Labels on their sheets, each at its own place; a sheet begun before is gone on with. */
export function LabelView({ paper }: { readonly paper: LabelPaper }) {
  const { layout, labels, start } = paper;
  const places = layout.columns * layout.rows;
  const placed = labels.map((label, at) => ({ label, place: at + start - 1 }));
  const pages = Math.ceil((labels.length + start - 1) / places);
  return (
    <>
      {Array.from({ length: pages }, (_, page) => (
        <section key={page} class={`label-page ${runName(0)}`} style={pageStyle(paper)}>
          {placed
            .filter(({ place }) => Math.floor(place / places) === page)
            .map(({ label, place }) => (
              <Label key={place} label={label} layout={layout} place={place % places} />
            ))}
        </section>
      ))}
    </>
  );
}

/** A hair less than the page, so that no printer adds an empty one. */
function pageStyle({ layout, size }: LabelPaper) {
  const [width, height] = layout.single ? [layout.width, layout.height] : size === 'A4' ? [210, 297] : [215.9, 279.4];
  return { width: `${width}mm`, height: `${height - 0.3}mm` };
}

/** Type of a label, in mm, before it is made to fit. */
const typeOf = (height: number): number => Math.min(4.2, Math.max(2.5, height * 0.066));

interface PlacedProps {
  readonly label: BottleLabel;
  readonly layout: Layout;
  readonly place: number;
}

function Label({ label, layout, place }: PlacedProps) {
  const column = place % layout.columns;
  const row = Math.floor(place / layout.columns);
  const style = {
    left: `${layout.left + column * layout.across}mm`,
    top: `${layout.top + row * layout.down}mm`,
    width: `${layout.width}mm`,
    height: `${layout.height}mm`,
    fontSize: `${typeOf(layout.height)}mm`,
  };
  return (
    <article class="label" style={style} data-label={label.label}>
      <div class="label-head">
        <div class="label-words">
          <p class="label-name">{label.name}</p>
          <p class="label-strength">{label.strength}</p>
          {label.more !== '' && <p>{label.more}</p>}
        </div>
        <div class="label-code">
          <QrCode text={label.code} label={words.codeOf(label.label)} />
          <p>{label.label}</p>
        </div>
      </div>
      <Hazards label={label} />
      <Written label={label} />
    </article>
  );
}

function Hazards({ label }: { readonly label: BottleLabel }) {
  return (
    <div class="label-hazards">
      {label.pictograms.length > 0 && (
        <p class="label-pictograms">
          {label.pictograms.map((code) => (
            <Pictogram key={code} code={code} />
          ))}
        </p>
      )}
      <p>
        {label.signal !== '' && <strong class="label-signal">{words.signal[label.signal]} </strong>}
        {label.statements.join(' ')}
      </p>
      {label.unlisted !== '' && <p>{label.unlisted}</p>}
    </div>
  );
}

/** Lot, place and dates; what is not known yet is a line to write on. */
function Written({ label }: { readonly label: BottleLabel }) {
  const dates = [
    { name: words.received, value: label.received },
    { name: words.opened, value: label.opened },
    { name: words.useBy, value: label.useBy },
  ];
  return (
    <div class="label-written">
      <p>
        {label.lot === '' ? words.noLot : `${words.lot} ${label.lot}`}
        {label.place !== '' && ` · ${label.place}`}
      </p>
      <p>
        {dates.map(({ name, value }) => (
          <span key={name} class="label-date">
            {name} {value === '' ? <span class="label-line" /> : <b>{value}</b>}
          </span>
        ))}
      </p>
    </div>
  );
}
