import type { CascadePicture, RouteSummary } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { dayText } from '../parts/day-text.ts';
import { ListHead } from './list-views.tsx';
import { runName } from './page-rules.ts';
import type { PaperState } from './paper-state.ts';
import { ScreenFoot } from './screen-foot.tsx';

/** The whole plan: what it is for, the cascade, each step in a line. */
export function SummaryView({ paper, state }: { readonly paper: RouteSummary; readonly state: PaperState }) {
  const { columns } = words.summary;
  return (
    <section class={`sheet ${runName(0)}`}>
      <ListHead
        title={paper.title}
        under={[paper.route, paper.follows].filter((one) => one !== '').join(' · ')}
        kind={words.kinds[paper.kind]}
        asOf={paper.asOf}
        state={state}
      />
      <div class="readings">
        {paper.draws.map((draw, at) => (
          <p key={at}>
            <strong>{draw.amount}</strong>{' '}
            {[draw.material, draw.purpose, draw.date && dayText(draw.date)].filter(Boolean).join(' · ')}
          </p>
        ))}
      </div>
      <Picture picture={paper.picture} label={words.summary.picture(paper.plan)} />
      <table class="list summary">
        <colgroup>
          <col class="col-number" />
          <col />
          <col class="col-from" />
          <col class="col-list" />
          <col class="col-from" />
          <col class="col-list" />
        </colgroup>
        <thead>
          <tr>
            {columns.map((head) => (
              <th key={head}>{head}</th>
            ))}
          </tr>
        </thead>
        {paper.steps.map((step) => (
          <tbody key={step.number}>
            <tr>
              <td class="number">{step.number}</td>
              <td class="what">
                <p class="material">{step.title}</p>
                <p>{step.equation}</p>
              </td>
              <td>{step.from}</td>
              <td>{step.yield}</td>
              <td>{step.gives}</td>
              <td>{step.batches}</td>
            </tr>
          </tbody>
        ))}
      </table>
      <p class="end">{words.endOfList(words.linesHere(paper.steps.length))}</p>
      <ScreenFoot />
    </section>
  );
}

/** Black and white, as lines and hatching: it prints as vectors. */
function Picture({ picture, label }: { readonly picture: CascadePicture; readonly label: string }) {
  return (
    <svg class="picture" viewBox={`-2 -2 ${picture.width + 4} ${picture.height + 4}`} role="img" aria-label={label}>
      <defs>
        <pattern id="paper-loss" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" x2="0" y1="0" y2="5" stroke="#000" stroke-width="1.4" />
        </pattern>
      </defs>
      {picture.shapes.map((shape, at) => (
        <path key={at} class={`picture-${shape.kind.replace(' ', '-')}`} d={shape.path} stroke-width={shape.width} />
      ))}
      {picture.words.map((word, at) => (
        <text key={at} x={word.x} y={word.y} text-anchor={word.anchor} font-weight={word.strong ? 700 : 400}>
          {word.text}
        </text>
      ))}
    </svg>
  );
}
