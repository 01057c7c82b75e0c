import type { PlaceName } from './place.ts';

/** One thing a person can make the program do. Bar, keys, command list and tests all read the same object. */
export interface Command {
  /** `place.verb`, unique. */
  readonly name: string;
  /** What the command list and the button say. */
  readonly words: string;
  /** E.g. `Ctrl+Shift+Z`; Ctrl is ⌘ on a Mac. */
  readonly keys?: string;
  /** Whether it can be done now. */
  readonly when: () => boolean;
  readonly do: () => void;
  /** Also while a field has the focus. Without it a field keeps its own keys. */
  readonly inFields?: boolean;
  /** Can only be done in this place: another place may use the same keys. */
  readonly place?: PlaceName;
}

type Pressed = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

/** The pressed key as it is written in the table, e.g. `Ctrl+Shift+Z`. */
export function keysOf(event: Pressed): string {
  const key = event.key.length === 1 ? event.key.toUpperCase() : event.key;
  // Where a sign stands on the keyboard differs: with or without Shift it is the same sign.
  const sign = event.key.length === 1 && !/[\p{L}\d]/u.test(event.key);
  const shift = event.shiftKey && !sign ? 'Shift' : '';
  const parts = [event.ctrlKey || event.metaKey ? 'Ctrl' : '', event.altKey ? 'Alt' : '', shift, key];
  return parts.filter((part) => part !== '').join('+');
}

/** Keys as they are shown, e.g. `Alt+↓`. */
export function keyWords(keys: string): string {
  return keys.replace('ArrowDown', '↓').replace('ArrowUp', '↑').replace('ArrowLeft', '←').replace('ArrowRight', '→');
}

/** The command a key press means, or undefined. `inField`: what has the focus takes text. */
export function commandFor(event: Pressed, commands: readonly Command[], inField: boolean): Command | undefined {
  const keys = keysOf(event);
  return commands.find((command) => command.keys === keys && (!inField || command.inFields === true) && command.when());
}

const TEXTS = 'input:not([type=checkbox], [type=radio]), textarea, select';

/**
 * True where a key press belongs to the element that has the focus. Fields bound to the plan or the route share its undo
 * and other commands with Ctrl or Alt; a letter, a digit or a sign typed into them is theirs all the same.
 */
export function takesText(target: EventTarget | null, event?: Pressed): boolean {
  if (!(target instanceof HTMLElement)) return false;
  const typed = event !== undefined && event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey;
  if (target.dataset['undo'] !== undefined && !typed) return false;
  return target.isContentEditable || target.matches(TEXTS);
}
