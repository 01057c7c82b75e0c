import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { shellWords } from '../../core/words/shell-words.ts';
import { type Command, keyWords } from '../state/command.ts';
import { COMMANDS, commandListOpen } from '../state/commands.ts';

/** Every command that can be done now, found by typing. */
export function CommandList() {
  const dialog = useRef<HTMLDialogElement>(null);
  const search = useSignal('');
  const at = useSignal(0);
  const open = commandListOpen.value;
  useLayoutEffect(() => {
    const box = dialog.current;
    if (!open || !box || box.open) return;
    search.value = '';
    at.value = 0;
    box.showModal();
  }, [open, search, at]);
  const found = open ? matching(COMMANDS, search.value) : [];
  const close = (): void => dialog.current?.close();
  const run = (command: Command | undefined): void => {
    if (!command) return;
    close();
    command.do();
  };
  const move = (by: number): void => {
    at.value = Math.max(0, Math.min(found.length - 1, at.value + by));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const keys: Readonly<Record<string, () => void>> = {
      ArrowDown: () => move(1),
      ArrowUp: () => move(-1),
      Enter: () => run(found[at.value]),
    };
    const act = keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  };
  return (
    <dialog
      ref={dialog}
      class="command-list"
      aria-label={shellWords.commands}
      onClose={() => {
        commandListOpen.value = false;
      }}
      onClick={(event) => event.target === dialog.current && close()}
    >
      <input
        type="text"
        role="combobox"
        aria-expanded="true"
        aria-controls="command-options"
        aria-activedescendant={found[at.value] ? `command-${at.value}` : undefined}
        aria-label={shellWords.commandsSearch}
        placeholder={shellWords.commandsSearch}
        value={search.value}
        onInput={(event) => {
          search.value = event.currentTarget.value;
          at.value = 0;
        }}
        onKeyDown={onKeyDown}
      />
      <ul id="command-options" role="listbox" aria-label={shellWords.commands}>
        {found.map((command, index) => (
          <li
            key={command.name}
            id={`command-${index}`}
            role="option"
            aria-selected={index === at.value}
            onClick={() => run(command)}
          >
            <span>{command.words}</span>
            {command.keys && <kbd>{keyWords(command.keys)}</kbd>}
          </li>
        ))}
      </ul>
      {commandListOpen.value && found.length === 0 && <p class="soft">{shellWords.commandsNone}</p>}
    </dialog>
  );
}

/** Commands that can be done now and whose words contain every typed word. */
function matching(commands: readonly Command[], typed: string): readonly Command[] {
  const wanted = typed.toLowerCase().split(/\s+/).filter(Boolean);
  return commands.filter((command) => {
    const words = command.words.toLowerCase();
    return command.when() && command.name !== 'commands.show' && wanted.every((word) => words.includes(word));
  });
}
