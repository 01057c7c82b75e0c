import { amountText } from '../../../core/paper/amounts.ts';
import { sameMaterial } from '../../../core/matter/facts.ts';
import type { Ask } from '../../../core/plan/ask.ts';
import type { FetchLine } from '../../../core/plan/result.ts';
import type { Bottle } from '../../../core/shelf/shelf.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { claims } from '../../state/other-plans.ts';
import { route, shelf } from '../../state/plan-route.ts';
import { commitEdit, draft, editPlan } from '../../state/plan-store.ts';

const words = planWords.fetch;
const { byHand, claims: claimWords } = shoppingWords;

/** The bottles of a line: those used, those passed over and why, and the others; each can be put first or held back. */
export function FetchBottles({ line }: { readonly line: FetchLine }) {
  const known = new Set([...line.bottles, ...line.passedOver].map((one) => one.bottle));
  const others = bottlesOf(line).filter((bottle) => !known.has(bottle.id) && bottle.left > 0);
  return (
    <ul>
      {line.bottles.map((share) => (
        <li key={share.bottle}>
          {words.lot(share.lot)} <ByHand id={share.bottle} lot={words.lot(share.lot)} />
          <Claims id={share.bottle} own={share.amount} />
        </li>
      ))}
      {line.passedOver.map((bottle) => (
        <li key={bottle.bottle} class="tone-accent">
          {words.lot(bottle.lot)}: {words.passedOver[bottle.why]}{' '}
          {bottle.why === 'held back' && <ByHand id={bottle.bottle} lot={words.lot(bottle.lot)} />}
        </li>
      ))}
      {others.map((bottle) => (
        <li key={bottle.id} class="soft">
          {words.lot(bottle.lot ?? '')}, {formWords(bottle.form)} <ByHand id={bottle.id} lot={words.lot(bottle.lot ?? '')} />
        </li>
      ))}
    </ul>
  );
}

function bottlesOf(line: FetchLine): readonly Bottle[] {
  const material = route.value?.materials[line.material];
  const { materials, bottles } = shelf.value;
  if (!material) return [];
  return bottles.filter((bottle) => {
    const held = materials[bottle.material];
    return held !== undefined && sameMaterial(held, material);
  });
}

/** What other plans count on of a bottle: told, not held for them. */
function Claims({ id, own }: { readonly id: string; readonly own: number }) {
  const others = claims.value.get(id) ?? [];
  const bottle = shelf.value.bottles.find((one) => one.id === id);
  if (others.length === 0 || !bottle) return null;
  const text = (value: number): string => amountText({ value, unit: bottle.unit, digits: 3 }, decimalMark);
  const all = others.reduce((sum, one) => sum + one.amount, own);
  return (
    <small class="soft" title={claimWords.note}>
      {others.map((one) => claimWords.also(one.name, text(one.amount))).join('; ')}
      {all > bottle.left * (1 + 1e-9) && <span class="tone-accent">; {claimWords.tooMuch(text(bottle.left))}</span>}
    </small>
  );
}

function ByHand({ id, lot }: { readonly id: string; readonly lot: string }) {
  const [first, held] = (['useFirst', 'holdBack'] as const).map((list) => (draft.value?.[list] ?? []).includes(id));
  return (
    <>
      {!held && (
        <Choice
          says={first ? byHand.usual : byHand.useFirst}
          label={first ? byHand.usualWhat(lot) : byHand.useFirstWhat(lot)}
          act={() => put('useFirst', id, !first)}
        />
      )}{' '}
      <Choice
        says={held ? byHand.release : byHand.holdBack}
        label={held ? byHand.releaseWhat(lot) : byHand.holdBackWhat(lot)}
        act={() => put('holdBack', id, !held)}
      />
    </>
  );
}

function Choice({ says, label, act }: { readonly says: string; readonly label: string; readonly act: () => void }) {
  return (
    <button type="button" class="text-button small" aria-label={label} onClick={act}>
      {says}
    </button>
  );
}

/** Puts a bottle into one of the plan's lists or takes it out; saved with the plan and undone like any edit. */
function put(list: 'useFirst' | 'holdBack', id: string, into: boolean): void {
  editPlan(byHand.edits[list], (ask): Ask => {
    const rest = (ask[list] ?? []).filter((one) => one !== id);
    const now = into ? [...rest, id] : rest;
    const { [list]: _before, ...others } = ask;
    return now.length === 0 ? others : { ...others, [list]: now };
  });
  commitEdit();
}
