import { signal } from '@preact/signals';
import { shellWords } from '../../core/words/shell-words.ts';
import type { Command } from './command.ts';
import { goTo, PLACES } from './place.ts';
import { canRedo, canUndo, redoPlan, undoPlan } from './plan-store.ts';

/** Whether the list of all commands is open. */
export const commandListOpen = signal(false);

const always = (): boolean => true;

/** THE table of commands: bar, keys, command list and tests read it. */
export const COMMANDS: readonly Command[] = [
  ...PLACES.map((name, index) => ({
    name: `go.${name}`,
    words: shellWords.goTo(shellWords.places[name]),
    keys: `Ctrl+${index + 1}`,
    when: always,
    do: () => goTo(name),
    inFields: true,
  })),
  {
    name: 'commands.show',
    words: shellWords.commandList,
    keys: 'Ctrl+K',
    when: always,
    do: () => {
      commandListOpen.value = true;
    },
    inFields: true,
  },
  { name: 'plan.undo', words: shellWords.undo, keys: 'Ctrl+Z', when: () => canUndo.value, do: undoPlan },
  { name: 'plan.redo', words: shellWords.redo, keys: 'Ctrl+Shift+Z', when: () => canRedo.value, do: redoPlan },
];
