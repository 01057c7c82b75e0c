import type { ChargeState } from '../../core/run/state.ts';
import type { Bottle } from '../../core/shelf/shelf.ts';
import { weighWords } from '../../core/words/weigh-words.ts';
import { saidDone, saidWrong } from './run-store.ts';
import { bottleCalled, bottlesOf, chooseBottle, chooseNone, expired, fits } from './weigh-bottles.ts';

const words = weighWords.from;

/** As many as one key can name. */
const MOST = 9;

/** Bottles a charge could be taken from, numbered from 1: what it was planned for first, what is past its date last. */
export function bottleChoices({ charge }: ChargeState): readonly Bottle[] {
  const rank = (one: Bottle): number => (expired(one) ? 2 : fits(charge, one) ? 0 : 1);
  return bottlesOf(charge.material)
    .toSorted((a, b) => rank(a) - rank(b))
    .slice(0, MOST);
}

/**
 * What a charge is taken from, chosen by keys alone: a number of the list, a label or a lot; 0 for no bottle of the shelf;
 * anything else names what is not on the shelf, a make-up in its beaker for one. True: it is chosen.
 */
export function takeSource(line: string, now: ChargeState, take: (found: ReturnType<typeof bottleCalled>) => boolean): boolean {
  const { charge } = now;
  if (line === '') return refuse(words.whichOne);
  const number = /^\d$/.test(line) ? Number(line) : null;
  const called = bottleCalled(line, charge.material);
  const chosen = number === null || number === 0 ? undefined : bottleChoices(now)[number - 1];
  if (number !== null && called.kind !== 'none') {
    const same = called.kind === 'one' && called.bottle.id === chosen?.id;
    return same ? take(called) : refuse(words.alsoLabel(line));
  }
  if (number === 0) {
    chooseNone(charge.id, '');
    saidDone(words.fromNone);
    return true;
  }
  if (chosen) return take({ kind: 'one', bottle: chosen });
  if (number !== null) return refuse(words.noChoice(number));
  if (called.kind !== 'none') return take(called);
  chooseNone(charge.id, line);
  saidDone(words.namedDone(line));
  return true;
}

function refuse(text: string): false {
  saidWrong(text);
  return false;
}

/** Takes a charge from this bottle, where it is one that may be used. */
export function takeBottle(line: string, { charge }: ChargeState, found: ReturnType<typeof bottleCalled>): boolean {
  if (found.kind === 'none') return refuse(words.other(line, charge.name));
  if (found.kind === 'several') return refuse(words.several(line, found.labels, found.by));
  const { bottle } = found;
  if (!bottlesOf(charge.material).some((one) => one.id === bottle.id)) return refuse(words.other(bottle.id, charge.name));
  if (expired(bottle)) return refuse(words.outOfDate(bottle.id));
  chooseBottle(charge.id, bottle.id);
  saidDone(words.chosen(bottle.id));
  return true;
}
