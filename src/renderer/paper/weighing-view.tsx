import type { WeighingPaper } from '../../core/paper/paper.ts';
import type { StageBlock, WeighingSheet } from '../../core/paper/sheet.ts';
import { benchNumberWords } from '../../core/words/bench-number-words.ts';
import { paperPageWords as words } from '../../core/words/paper-page-words.ts';
import { PlotOfPoints } from '../parts/bench-plot.tsx';
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
          <ProductBlock sheet={sheet} />
          <BenchBlocks sheet={sheet} />
          <p class="end">{words.endOfSheet(sheet.id, words.chargesHere(sheet.charges))}</p>
          <ScreenFoot />
        </section>
      ))}
    </>
  );
}

/** Bench numbers of the whole batch, read before the work: behind what is written on, so that they may fill up pages. */
function BenchBlocks({ sheet }: { readonly sheet: WeighingSheet }) {
  const blocks = sheet.bench ?? [];
  if (blocks.length === 0) return null;
  return (
    <table class="record bench-blocks">
      <colgroup>
        <col class="col-bench" />
        <col />
      </colgroup>
      <thead>
        <tr>
          <th colSpan={2}>
            {benchNumberWords.heading}, {benchNumberWords.perBatch}
          </th>
        </tr>
      </thead>
      {blocks.map((block) => (
        <tbody key={block.title}>
          <tr>
            <td class="bench-title">{block.title}</td>
            <td>
              {block.lines.map((line) => (
                <p key={line}>{line}</p>
              ))}
              {block.plot && (
                <figure class="bench-plot">
                  <PlotOfPoints picture={block.plot} read="" />
                  <figcaption>
                    {block.plot.label}. {benchNumberWords.plotted}
                  </figcaption>
                </figure>
              )}
              {block.assumed !== '' && (
                <p class="bench-assumed">
                  {benchNumberWords.assumed} {block.assumed}
                </p>
              )}
            </td>
          </tr>
        </tbody>
      ))}
      <tbody>
        <tr>
          <td colSpan={2} class="bench-assumed">
            {benchNumberWords.screening}
          </td>
        </tr>
      </tbody>
    </table>
  );
}

function Operations({ sheet, secondCheck }: { readonly sheet: WeighingSheet; readonly secondCheck: boolean }) {
  const columns = secondCheck ? 9 : 8;
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
          <Heading lines={words.columns.amount} />
          <th>{words.columns.tare}</th>
          <th>{words.columns.gross}</th>
          <th>{words.columns.net}</th>
          <Heading lines={[words.columns.time, words.columns.initials]} />
          {secondCheck && <th>{words.columns.check}</th>}
        </tr>
      </thead>
      {sheet.stages.map((stage, at) => (
        <Stage key={at} stage={stage} columns={columns} secondCheck={secondCheck} />
      ))}
    </table>
  );
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
}: {
  readonly stage: StageBlock;
  readonly columns: number;
  readonly secondCheck: boolean;
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
          <OperationRows entry={entry} columns={columns} secondCheck={secondCheck} />
        </tbody>
      ))}
    </>
  );
}
