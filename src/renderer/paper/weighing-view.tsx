import type { WeighingPaper } from '../../core/paper/paper.ts';
import type { StageBlock, WeighingSheet } from '../../core/paper/sheet.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { BenchBlocks } from './bench-blocks.tsx';
import { MakeUpTable } from './make-up-table.tsx';
import { OperationRows } from './operation-rows.tsx';
import { useRunName } from './page-run.ts';
import { ScreenFoot } from './screen-foot.tsx';
import type { PaperState } from './paper-state.ts';
import { ProductBlock } from './product-block.tsx';
import { SheetHead } from './sheet-head.tsx';

/** The sheets of a session, each starting a page of its own. */
export function WeighingView({ paper, state }: { readonly paper: WeighingPaper; readonly state: PaperState }) {
  const run = useRunName();
  return (
    <>
      {paper.sheets.map((sheet, at) => (
        <section key={sheet.id} class={`sheet ${run(at)}`}>
          <SheetHead sheet={sheet} plan={paper.plan} asOf={paper.asOf} state={state} />
          <MakeUpTable makeUps={sheet.makeUps} />
          <Operations sheet={sheet} secondCheck={paper.secondCheck} />
          <Sources sheet={sheet} />
          <ProductBlock sheet={sheet} />
          <BenchBlocks sheet={sheet} />
          <p class="end">{words.endOfSheet(sheet.id, words.chargesHere(sheet.charges))}</p>
          <ScreenFoot />
        </section>
      ))}
    </>
  );
}

function Sources({ sheet }: { readonly sheet: WeighingSheet }) {
  const sources = sourcesOf(sheet);
  return sources.length === 0 ? null : <p class="sources">{words.sources(sources)}</p>;
}

function Operations({ sheet, secondCheck }: { readonly sheet: WeighingSheet; readonly secondCheck: boolean }) {
  const columns = secondCheck ? 9 : 8;
  const sources = sourcesOf(sheet);
  const basisUnit = sheet.basisUnit ?? 'g';
  return (
    <table class="operations">
      <colgroup>
        <col class="col-number" />
        <col />
        <col class="col-target" />
        <col class="col-amount" />
        <col class="col-blank" />
        <col class="col-blank" />
        <col class="col-blank" />
        <col class="col-done" />
        {secondCheck && <col class="col-done" />}
      </colgroup>
      <thead>
        <tr>
          <th>{words.columns.number}</th>
          <Heading lines={words.columns.charge} />
          <Heading lines={words.columns.target} />
          <Heading lines={words.columns.amount(basisUnit)} />
          <th>{words.columns.tare}</th>
          <th>{words.columns.gross}</th>
          <th>{words.columns.net}</th>
          <Heading lines={[words.columns.time, words.columns.initials]} />
          {secondCheck && <th>{words.columns.check}</th>}
        </tr>
      </thead>
      {sheet.stages.map((stage, at) => (
        <Stage key={at} stage={stage} columns={columns} secondCheck={secondCheck} sources={sources} basisUnit={basisUnit} />
      ))}
    </table>
  );
}

/** What the densities and tolerances of a sheet rest on, each once, in the order they are met. */
function sourcesOf({ stages }: WeighingSheet): readonly string[] {
  const entries = stages.flatMap((stage) => stage.entries);
  const all = entries.flatMap((entry) => {
    if (entry.do !== 'charge') return [];
    return [entry.densityFrom ?? '', entry.target === null || entry.device === '' ? '' : (entry.deviceFrom ?? '')];
  });
  return [...new Set(all.filter((source) => source !== ''))];
}

function Heading({ lines }: { readonly lines: readonly string[] }) {
  return (
    <th>
      {lines.map((line) => (
        <div key={line}>{line}</div>
      ))}
    </th>
  );
}

/** Each operation is a table body of its own; the head of a stage stays with its first operation. */
function Stage({
  stage,
  columns,
  secondCheck,
  sources,
  basisUnit,
}: {
  readonly stage: StageBlock;
  readonly columns: number;
  readonly secondCheck: boolean;
  readonly sources: readonly string[];
  readonly basisUnit: string;
}) {
  return (
    <>
      {stage.entries.map((entry, at) => (
        <tbody key={entry.id}>
          {at === 0 && (
            <tr class="stage">
              <td colSpan={columns}>
                <strong class="stage-title">{stage.title}</strong>
                {stage.newVessel && <strong class="new-vessel">{words.newVessel}</strong>}
                <span>{[stage.apparatus, stage.fill].filter((line) => line !== '').join(' · ')}</span>
              </td>
            </tr>
          )}
          <OperationRows entry={entry} columns={columns} secondCheck={secondCheck} sources={sources} basisUnit={basisUnit} />
        </tbody>
      ))}
    </>
  );
}
