import { amountText } from '../../../core/paper/amounts.ts';
import { passedOverText } from '../../../core/paper/passed-over-text.ts';
import { sameMaterial } from '../../../core/matter/facts.ts';
import type { FetchLine, PassedOverBottle } from '../../../core/plan/result.ts';
import type { Bottle } from '../../../core/shelf/shelf.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { claims } from '../../state/other-plans.ts';
import { result } from '../../state/plan-result.ts';
import { route, shelf } from '../../state/plan-route.ts';
import { goTo } from '../../state/place.ts';
import { openBottle } from '../shelf/shelf-store.ts';
import { ByHand } from './by-hand.tsx';

const words = planWords.fetch;
const { byHand, claims: claimWords } = shoppingWords;

/** The bottles of a line: those used, those passed over and why, and those that would serve too; each can be put first or held back. */
export function FetchBottles({ line }: { readonly line: FetchLine }) {
  return (
    <ul class="fetch-bottles">
      {line.bottles.map((share) => (
        <li key={share.bottle}>
          <span>
            {words.lot(share.lot)}
            {wetWords(share.bottle)}{' '}
            <span class="soft">{amountText({ value: share.amount, unit: share.unit, digits: 3 }, decimalMark)}</span>
          </span>
          <ByHand id={share.bottle} lot={words.lot(share.lot)} />
          <Claims id={share.bottle} own={share.amount} />
        </li>
      ))}
      {line.passedOver.map((bottle) => (
        <li key={bottle.bottle}>
          <span class="tone-accent">
            {words.lot(bottle.lot)}: {passedOverText(bottle, decimalMark)}
          </span>
          <Release bottle={bottle} />
        </li>
      ))}
      {othersOf(line).map((bottle) => (
        <li key={bottle.id} class="soft">
          <span>
            {words.lot(bottle.lot ?? '')}, {formWords(bottle.form)},{' '}
            {amountText({ value: bottle.left, unit: bottle.unit, digits: 3 }, decimalMark)}
          </span>
          <ByHand id={bottle.id} lot={words.lot(bottle.lot ?? '')} />
        </li>
      ))}
    </ul>
  );
}

/** A bottle held back in this plan is released here; one held back on the shelf is released there. */
function Release({ bottle: { bottle: id, lot, why } }: { readonly bottle: PassedOverBottle }) {
  const onShelf = shelf.value.bottles.find((one) => one.id === id)?.heldBack === true;
  if (why === 'held back' && !onShelf) return <ByHand id={id} lot={words.lot(lot)} />;
  return (
    <button
      type="button"
      class="text-button small"
      aria-label={byHand.openWhat(words.lot(lot))}
      onClick={() => {
        openBottle(id);
        goTo('shelf');
      }}
    >
      {why === 'held back' ? byHand.heldOnShelf : byHand.open}
    </button>
  );
}

/** Bottles that would serve too. Of what the route makes, every neat one that is not on a line of its own. */
function othersOf(line: FetchLine): readonly Bottle[] {
  const { materials, bottles } = shelf.value;
  const known = new Set(line.others);
  const made = result.value?.materials[line.material]?.madeBy ?? null;
  const material = route.value?.materials[line.material];
  if (made === null || !material) return bottles.filter((bottle) => known.has(bottle.id));
  const listed = new Set(result.value?.fetch.flatMap((one) => one.bottles.map((share) => share.bottle)));
  return bottles.filter((bottle) => {
    const held = materials[bottle.material];
    return bottle.left > 0 && bottle.form.kind === 'neat' && !listed.has(bottle.id) && held && sameMaterial(held, material);
  });
}

/** A bottle whose assay leaves its water out says so beside what is taken of it. */
function wetWords(id: string): string {
  const form = shelf.value.bottles.find((one) => one.id === id)?.form;
  return form?.kind === 'neat' && form.assayOn !== undefined ? `, ${formWords(form)}` : '';
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
      {others.map((one) => claimWords.also(one.name, text(one.amount), one.atBench > 0 ? text(one.atBench) : '')).join('; ')}
      {all > bottle.left * (1 + 1e-9) && <span class="tone-accent">; {claimWords.tooMuch(text(bottle.left))}</span>}
    </small>
  );
}
