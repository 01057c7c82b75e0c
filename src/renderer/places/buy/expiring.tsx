import { plansNeeding } from '../../../core/buy/claims.ts';
import { sameMaterial } from '../../../core/matter/facts.ts';
import type { FetchLine } from '../../../core/plan/result.ts';
import type { ExpiringBottle } from '../../../core/port/buy.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { shoppingWords } from '../../../core/words/shopping-words.ts';
import { dayText } from '../../parts/day-text.ts';
import { type OtherPlan, plansLookedAt, plansOnShelf } from '../../state/other-plans.ts';
import { goTo } from '../../state/place.ts';
import { result } from '../../state/plan-result.ts';
import { openPlan, route } from '../../state/plan-route.ts';
import { openPlanById } from '../../state/plan-store.ts';
import { today } from '../../state/workbook.ts';
import { openBottle } from '../shelf/shelf-store.ts';
import { amount } from './buy-amounts.ts';
import { expiring, SOON } from './buy-store.ts';

const words = shoppingWords.expiring;

/** Bottles past their date or soon, each with the plans that need its material. */
export function Expiring() {
  const bottles = expiring.value;
  if (!bottles) return null;
  return (
    <section class="buy-part" aria-labelledby="expiring-title">
      <header class="part-head">
        <h2 id="expiring-title">{words.title}</h2>
        <span class="part-note">{words.note(SOON)}</span>
      </header>
      {bottles.length === 0 && <p class="soft">{words.none(SOON)}</p>}
      <ul class="buy-orders">
        {bottles.map((bottle) => (
          <Bottle key={bottle.id} bottle={bottle} />
        ))}
      </ul>
    </section>
  );
}

/** Every plan that was looked through, and the open one. */
function allPlans(): readonly OtherPlan[] {
  const [open, now, ofRoute] = [openPlan.value, result.value, route.value];
  const own = open && now?.solved && ofRoute ? [{ id: open.id, name: now.name, route: ofRoute, result: now }] : [];
  return [...own, ...(plansOnShelf.value ?? [])];
}

/** What a line needs, with its form where the bottle is another. */
function needText({ need, unit, formWords: asked }: FetchLine, { form }: ExpiringBottle): string {
  const text = amount(need.value, unit);
  return asked === formWords(form) ? text : words.ofForm(text, asked);
}

function Bottle({ bottle }: { readonly bottle: ExpiringBottle }) {
  const past = bottle.useBy < today.value;
  const looking = plansLookedAt.value;
  const needing = plansNeeding(allPlans(), (plan, key) => {
    const material = (plan as OtherPlan).route.materials[key];
    return material !== undefined && sameMaterial(material, bottle.material);
  });
  return (
    <li>
      <p>
        <button
          type="button"
          class="text-button"
          onClick={() => {
            openBottle(bottle.id);
            goTo('shelf');
          }}
        >
          {bottle.material.name}
          {bottle.form.kind === 'neat' ? '' : `, ${formWords(bottle.form)}`}
          {bottle.lot === '' ? '' : `, lot ${bottle.lot}`}
        </button>{' '}
        <span class="soft small">{[words.left(amount(bottle.left, bottle.unit)), bottle.place].filter(Boolean).join(' · ')}</span>
      </p>
      <p class="small">
        <span class={past ? 'tone-accent' : ''}>{(past ? words.past : words.until)(dayText(bottle.useBy))}</span>
        {looking && ` · ${words.looking(looking.done, looking.all)}`}
        {!looking && needing.length === 0 && <span class="soft"> · {words.noPlan}</span>}
        {needing.map(({ plan, lines }) => (
          <span key={plan.id} class="buy-needs">
            <button
              type="button"
              class="text-button"
              onClick={() => {
                if (plan.id !== openPlan.value?.id) void openPlanById(plan.id);
                goTo('plan');
              }}
            >
              {words.plan(plan.name, lines.map((line) => needText(line, bottle)).join(' + '))}
            </button>
          </span>
        ))}
      </p>
    </li>
  );
}
