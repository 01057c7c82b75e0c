import type { WeighingSheet } from '../../core/paper/paper.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { dayText } from './open-paper.ts';
import type { PaperState } from './paper-state.ts';
import { WarningLine } from './warnings.tsx';

interface SheetHeadProps {
  readonly sheet: WeighingSheet;
  readonly plan: string;
  readonly asOf: string;
  readonly state: PaperState;
}

/** What must be read before anything is weighed. */
export function SheetHead({ sheet, plan, asOf, state }: SheetHeadProps) {
  return (
    <header>
      <table class="title">
        <tbody>
          <tr>
            <td>
              <h1>{sheet.title}</h1>
              <p>
                {plan} · <strong>{sheet.batchWords}</strong>
              </p>
              <p>{sheet.expected}</p>
              <p>{sheet.follows}</p>
            </td>
            <td class="title-right">
              <p>
                <strong>{words.kinds['weighing sheet']}</strong>
              </p>
              <p>{words.sheet(sheet.id)}</p>
              <p>{state.words}</p>
              <p>{words.asOf(dayText(asOf))}</p>
            </td>
          </tr>
        </tbody>
      </table>
      <table class="boxes">
        <tbody>
          <tr>
            {sheet.boxes.map((box) => (
              <td key={box.title}>
                <p class="box-title">{box.title}</p>
                {box.strong !== '' && <p class="box-strong">{box.strong}</p>}
                {box.lines.map((line) => (
                  <p key={line}>{line}</p>
                ))}
              </td>
            ))}
          </tr>
        </tbody>
      </table>
      <div class="readings">
        <p>{sheet.equation}</p>
        {sheet.equationProblem !== '' && (
          <WarningLine warning={{ kind: 'caution', words: sheet.equationProblem }} lead={words.before.sheet} />
        )}
        {sheet.before.map((warning, at) => (
          <WarningLine key={at} warning={warning} lead={words.before.sheet} />
        ))}
        {sheet.gases.map((gas) => (
          <WarningLine key={gas} warning={{ kind: 'caution', words: gas }} lead={words.before.sheet} />
        ))}
        <Statements sheet={sheet} />
        {sheet.sourceWords !== '' && <p>{sheet.sourceWords}</p>}
      </div>
    </header>
  );
}

/** Each hazard code once with its sentence. */
function Statements({ sheet }: { readonly sheet: WeighingSheet }) {
  if (sheet.statements.length === 0) return null;
  return (
    <p class="statements">
      <strong>{words.hazardsTitle}:</strong>{' '}
      {sheet.statements.map((statement) => (
        <span key={statement.code}>
          <strong>{statement.code}</strong>
          {`\u00a0${statement.words} `}
        </span>
      ))}
    </p>
  );
}
