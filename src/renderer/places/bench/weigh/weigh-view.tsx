import { readingText } from '../../../../core/paper/amounts.ts';
import { formatAmount, formatSignificant } from '../../../../core/quantity/format.ts';
import type { NextAct } from '../../../../core/run/next-act.ts';
import type { ChargeState, RunState } from '../../../../core/run/state.ts';
import { weighedText } from '../../../../core/run/reading-text.ts';
import { shareNow } from '../../../../core/run/sources.ts';
import { dishNow, portionOf, verdictAt } from '../../../../core/run/weigh-line.ts';
import { formWords } from '../../../../core/words/form-words.ts';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { decimalMark } from '../../../parts/locale.ts';
import { dishFactor } from '../../../state/weigh-dish.ts';
import { bottleFor, goneBottles, inHand, namedSource } from '../../../state/weigh-bottles.ts';
import { asking } from '../../../state/weigh-store.ts';
import { SourceChoices } from './source-choices.tsx';

/** One charge: what, how much, from where, and what the balance last said. */
export function WeighView({ act, state }: { readonly act: Extract<NextAct, { kind: 'weigh' }>; readonly state: RunState }) {
  const { entry, early } = act;
  const charge = inHand(act.charge);
  const sourceWords = entry.sources[Math.min(charge.parts.length, entry.sources.length - 1)]?.words ?? '';
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
        {charge.charge.asStock ? words.stockOf(entry.material) : entry.material}{' '}
        {!charge.charge.asStock && <small>{charge.untold || charge.reworked ? words.plannedForm(entry.form) : entry.form}</small>}
      </h1>
      <TargetNow charge={charge} />
      <div class="weigh-details">
        {asking.value.for === 'bottle' ? (
          <SourceChoices charge={charge} planned={sourceWords} />
        ) : charge.charge.asStock && bottleFor(charge) === null && namedSource(charge) === '' ? (
          <p class="weigh-from">{words.ofStock(dissolvedText(charge), entry.sources.map((one) => one.words).join('; '))}</p>
        ) : (
          <Source charge={charge} tap={sourceWords} />
        )}
        <Scaled charge={charge} factor={state.factor} />
        {entry.sources.length > 1 && (
          <p class="weigh-more">{entry.sources.map((one) => [one.words, one.amount].filter(Boolean).join(': ')).join('; ')}</p>
        )}
        {entry.addition !== '' && <p class="weigh-more weigh-strength">{entry.addition}</p>}
        {entry.note !== '' && <p class="weigh-more">{entry.note}</p>}
      </div>
      {charge.tare !== null && !charge.reading && <p class="weigh-tare">{words.tare(shown(charge.tare, charge))}</p>}
    </>
  );
}

/** What was dissolved for a stock solution, as the balance shows it; '' of a run begun before it was written down. */
function dissolvedText({ charge: { dissolves, decimals } }: ChargeState): string {
  return dissolves === undefined ? '' : readingText(dissolves, 'g', decimals, decimalMark);
}

/** What is still to be taken: of this portion, the portions before it counted in the last; beside it what the balance said. */
function TargetNow({ charge }: { readonly charge: ChargeState }) {
  const { target, low, high } = charge.target;
  const { portions } = charge.charge;
  const last = portionOf(charge) >= portions;
  const part = (value: number | null): number | null =>
    value === null ? null : last ? value - (charge.net ?? 0) : value / portions;
  const share = shareNow(charge, bottleFor(charge)?.id ?? null);
  const partial = share !== null && !share.last;
  const [now, from, to] = [share ? share.amount : part(target), part(low), part(high)];
  const [number, unit] = shown(Math.max(0, now ?? 0), charge).split('\u00a0');
  return (
    <>
      <div class="weigh-row">
        <p class={now === null ? 'weigh-untold' : 'weigh-target'}>
          {now === null ? (charge.untold ? words.untold : words.noTarget) : number}
          {now !== null && <small> {unit}</small>}
        </p>
        <Reading charge={charge} />
      </div>
      <p class="weigh-range">
        {partial && target !== null ? words.shareOf(shown(target, charge)) : rangeWords(from, to, charge)}
        {charge.parts.length > 0 && charge.net !== null && ` · ${words.soFar(shown(charge.net, charge))}`}
        {portions > 1 && target !== null && ` · ${inAll(target, charge)}`}
      </p>
    </>
  );
}

/** All portions together; what goes on until an end point has only a largest amount. */
function inAll(target: number, charge: ChargeState): string {
  const { low, high } = charge.target;
  const all = shown(target, charge);
  return low === null && high !== null ? words.inAllAtMost(all, shown(high, charge)) : words.inAll(all);
}

