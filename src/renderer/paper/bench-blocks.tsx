import type { WeighingSheet } from '../../core/paper/sheet.ts';
import { benchNumberWords } from '../../core/words/bench-number-words.ts';
import { PlotOfPoints } from '../parts/bench-plot.tsx';
import { inPairs } from './in-pairs.ts';

type Block = NonNullable<WeighingSheet['bench']>[number];

/** Bench numbers of the whole batch, read before the work: behind what is written on, so that they may fill up pages. */
export function BenchBlocks({ sheet }: { readonly sheet: WeighingSheet }) {
  const blocks = sheet.bench ?? [];
  if (blocks.length === 0) return null;
  return (
    <table class="record bench-blocks">
      <thead>
        <tr>
          <th colSpan={2}>
            {benchNumberWords.heading}, {benchNumberWords.perBatch}.{' '}
            <span class="bench-screening">{benchNumberWords.screening}</span>
          </th>
        </tr>
      </thead>
      {blocks.map((block) => (
        <BenchBody key={block.title} block={block} />
      ))}
    </table>
  );
}

/** A section: short lines two beside each other; its name stays with its first line. */
function BenchBody({ block }: { readonly block: Block }) {
  const rows = inPairs(block.lines);
  return (
    <tbody>
      {rows.map((row, at) => (
        <tr key={at}>
          <td colSpan={row.length === 2 ? 1 : 2}>
            {at === 0 && <BenchTitle block={block} />}
            {row[0]}
          </td>
          {row.length === 2 && <td>{row[1]}</td>}
        </tr>
      ))}
      {block.plot && (
        <tr>
          <td colSpan={2}>
            <figure class="bench-plot">
              <PlotOfPoints picture={block.plot} read="" />
              <figcaption>
                {block.plot.label}. {benchNumberWords.plotted}
              </figcaption>
            </figure>
          </td>
        </tr>
      )}
      {block.assumed !== '' && (
        <tr>
          <td colSpan={2} class="bench-assumed">
            {rows.length === 0 && <BenchTitle block={block} />}
            {benchNumberWords.assumed} {block.assumed}
          </td>
        </tr>
      )}
    </tbody>
  );
}

function BenchTitle({ block }: { readonly block: Block }) {
  return block.title === '' ? null : <strong class="bench-title">{`${block.title}. `}</strong>;
}
