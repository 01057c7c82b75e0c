import { LabelView } from './label-view.tsx';
import type { SessionPapers } from '../../core/paper/paper.ts';
import { BuyingView, FetchView } from './list-views.tsx';
import { MakeUpView } from './make-up-view.tsx';
import { RunReportView } from './run-report-view.tsx';
import { pageRuns } from './page-rules.ts';
import { RunsBefore } from './page-run.ts';
import { SessionDayView } from './session-day-view.tsx';
import type { PaperState, ShownPaper } from './paper-state.ts';
import { SummaryView } from './summary-view.tsx';
import { WeighingView } from './weighing-view.tsx';

/** A paper, whatever its kind. */
export function PaperView({ paper, state }: ShownPaper) {
  switch (paper.kind) {
    case 'weighing sheet':
      return <WeighingView paper={paper} state={state} />;
    case 'fetch list':
      return <FetchView paper={paper} state={state} />;
    case 'buying list':
      return <BuyingView paper={paper} state={state} />;
    case 'route summary':
      return <SummaryView paper={paper} state={state} />;
    case 'make-up':
      return <MakeUpView paper={paper} state={state} />;
    case 'session day':
      return <SessionDayView paper={paper} state={state} />;
    case 'session papers':
      return <SessionPapersView paper={paper} state={state} />;
    case 'labels':
      return <LabelView paper={paper} />;
    case 'run report':
      return <RunReportView paper={paper} state={state} />;
  }
}

/** Paper after paper, each beginning on a page of its own with its own head and foot. */
function SessionPapersView({ paper, state }: { readonly paper: SessionPapers; readonly state: PaperState }) {
  let before = 0;
  return (
    <>
      {paper.parts.map((part, at) => {
        const mine = before;
        before += pageRuns(part).length;
        return (
          <RunsBefore.Provider key={at} value={mine}>
            <PaperView paper={part} state={state} />
          </RunsBefore.Provider>
        );
      })}
    </>
  );
}