/** That the target was multiplied, and what it was. */
function Scaled({ charge, factor }: { readonly charge: ChargeState; readonly factor: number | null }) {
  const { target, scales, isBasis } = charge.charge;
  if (factor === null || factor === 1 || !scales || isBasis || target === null) return null;
  return <p class="weigh-more">{words.rescaled(factor.toPrecision(4).replace('.', decimalMark), shown(target, charge))}</p>;
}

function rangeWords(from: number | null, to: number | null, charge: ChargeState): string {
  const [least, most] = [Math.max(0, from ?? 0), Math.max(0, to ?? 0)];
  if (from !== null && to !== null) {
    const [low, high] = [shown(least, charge), shown(most, charge)];
    // The unit once where it is the same.
    const same = low.split('\u00a0')[1] === high.split('\u00a0')[1];
    return words.range(same ? (low.split('\u00a0')[0] ?? '') : low, high);
  }
  if (charge.untold) return words.untoldRange;
  return to === null ? words.recordOnly : words.atMost(shown(most, charge));
}

function Source({ charge, tap }: { readonly charge: ChargeState; readonly tap: string }) {
  const bottle = bottleFor(charge);
  if (!bottle) {
    const name = namedSource(charge);
    const dish = dishFactor(charge.charge) !== null && dishNow(charge) !== null;
    return (
      <>
        <p class="weigh-from">
          <Gone charge={charge} />
          {name !== '' ? words.from.named(name) : tap === '' || goneUntaken(charge).length > 0 ? words.from.none : tap}
          {dish && <span class="soft"> {words.from.wholeDish}</span>}
        </p>
        <OtherStrength charge={charge} of="" />
      </>
    );
  }
  const other = charge.untold ?? charge.reworked ?? false;
  const left = formatAmount({ value: bottle.left, unit: bottle.unit, digits: 4 }, decimalMark);
  return (
    <>
      <p class="weigh-from">
        {words.from.bottle(bottle.id, charge.reworked ? formWords(bottle.form) : '', bottle.lot ?? '', bottle.place ?? '')} ·{' '}
        {words.from.left(`${left.text}\u00a0${left.unit}`)}
        {!other && <span class="soft"> {words.from.scan}</span>} <Gone charge={charge} />
      </p>
      <OtherStrength charge={charge} of={bottle.id} />
    </>
  );
}

/** What is in hand is not what the target was worked out for: what was made of that, and what can be done now. */
function OtherStrength({ charge, of }: { readonly charge: ChargeState; readonly of: string }) {
  const { untold, reworked, parts } = charge;
  if (!untold && !reworked) return null;
  return (
    <p class={untold ? 'weigh-more weigh-wrong' : 'weigh-more weigh-strength'} role={untold ? 'alert' : 'status'}>
      {untold ? words.from.strengthUntold(of) : words.from.strength(parts.length > 0)}
    </p>
  );
}

/** What was planned to be taken and is no longer there. */
function goneUntaken(charge: ChargeState): readonly string[] {
  const taken = new Set(charge.parts.map((part) => part.bottle));
  return goneBottles(charge).filter((code) => !taken.has(code));
}

function Gone({ charge }: { readonly charge: ChargeState }) {
  const gone = goneUntaken(charge);
  if (gone.length === 0) return null;
  return (
    <b class="weigh-wrong" role="alert">
      {words.from.gone(gone)}{' '}
    </b>
  );
}

/** The last reading that was not taken, judged in words. */
function Reading({ charge }: { readonly charge: ChargeState }) {
  if (!charge.reading) return null;
  const verdict = verdictAt(charge, charge.reading, bottleFor(charge)?.id ?? null);
  const amount = `${weighedText(charge.reading.net, charge.reading.text, decimalMark)} ${charge.reading.unit}`;
  if (!verdict) return <p class="weigh-verdict weigh-good">{words.verdict.inRange(amount)}</p>;
  if (verdict.kind !== 'in range' && verdict.kind !== 'recorded') {
    const judged =
      verdict.kind === 'untold'
        ? words.verdict.free(amount)
        : verdict.kind === 'far'
          ? words.verdict.far(amount, formatSignificant(verdict.times, 2, decimalMark))
          : words.verdict[verdict.kind](amount, shown(verdict.by, charge));
    return (
      <div class="weigh-judged" role="status">
        <p class="weigh-verdict weigh-bad">{judged}</p>
        <p class="weigh-more">{words.verdict.again}</p>
      </div>
    );
  }
  const free = verdict.kind === 'recorded';
  return <p class="weigh-verdict weigh-good">{words.verdict[free ? 'free' : 'inRange'](amount)}</p>;
}

function shown(value: number, { charge }: ChargeState): string {
  return readingText(value, charge.unit, charge.decimals, decimalMark);
}
