import { formatAmount, formatDecimals } from '../../../../core/quantity/format.ts';
import type { NextAct } from '../../../../core/run/next-act.ts';
import type { ChargeState, RunState } from '../../../../core/run/state.ts';
import { weighedText } from '../../../../core/run/reading-text.ts';
import { portionOf, verdictAt } from '../../../../core/run/weigh-line.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { dishFactor } from '../../../state/weigh-dish.ts';
import { bottleFor, fits } from '../../../state/weigh-bottles.ts';
import { asking } from '../../../state/weigh-store.ts';

/** One charge: what, how much, from where, and what the balance last said. */
export function WeighView({ act, state }: { readonly act: Extract<NextAct, { kind: 'weigh' }>; readonly state: RunState }) {
  const { charge, entry, early } = act;
  const doing = charge.charge.by === 'volume' ? words.acts.measure : words.acts.weigh;
  return (
    <>
      <p class="weigh-do">
        {early ? words.acts.weighBasis : doing}
        {(charge.charge.portions > 1 || charge.parts.length > 0) && (
          <span> · {words.portion(portionOf(charge), charge.charge.portions)}</span>
        )}
      </p>
      <h1 class="weigh-name">
        {entry.material} <small>{entry.form}</small>
      </h1>
      <TargetNow charge={charge} factor={state.factor} />
      <Reading charge={charge} />
      <Source charge={charge} tap={entry.sources[0]?.words ?? ''} />
      {[entry.addition, entry.note].filter(Boolean).map((line) => (
        <p key={line} class="weigh-more">
          {line}
        </p>
      ))}
      {charge.tare !== null && !charge.reading && <p class="weigh-more">{words.tare(shown(charge.tare, charge))}</p>}
    </>
  );
}

/** What is still to be taken: of this portion, the portions before it counted in the last. */
function TargetNow({ charge, factor }: { readonly charge: ChargeState; readonly factor: number | null }) {
  const { target, low, high } = charge.target;
  const { portions, unit, isBasis } = charge.charge;
  const last = portionOf(charge) >= portions;
  const part = (value: number | null): number | null =>
    value === null ? null : last ? value - (charge.net ?? 0) : value / portions;
  const [now, from, to] = [part(target), part(low), part(high)];
  const scaled = factor !== null && factor !== 1 && charge.charge.scales && !isBasis;
  return (
    <>
      <p class="weigh-target">
        {now === null ? words.noTarget : formatDecimals(Math.max(0, now), charge.charge.decimals, decimalMark)}
        {now !== null && <small> {unit}</small>}
      </p>
      <p class="weigh-range">
        {rangeWords(from, to, charge)}
        {charge.parts.length > 0 && charge.net !== null && ` · ${words.soFar(shown(charge.net, charge))}`}
        {portions > 1 && target !== null && ` · ${words.inAll(shown(target, charge))}`}
      </p>
      {scaled && charge.charge.target !== null && (
        <p class="weigh-more">
          {words.rescaled(factor.toPrecision(4).replace('.', decimalMark), shown(charge.charge.target, charge))}
        </p>
      )}
    </>
  );
}

function rangeWords(from: number | null, to: number | null, charge: ChargeState): string {
  const text = (value: number): string => formatDecimals(Math.max(0, value), charge.charge.decimals, decimalMark);
  if (from !== null && to !== null) return words.range(text(from), text(to), charge.charge.unit);
  return to === null ? words.recordOnly : words.atMost(`${text(to)} ${charge.charge.unit}`);
}

function Source({ charge, tap }: { readonly charge: ChargeState; readonly tap: string }) {
  const bottle = bottleFor(charge);
  if (!bottle) {
    const dish = dishFactor(charge.charge) !== null && charge.parts.length === 0;
    return (
      <p class="weigh-from">
        {tap === '' ? words.from.none : tap}
        {dish && <span class="soft"> {words.from.wholeDish}</span>}
      </p>
    );
  }
  const left = formatAmount({ value: bottle.left, unit: bottle.unit, digits: 4 }, decimalMark);
  return (
    <>
      <p class="weigh-from">
        {words.from.bottle(bottle.id, bottle.lot ?? '', bottle.place ?? '')} · {words.from.left(`${left.text} ${left.unit}`)}
        <span class="soft"> {words.from.scan}</span>
      </p>
      {!fits(charge.charge, bottle) && (
        <p class="weigh-said weigh-wrong" role="alert">
          {words.from.strength(bottle.id)}
        </p>
      )}
    </>
  );
}

/** The last reading that was not taken, judged in words. */
function Reading({ charge }: { readonly charge: ChargeState }) {
  if (!charge.reading) return null;
  const verdict = verdictAt(charge, charge.reading);
  const amount = `${weighedText(charge.reading.net, charge.reading.text, decimalMark)} ${charge.reading.unit}`;
  if (!verdict || asking.value.for === 'checker') return <p class="weigh-verdict weigh-good">{words.verdict.inRange(amount)}</p>;
  if (verdict.kind === 'below' || verdict.kind === 'above') {
    return (
      <div role="status">
        <p class="weigh-verdict weigh-bad">{words.verdict[verdict.kind](amount, shown(verdict.by, charge))}</p>
        <p class="weigh-more">{words.verdict.again}</p>
      </div>
    );
  }
  return <p class="weigh-verdict weigh-good">{words.verdict.inRange(amount)}</p>;
}

function shown(value: number, { charge }: ChargeState): string {
  return `${formatDecimals(value, charge.decimals, decimalMark)} ${charge.unit}`;
}
