import { typedCode, writeCode } from '../../core/code/code.ts';
import type { Warning, WeighingSheet } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { dayText } from '../parts/day-text.ts';
import { QrCode } from '../parts/qr-code.tsx';
import { titleClass } from './long-name.ts';
import type { PaperState } from './paper-state.ts';
import { WarningRows } from './warnings.tsx';

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
      <Title sheet={sheet} plan={plan} asOf={asOf} state={state} />
      <Boxes sheet={sheet} />
      <div class="readings">
        <p>{sheet.equation}</p>
        <FirstWarnings sheet={sheet} />
        <Statements sheet={sheet} />
        <p>{[...(sheet.emergency ?? []), sheet.sourceWords].filter((line) => line !== '').join(' ')}</p>
      </div>
    </header>
  );
}

/** A wrong equation, what the plan says of the whole step, and the gases it frees. */
function firstWarnings(sheet: WeighingSheet): readonly Warning[] {
  const caution = (text: string): Warning => ({ kind: 'caution', words: text });
  const equation = sheet.equationProblem === '' ? [] : [caution(sheet.equationProblem)];
  return [...equation, ...sheet.before, ...sheet.gases.map(caution)];
}

function FirstWarnings({ sheet }: { readonly sheet: WeighingSheet }) {
  const warnings = firstWarnings(sheet);
  if (warnings.length === 0) return null;
  return (
    <table class="first-warnings">
      <colgroup>
        <col />
        <col class="col-done" />
      </colgroup>
      <tbody>
        <WarningRows warnings={warnings} lead={words.before.sheet} columns={2} />
      </tbody>
    </table>
  );
}

function Title({ sheet, plan, asOf, state }: SheetHeadProps) {
  return (
    <table class="title">
      <tbody>
        <tr>
          <td>
            <h1 class={titleClass(sheet.title)}>{sheet.title}</h1>
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
          {state.id !== null && <SheetCode paper={state.id} sheet={sheet.id} />}
        </tr>
      </tbody>
    </table>
  );
}

/** Reopens the batch; only an issued paper has one, since only that never changes. */
function SheetCode({ paper, sheet }: { readonly paper: number; readonly sheet: string }) {
  const code = { kind: 'sheet', paper, sheet } as const;
  return (
    <td class="title-code">
      <QrCode text={writeCode(code)} label={words.codeOf(sheet)} />
      <p>{typedCode(code)}</p>
    </td>
  );
}

function Boxes({ sheet }: { readonly sheet: WeighingSheet }) {
  return (
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
  );
}

/** Each hazard code once with its sentence and whose it is, the worst first; then what has no harmonised entry. */
function Statements({ sheet }: { readonly sheet: WeighingSheet }) {
  const unlisted = sheet.unlisted ?? '';
  if (sheet.statements.length === 0 && unlisted === '') return null;
  return (
    <p class="statements">
      <strong>{words.hazardsTitle}:</strong>{' '}
      {sheet.statements.map((statement) => (
        <span key={statement.code}>
          <strong>{statement.code}</strong>
          {`\u00a0${statement.of ? words.statementOf(statement.words, statement.of) : statement.words} `}
        </span>
      ))}
      {unlisted}
    </p>
  );
}
