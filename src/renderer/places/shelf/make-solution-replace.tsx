import type { Form } from '../../../core/matter/form.ts';
import type { Replacement, Taken } from '../../../core/matter/replace-strength.ts';
import type { Figure } from '../../../core/quantity/figure.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { sentence } from '../../../core/words/sentences.ts';
import { solutionWords } from '../../../core/words/solution-words.ts';
import type { Maybe } from '../../../core/words/why.ts';
import { Amount } from '../../parts/amount.tsx';
import { NoticeMark } from '../../parts/notices.tsx';

const words = solutionWords.replace;

interface ReplacementResultProps {
  readonly found: Replacement;
  readonly asked: Form;
  readonly instead: Form;
}

/** One strength in the place of another: the same moles, and all that is not the same. */
export function ReplacementResult({ found, asked, instead }: ReplacementResultProps) {
  const rows: readonly (readonly [string, Exclude<keyof Taken, 'normality'>])[] = [
    [words.mass, 'grams'],
    [words.volume, 'millilitres'],
    [words.others, 'others'],
    [words.molarity, 'molarity'],
  ];
  return (
    <>
      <h2>
        {words.carries} {found.moles.ok ? <Amount figure={found.moles.figure} /> : sentence(found.moles.why)}
      </h2>
      <table class="operations solution-order">
        <thead>
          <tr>
            <th scope="col">{words.heads.what}</th>
            <th scope="col" class="number">
              {words.heads.asked} {formWords(asked)}
            </th>
            <th scope="col" class="number">
              {words.heads.instead} {formWords(instead)}
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([name, part]) => (
            <tr key={part} class="op">
              <th scope="row">{name}</th>
              <Cell maybe={found.asked[part]} />
              <Cell maybe={found.instead[part]} large={part === 'grams' || part === 'millilitres'} />
            </tr>
          ))}
          {(found.asked.normality || found.instead.normality) && (
            <tr class="op">
              <th scope="row">{words.normality}</th>
              <Cell maybe={found.asked.normality} />
              <Cell maybe={found.instead.normality} />
            </tr>
          )}
        </tbody>
      </table>
      <h2>{words.more}</h2>
      <ul>
        <More name={words.moreOthers} maybe={found.moreOthers} />
        <More name={words.moreVolume} maybe={found.moreVolume} />
      </ul>
      <div class="solution-notes">
        {found.notes.map((note) => (
          <p key={note.code} class="tone-accent">
            <NoticeMark notice={{ level: 'caution', code: note.code }} />
            {sentence(note)}
          </p>
        ))}
      </div>
    </>
  );
}

interface CellProps {
  readonly maybe: Maybe<'g' | 'mL' | 'mol/L' | ''> | null;
  readonly large?: boolean;
}

function Cell({ maybe, large = false }: CellProps) {
  if (!maybe) return <td />;
  return (
    <td class="number">
      {maybe.ok ? (
        <Amount figure={maybe.figure} size={large ? 'large' : 'normal'} aligned />
      ) : (
        <span class="small">{sentence(maybe.why)}</span>
      )}
    </td>
  );
}

function More({ name, maybe }: { readonly name: (less: boolean) => string; readonly maybe: Maybe<'g' | 'mL'> }) {
  if (!maybe.ok) return null;
  const less = maybe.figure.value < 0;
  const figure: Figure = less ? { ...maybe.figure, label: name(true), value: -maybe.figure.value } : maybe.figure;
  return (
    <li>
      <Amount figure={figure} /> {name(less)}
    </li>
  );
}
