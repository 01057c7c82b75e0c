import './bench-numbers.css';
import type { BenchLine, BenchPlot, BenchSection } from '../../../core/bench/bench-section.ts';
import {
  assumptionsText,
  benchNumberWords as words,
  lineLabel,
  lineWhy,
  sectionWords,
} from '../../../core/words/bench-number-words.ts';
import { plotPicture, plotTable } from '../../../core/bench/plot-picture.ts';
import type { SectionWords } from '../../../core/words/section-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { Amount } from '../../parts/amount.tsx';
import { NoticeMark } from '../../parts/notices.tsx';
import { PlotOfPoints } from '../../parts/bench-plot.tsx';
import { benchSections } from '../../state/bench-numbers.ts';

/** Under the step's card: the numbers that keep its work safe, each with what it rests on. */
export function BenchNumbers({ step }: { readonly step: string }) {
  const sections = benchSections(step);
  if (sections.length === 0) return null;
  return (
    <section class="bench-numbers" aria-labelledby="bench-numbers-title">
      <h2 id="bench-numbers-title">
        {words.heading} <span class="soft">{words.perBatch}</span>
      </h2>
      <p class="soft">{words.screening}</p>
      <div class="bench-sections">
        {sections.map((section) => (
          <Section key={section.kind} section={section} />
        ))}
      </div>
    </section>
  );
}

function Section({ section }: { readonly section: BenchSection }) {
  const assumed = assumptionsText(section);
  // What is a caution stands before its operation, where it can be initialled.
  const figures = section.lines.filter((line) => line.level !== 'caution' || line.operation === null);
  if (figures.length === 0 && assumed === '' && !section.plot) return null;
  return (
    <section>
      <h3>{sectionWords(section.kind).title}</h3>
      {figures.map((line, at) => (
        <Line key={at} section={section} line={line} />
      ))}
      {section.plot && <Plot plot={section.plot} section={sectionWords(section.kind)} />}
      {assumed !== '' && (
        <p class="bench-assumed">
          {words.assumed} {assumed}
        </p>
      )}
    </section>
  );
}

/** The picture, and its points as a table for whoever rather reads. */
function Plot({ plot, section }: { readonly plot: BenchPlot; readonly section: SectionWords }) {
  const picture = plotPicture(plot, section, decimalMark);
  const { heads, rows } = plotTable(plot, section, decimalMark);
  return (
    <figure class="bench-plot">
      <PlotOfPoints picture={picture} read={rows.map((row) => row.join('; ')).join(' | ')} />
      <figcaption class="soft small">
        {picture.label}. {words.plotted}
      </figcaption>
      <details>
        <summary>{words.asTable}</summary>
        <table>
          <thead>
            <tr>
              {heads.map((head) => (
                <th key={head} scope="col">
                  {head}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row[0]}>
                {row.map((cell, at) => (
                  <td key={at}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </figure>
  );
}

/** One line: its words, and beside them the figure, from → to, or that it is not known and why. */
function Line({ section, line }: { readonly section: BenchSection; readonly line: BenchLine }) {
  const { shown } = line;
  return (
    <div class={`bench-line bench-line-${line.level}`}>
      <p>
        {line.level === 'caution' && <NoticeMark notice={{ level: 'caution', code: line.code }} />}
        {lineLabel(section.kind, line)}
        {shown.kind === 'unknown' && <span class="bench-why"> {lineWhy(line)}</span>}
      </p>
      <p class="bench-figure">
        {shown.kind === 'figure' && <Amount figure={shown.figure} />}
        {shown.kind === 'unknown' && <em>{words.unknown}</em>}
        {shown.kind === 'from to' && (
          <>
            <Amount figure={shown.from} /> → <Amount figure={shown.to} />
          </>
        )}
      </p>
    </div>
  );
}
