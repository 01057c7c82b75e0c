import './beside.css';
import { useSignal } from '@preact/signals';
import type { Difference } from '../../../core/plan/compare.ts';
import { changeOf, meritWords } from '../../../core/words/merit-words.ts';
import { Amount } from '../../parts/amount.tsx';
import { decimalMark } from '../../parts/locale.ts';
import { beside, copyAndCompare, otherPlans, putBeside, type SideBySide, sideBySide } from '../../state/merit-result.ts';

const words = meritWords.compare;

/** Chooses what stands beside the open plan. */
export function BesideChoice() {
  const what = beside.value;
  const chosen = what.kind === 'plan' ? String(what.id) : what.kind;
  return (
    <div class="beside-part">
      <label class="beside-choice">
        <span>{words.beside}</span>
        <select class="choice" value={chosen} onChange={(event) => void putBeside(event.currentTarget.value)}>
          <option value="none">{words.nothing}</option>
          <option value="route">{words.routeYields}</option>
          {otherPlans.value.map((one) => (
            <option key={one.id} value={String(one.id)}>
              {one.name}
            </option>
          ))}
        </select>
      </label>
      <button type="button" class="text-button small" onClick={() => void copyAndCompare()}>
        {words.copy}
      </button>
    </div>
  );
}

/** The lines in which two plans differ, each with both figures and the change. */
export function SideBySideTable({ name }: { readonly name: string }) {
  const found = sideBySide.value;
  if (!found) return null;
  return (
    <section class="side-by-side" aria-labelledby="beside-title">
      <header class="part-head">
        <h2 id="beside-title">{words.title}</h2>
        <span class="part-note">{found.solved ? '' : words.unsolved}</span>
        <button type="button" class="text-button small" onClick={() => void putBeside('none')}>
          {words.away}
        </button>
      </header>
      <Lines found={found} name={name} />
    </section>
  );
}

function Lines({ found, name }: { readonly found: SideBySide; readonly name: string }) {
  const whole = useSignal(false);
  const differing = found.lines.filter((line) => line.differs);
  const following = differing.filter((line) => line.follows).length;
  const shown = whole.value ? differing : differing.filter((line) => !line.follows);
  if (differing.length === 0) return <p class="soft">{words.none}</p>;
  return (
    <>
      <table>
        <thead>
          <tr>
            <th scope="col" colSpan={2} />
            <th scope="col" class="number">
              {found.name}
            </th>
            <th scope="col" class="number">
              {words.thisPlan(name)}
            </th>
            <th scope="col" class="number">
              {words.changeTo}
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map((line, index) => (
            <Row
              key={`${line.section} ${line.of.join()} ${index}`}
              line={line}
              first={shown[index - 1]?.section !== line.section}
            />
          ))}
        </tbody>
      </table>
      <p class="soft small">
        {following > 0 && (
          <button
            type="button"
            class="text-button"
            onClick={() => {
              whole.value = !whole.value;
            }}
          >
            {words.following(following, whole.value)}
          </button>
        )}
        {following > 0 && ' · '}
        {words.same(found.lines.length - differing.length)}
      </p>
    </>
  );
}

function Row({ line, first }: { readonly line: Difference; readonly first: boolean }) {
  const change = changeOf(line);
  return (
    <tr>
      <td class="soft">{first ? words.sections[line.section] : ''}</td>
      <th scope="row">{line.of.join(' · ')}</th>
      <td class="number">{line.one ? <Amount figure={line.one} aligned /> : words.missing}</td>
      <td class="number">{line.other ? <Amount figure={line.other} aligned /> : words.missing}</td>
      <td class="number">{decimalMark === ',' ? change.replace('.', ',') : change}</td>
    </tr>
  );
}
