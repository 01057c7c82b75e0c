import type { WeighingSheet } from '../../../../core/paper/sheet.ts';
import type { RunRecord } from '../../../../core/port/runs.ts';
import type { NextAct } from '../../../../core/run/next-act.ts';
import { formatAmount, formatSignificant } from '../../../../core/quantity/format.ts';
import { takenText } from '../../../../core/run/reading-text.ts';
import { headCautions, type RunState } from '../../../../core/run/state.ts';
import { paperPageWords } from '../../../../core/words/paper-page-words.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { Cautions } from './cautions.tsx';
import { RescaleView } from './rescale-view.tsx';
import { WeighView } from './weigh-view.tsx';

interface ActViewProps {
  readonly act: NextAct;
  readonly run: RunRecord;
  readonly state: RunState;
}

/** What must be read before it is done: it scrolls where it is longer than the window. */
export function ReadBefore({ act, run, state }: ActViewProps) {
  switch (act.kind) {
    case 'read':
      return <ReadFirst sheet={run.start.sheet.sheet} state={state} />;
    case 'rescale':
      return <RescaleView factor={act.factor} state={state} />;
    case 'product':
      return null;
    default:
      return <Cautions warnings={act.entry.before} operation={act.entry.id} state={state} />;
  }
}

/** What is to be done now; always in sight. */
export function ActNow({ act, state }: Pick<ActViewProps, 'act' | 'state'>) {
  switch (act.kind) {
    case 'weigh':
      return <WeighView act={act} state={state} />;
    case 'add':
      return (
        <>
          <p class="weigh-do">{words.acts.add}</p>
          <h1 class="weigh-name">{act.entry.material}</h1>
          <p class="weigh-as-weighed">{words.asWeighed(takenText(act.charge.parts, decimalMark))}</p>
          <Lines of={[act.entry.addition, act.entry.note]} />
        </>
      );
    case 'hold':
      return (
        <>
          <p class="weigh-do">{words.acts.hold}</p>
          <h1 class="weigh-name">{act.entry.until}</h1>
          {act.entry.how !== '' && <p class="weigh-range">{act.entry.how}</p>}
          <Lines of={[act.entry.check, act.entry.ifNot, act.entry.stands ?? '', act.entry.note]} />
        </>
      );
    case 'removal':
      return (
        <>
          <p class="weigh-do">{act.entry.title}</p>
          <h1 class="weigh-name">{act.entry.takes}</h1>
          <Leaves millilitres={act.entry.leaves} factor={state.factor} />
          <Lines of={[act.entry.waste === '' ? '' : words.wasteTo(act.entry.waste), act.entry.note]} />
        </>
      );
    case 'read':
    case 'rescale':
    case 'product':
      return null;
  }
}

/** What is said of an operation that is not weighed: as large as there is room for. */
function Lines({ of }: { readonly of: readonly string[] }) {
  return (
    <>
      {of.filter(Boolean).map((line) => (
        <p key={line} class="weigh-how">
          {line}
        </p>
      ))}
    </>
  );
}

/** What stays follows the basis: where that was weighed differently, the planned volume above no longer holds. */
function Leaves({ millilitres, factor }: { readonly millilitres?: number | undefined; readonly factor: number | null }) {
  if (millilitres === undefined || factor === null || factor === 1) return null;
  const { text, unit } = formatAmount({ value: millilitres * factor, unit: 'mL', digits: 3 }, decimalMark);
  return <p class="weigh-range">{words.leavesScaled(`${text}\u00a0${unit}`, formatSignificant(factor, 4, decimalMark))}</p>;
}

/** The head of the sheet, before anything is weighed: cautions, make-ups, hazards, what to wear, spill and first aid. */
function ReadFirst({ sheet, state }: { readonly sheet: WeighingSheet; readonly state: RunState }) {
  const makeUps = sheet.makeUps.map(({ label, title, parts, gives }) =>
    words.read.makeUp(label, title, parts.map((one) => `${one.target} ${one.material}`).join(', '), gives),
  );
  const lines = [
    sheet.equation,
    ...sheet.boxes.map((box) => `${box.title}: ${[box.strong, ...box.lines].filter(Boolean).join(' · ')}`),
    ...sheet.statements.map((one) =>
      words.read.statement(one.code, one.of ? `${one.words.replace(/\.$/, '')}: ${one.of}.` : one.words),
    ),
    sheet.unlisted ?? '',
    ...(sheet.emergency ?? []),
    ...(sheet.bench ?? []).flatMap((block) => block.lines.map((line) => `${block.title}: ${line}`)),
  ];
  return (
    <>
      <h1 class="weigh-name">{words.read.title}</h1>
      <Cautions warnings={headCautions(sheet)} operation={null} state={state} />
      {makeUps.length > 0 && (
        <ul class="weigh-read" aria-label={paperPageWords.makeUpsFirst}>
          {makeUps.map((line) => (
            <li key={line}>
              <b>{line}</b>
            </li>
          ))}
        </ul>
      )}
      <ul class="weigh-read">
        {lines.filter(Boolean).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
