import type { MakeUpPaper, SolutionLine } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { solutionWords } from '../../core/words/solution-words.ts';
import { Blank } from './blank.tsx';
import { MakeUpHead } from './make-up-table.tsx';
import { dayText } from '../parts/day-text.ts';
import { titleClass } from './long-name.ts';
import { useRunName } from './page-run.ts';
import type { PaperState } from './paper-state.ts';
import { ScreenFoot } from './screen-foot.tsx';
import { WarningRows } from './warnings.tsx';

const own = solutionWords.paper;
const COLUMNS = 7;

interface MakeUpViewProps {
  readonly paper: MakeUpPaper;
  readonly state: PaperState;
}

/** One solution: what it gives, its operations with places to write, what came out, and the label for its bottle. */
export function MakeUpView({ paper, state }: MakeUpViewProps) {
  const run = useRunName();
  return (
    <section class={`sheet ${run(0)}`}>
      <Head paper={paper} state={state} />
      <Lines paper={paper} />
      <Result />
      <p class="end">{own.endOf(own.linesHere(paper.lines.length))}</p>
      <Label label={paper.label} />
      <ScreenFoot />
    </section>
  );
}

function Head({ paper, state }: MakeUpViewProps) {
  return (
    <header>
      <table class="title">
        <tbody>
          <tr>
            <td>
              <h1 class={titleClass(paper.title)}>{paper.title}</h1>
              {paper.gives.map((line) => (
                <p key={line}>{line}</p>
              ))}
              {paper.purpose !== '' && (
                <p>
                  {paper.purpose}
                  {paper.plan !== '' && ` · ${paper.plan}`}
                </p>
              )}
            </td>
            <td class="title-right">
              <p>
                <strong>{words.kinds[paper.kind]}</strong>
              </p>
              <p>{state.words}</p>
              <p>{words.asOf(dayText(paper.asOf))}</p>
            </td>
          </tr>
        </tbody>
      </table>
      <div class="readings make-up-readings">
        <p>{paper.heat}</p>
        <p>
          <strong>{words.hazardsTitle}:</strong>{' '}
          {paper.hazards.map((hazard, at) => (
            <span key={hazard.form}>
              {at > 0 && '; '}
              {hazard.form} <strong>{hazard.codes}</strong>
            </span>
          ))}
        </p>
        {paper.statements.length > 0 && (
          <p class="statements">
            {paper.statements.map((statement) => (
              <span key={statement.code}>
                <strong>{statement.code}</strong>
                {`\u00a0${statement.words} `}
              </span>
            ))}
          </p>
        )}
      </div>
    </header>
  );
}

function Lines({ paper }: { readonly paper: MakeUpPaper }) {
  return (
    <table class="operations make-ups">
      <MakeUpHead first={words.columns.part} />
      {paper.lines.map((line) => (
        <tbody key={line.number}>
          <WarningRows warnings={line.before} lead={words.before.charge(line.number)} columns={COLUMNS} />
          <tr class="charge">
            <td class="number">{line.number}</td>
            <td class="what">
              <p>
                <strong class="material">{line.what}</strong>
                {line.form !== '' && ` ${line.form}`}
              </p>
              {[line.source, [line.how, line.device === '' ? '' : words.with(line.device)].filter(Boolean).join(', ')]
                .filter((one) => one !== '')
                .map((one) => (
                  <p key={one}>{one}</p>
                ))}
            </td>
            <td class="target">
              <p class="target-number">{line.target}</p>
              {line.accepted !== '' && <p>{line.accepted}</p>}
              {line.or !== '' && <p>{line.or}</p>}
            </td>
            <Record line={line} />
          </tr>
        </tbody>
      ))}
    </table>
  );
}

/** Where to write what was done: a weighing, a temperature, a volume, or nothing. */
function Record({ line }: { readonly line: SolutionLine }) {
  switch (line.record) {
    case 'weighing':
      return (
        <>
          <Blank label="g" />
          <Blank label="g" />
          <Blank label="g" />
          <Blank label={words.blanks.timeInitials} />
        </>
      );
    case 'temperature':
      return (
        <>
          <Blank label="°C" span={3} />
          <Blank label={words.blanks.timeInitials} />
        </>
      );
    case 'volume':
      return (
        <>
          <Blank label="mL" span={3} />
          <Blank label={words.blanks.timeInitials} />
        </>
      );
    case 'none':
      return <td colSpan={4} />;
  }
}

function Result() {
  const { result } = own;
  return (
    <table class="record">
      <tbody>
        <tr>
          <th colSpan={4}>{result.title}</th>
        </tr>
        <tr>
          <Blank label={result.vessel} />
          <Blank label={result.vesselFull} />
          <Blank label={result.solution} />
          <Blank label={result.highest} />
        </tr>
        <tr>
          <Blank label={result.found} />
          <Blank label={result.remarks} />
          <Blank label={result.doneBy} />
          <Blank label={result.checkedBy} />
        </tr>
      </tbody>
    </table>
  );
}

/** To be cut out and put on the bottle. */
function Label({ label }: { readonly label: MakeUpPaper['label'] }) {
  return (
    <table class="bottle-label">
      <tbody>
        <tr>
          <th colSpan={2}>{own.label.title}</th>
        </tr>
        <tr>
          <td class="bottle-label-box">
            <p class="bottle-label-name">{label.name}</p>
            <p class="bottle-label-name">{label.strength}</p>
            {label.signal !== '' && (
              <p>
                <strong>{label.signal}</strong>
              </p>
            )}
            {label.lines.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </td>
          <td class="bottle-label-box bottle-label-blanks">
            {[own.label.made, own.label.by, own.label.useBy, own.label.titre].map((name) => (
              <p key={name}>
                {name} <span class="line" />
              </p>
            ))}
          </td>
        </tr>
      </tbody>
    </table>
  );
}
