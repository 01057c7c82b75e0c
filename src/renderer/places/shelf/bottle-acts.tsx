import { factsOf } from '../../../core/matter/facts.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { solutionWords } from '../../../core/words/solution-words.ts';
import { reference } from '../../state/workbook.ts';
import { basisOf } from './draft-of-bottle.ts';
import { solutionFrom } from './make-solution-draft.ts';
import { type Basis, beginFrom } from './new-bottle-draft.ts';
import { panel } from './shelf-store.ts';

/** What can be begun from a bottle: a solution of it, another like it, the right one in its place. */
export function BottleActs({ bottle }: { readonly bottle: BottleRow }) {
  const begin = (how: Basis['how']): void => {
    beginFrom(basisOf(bottle, how));
    panel.value = { show: 'new' };
  };
  return (
    <p class="bottle-make">
      {canBeDissolved(bottle) && (
        <button
          type="button"
          class="button"
          onClick={() => {
            solutionFrom(bottle);
            panel.value = { show: 'solution' };
          }}
        >
          {solutionWords.fromBottle}
        </button>
      )}
      <button type="button" class="text-button" onClick={() => begin('another')}>
        {shelfActWords.another}
      </button>
      {bottle.left > 0 && (
        <button type="button" class="text-button" onClick={() => begin('correct')}>
          {shelfActWords.wrong}
        </button>
      )}
    </p>
  );
}

/** Anything whose strength is known and that is not a gas. */
function canBeDissolved({ form, material }: BottleRow): boolean {
  const tables = reference.value;
  const gas = tables !== null && form.kind === 'neat' && factsOf(material, tables).state === 'gas';
  return form.kind !== 'unknown' && !gas;
}
