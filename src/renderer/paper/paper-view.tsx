import { LabelView } from './label-view.tsx';
import { BuyingView, FetchView } from './list-views.tsx';
import { MakeUpView } from './make-up-view.tsx';
import { RunReportView } from './run-report-view.tsx';
import type { ShownPaper } from './paper-state.ts';
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
    case 'labels':
      return <LabelView paper={paper} />;
    case 'run report':
      return <RunReportView paper={paper} state={state} />;
  }
}
