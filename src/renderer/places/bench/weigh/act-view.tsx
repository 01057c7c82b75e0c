import type { WeighingSheet } from '../../../../core/paper/sheet.ts';
import type { RunRecord } from '../../../../core/port/runs.ts';
import type { NextAct } from '../../../../core/run/next-act.ts';
import type { RunState } from '../../../../core/run/state.ts';
import { paperPageWords } from '../../../../core/words/paper-page-words.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { Cautions } from './cautions.tsx';
import { RescaleView } from './rescale-view.tsx';
import { WeighView } from './weigh-view.tsx';

interface ActViewProps {
  readonly act: NextAct;
  readonly run: RunRecord;
  readonly state: RunState;
}

/** What is to be done now, what must be read before it first. */
export function ActView({ act, run, state }: ActViewProps) {
  return (
    <>
      {act.kind === 'read' && <ReadFirst sheet={run.start.sheet.sheet} state={state} />}
      {'entry' in act && <Cautions warnings={act.entry.before} operation={act.entry.id} state={state} />}
      <Act act={act} state={state} />
    </>
  );
}

function Act({ act, state }: Pick<ActViewProps, 'act' | 'state'>) {
  switch (act.kind) {
    case 'weigh':
      return <WeighView act={act} state={state} />;
    case 'rescale':
      return <RescaleView factor={act.factor} state={state} />;
    case 'add':
      return (
        <>
          <p class="weigh-do">{words.acts.add}</p>
          <h1 class="weigh-name">{act.entry.material}</h1>
          <p class="weigh-more">{act.entry.addition}</p>
        </>
      );
    case 'hold':
      return (
        <>
          <p class="weigh-do">{words.acts.hold}</p>
          <h1 class="weigh-name">{act.entry.until}</h1>
          {[act.entry.how, act.entry.check, act.entry.ifNot, act.entry.note].filter(Boolean).map((line) => (
            <p key={line} class="weigh-more">
              {line}
            </p>
          ))}
        </>
      );
    case 'removal':
      return (
        <>
          <p class="weigh-do">{act.entry.title}</p>
          <h1 class="weigh-name">{act.entry.takes}</h1>
          {[act.entry.waste, act.entry.note].filter(Boolean).map((line) => (
            <p key={line} class="weigh-more">
              {line}
            </p>
          ))}
        </>
      );
    case 'read':
    case 'product':
      return null;
  }
}

/** The head of the sheet, before anything is weighed: cautions, make-ups, hazards, what to wear, spill and first aid. */
function ReadFirst({ sheet, state }: { readonly sheet: WeighingSheet; readonly state: RunState }) {
  const makeUps = sheet.makeUps.map(({ label, title, parts, gives }) =>
    words.read.makeUp(label, title, parts.map((one) => `${one.target} ${one.material}`).join(', '), gives),
  );
  const lines = [
    sheet.equation,
    sheet.equationProblem,
    ...sheet.boxes.map((box) => `${box.title}: ${[box.strong, ...box.lines].filter(Boolean).join(' · ')}`),
    ...sheet.gases,
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
      <Cautions warnings={sheet.before} operation={null} state={state} />
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
