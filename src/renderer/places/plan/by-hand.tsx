import type { Ask } from '../../../core/plan/ask.ts';
import type { PlanResult } from '../../../core/plan/result.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { shelf } from '../../state/plan-route.ts';
import { commitEdit, draft, editPlan } from '../../state/plan-store.ts';

const { byHand } = shoppingWords;

/** A bottle put first or held back for this plan by hand, or no longer. */
export function ByHand({ id, lot }: { readonly id: string; readonly lot: string }) {
  const [first, held] = (['useFirst', 'holdBack'] as const).map((list) => (draft.value?.[list] ?? []).includes(id));
  return (
    <span class="by-hand">
      {!held && (
        <Choice
          says={first ? byHand.usual : byHand.useFirst}
          label={first ? byHand.usualWhat(lot) : byHand.useFirstWhat(lot)}
          act={() => put('useFirst', id, !first)}
        />
      )}
      <Choice
        says={held ? byHand.release : byHand.holdBack}
        label={held ? byHand.releaseWhat(lot) : byHand.holdBackWhat(lot)}
        act={() => put('holdBack', id, !held)}
      />
    </span>
  );
}

/** Bottles held back for this plan that stand on no line: what they hold would be made instead, or is not asked for. */
export function HeldBack({ result }: { readonly result: PlanResult }) {
  const shown = new Set(result.fetch.flatMap((line) => line.passedOver.map((one) => one.bottle)));
  const held = (draft.value?.holdBack ?? []).filter((id) => !shown.has(id));
  if (held.length === 0) return null;
  return (
    <section>
      <h3 class="fetch-place">{byHand.heldTitle}</h3>
      <ul class="fetch-bottles">
        {held.map((id) => {
          const bottle = shelf.value.bottles.find((one) => one.id === id);
          const name = bottle ? (shelf.value.materials[bottle.material]?.name ?? '') : '';
          const lot = bottle ? planWords.fetch.lot(bottle.lot ?? '') : id;
          return (
            <li key={id}>
              <span>{name === '' ? lot : `${name}, ${lot}`}</span>
              <ByHand id={id} lot={lot} />
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Choice({ says, label, act }: { readonly says: string; readonly label: string; readonly act: () => void }) {
  return (
    <button type="button" class="text-button small" aria-label={label} onClick={act}>
      {says}
    </button>
  );
}

/** Puts a bottle into one of the plan's lists, out of the other, or takes it out; saved with the plan and undone like any edit. */
function put(list: 'useFirst' | 'holdBack', id: string, into: boolean): void {
  editPlan(byHand.edits[list], ({ useFirst = [], holdBack = [], ...ask }): Ask => {
    const without = { useFirst: useFirst.filter((one) => one !== id), holdBack: holdBack.filter((one) => one !== id) };
    const now = into ? { ...without, [list]: [...without[list], id] } : without;
    return {
      ...ask,
      ...(now.useFirst.length === 0 ? {} : { useFirst: now.useFirst }),
      ...(now.holdBack.length === 0 ? {} : { holdBack: now.holdBack }),
    };
  });
  commitEdit();
}
