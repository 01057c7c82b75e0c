import { verdictAt } from '../../core/run/weigh-line.ts';
import { cautionWords } from '../../core/words/caution-words.ts';
import { weighWords } from '../../core/words/weigh-words.ts';
import { type Command, keysOf } from './command.ts';
import { act, busy, run, runState, weighing } from './run-store.ts';
import { who } from './who.ts';
import { acknowledgeHere, unread } from './weigh-read.ts';
import { bottleFor, inHand } from './weigh-bottles.ts';
import { lastWeighing } from './weigh-correct.ts';
import { accept, ask, escape, isAsked, pressedLate, rescale, write } from './weigh-store.ts';

const words = weighWords.commands;

/** A record that was changed outside takes no more entries. */
const writable = (): boolean => run.value !== null && run.value.broken === null && who.value !== '';
const going = (): boolean => writable() && runState.value?.phase === 'running';
/** Something stands on the balance that is not taken. */
const reading = (): boolean => going() && act.value?.kind === 'weigh' && act.value.charge.reading !== null;

/** What can be done while weighing, each by one key that no balance types. */
export const WEIGH_COMMANDS: readonly Command[] = [
  {
    name: 'weigh.takeAsIs',
    get words() {
      return reading() ? words.takeAsIs : words.enough;
    },
    keys: 'F2',
    when: () => (reading() && isOut()) || partsOnly(),
    do: () => settled('F2', () => ask({ for: 'why' })),
    inFields: true,
  },
  {
    name: 'weigh.part',
    words: words.part,
    keys: 'F4',
    when: reading,
    do: () => settled('F4', () => void accept(false)),
    inFields: true,
  },
  {
    name: 'weigh.bottle',
    words: words.bottle,
    keys: 'Ctrl+B',
    when: () => going() && act.value?.kind === 'weigh',
    do: () => ask({ for: 'bottle' }),
    inFields: true,
  },
  {
    name: 'weigh.keepTargets',
    words: words.keepTargets,
    keys: 'F3',
    when: () => going() && act.value?.kind === 'rescale',
    do: () => settled('F3', () => void rescale(1)),
    inFields: true,
  },
  {
    name: 'weigh.notMet',
    words: words.notMet,
    keys: 'F6',
    when: () => going() && act.value?.kind === 'hold',
    do: () => ask({ for: 'not met' }),
    inFields: true,
  },
  {
    name: 'weigh.correct',
    words: words.correct,
    keys: 'F8',
    when: () => writable() && runState.value?.phase !== 'paused',
    do: () => ask({ for: 'correct which', last: lastWeighing() }),
    inFields: true,
  },
  {
    name: 'weigh.read',
    words: cautionWords.readNext,
    keys: 'Ctrl+E',
    when: () => going() && unread() !== null,
    do: () =>
      settled('Ctrl+E', () => {
        const next = unread();
        if (next) void acknowledgeHere(next.operation, next.words);
      }),
    inFields: true,
  },
  {
    name: 'weigh.pause',
    words: words.pause,
    keys: 'F9',
    when: going,
    do: () => settled('F9', () => void write({ kind: 'paused', by: who.value }, false, '')),
    inFields: true,
  },
  {
    name: 'weigh.finish',
    words: weighWords.product.finish,
    keys: 'F7',
    when: () => going() && act.value?.kind === 'product',
    do: () => settled('F7', () => void write({ kind: 'finished', by: who.value }, false, '')),
    inFields: true,
  },
  {
    name: 'weigh.end',
    words: words.end,
    keys: 'F10',
    when: () => going() && act.value !== null && act.value.kind !== 'product',
    do: () => ask({ for: 'end' }),
    inFields: true,
  },
  { name: 'weigh.check', words: words.check, keys: 'Ctrl+G', when: going, do: () => ask({ for: 'met' }), inFields: true },
  { name: 'weigh.remark', words: words.remark, keys: 'Ctrl+M', when: going, do: () => ask({ for: 'remark' }), inFields: true },
  {
    name: 'weigh.deviation',
    words: words.deviation,
    keys: 'Ctrl+D',
    when: going,
    do: () => ask({ for: 'deviation' }),
    inFields: true,
  },
  {
    name: 'weigh.who',
    words: words.who,
    keys: 'Ctrl+I',
    when: () => run.value !== null && who.value !== '',
    do: () => {
      who.value = '';
    },
    inFields: true,
  },
  {
    name: 'weigh.leave',
    get words() {
      return isAsked() ? words.unasked : words.leave;
    },
    keys: 'Escape',
    when: () => weighing.value,
    do: escape,
    inFields: true,
  },
];

/** What rests on the record as it stands: not while an entry is being written, which changes it. */
function settled(keys: string, work: () => void): void {
  if (busy.value) pressedLate(keys);
  else work();
}

/** A key of weighing mode for what is not there before the entry that is being written is: it is told as late then. */
export function keyTooEarly(event: Parameters<typeof keysOf>[0]): boolean {
  const keys = keysOf(event);
  if (!busy.value || run.value === null || !WEIGH_COMMANDS.some((one) => one.keys === keys)) return false;
  pressedLate(keys);
  return true;
}

/** Parts of a charge are taken and nothing stands on the balance: there may be no more of it. */
function partsOnly(): boolean {
  const now = act.value;
  return going() && now?.kind === 'weigh' && now.charge.reading === null && now.charge.parts.length > 0;
}

function isOut(): boolean {
  if (act.value?.kind !== 'weigh' || !act.value.charge.reading) return false;
  const verdict = verdictAt(inHand(act.value.charge), act.value.charge.reading, bottleFor(act.value.charge)?.id ?? null);
  return verdict !== null && verdict.kind !== 'in range' && verdict.kind !== 'recorded';
}
