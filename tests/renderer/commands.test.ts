import { afterEach, describe, expect, test } from 'vitest';
import { commandFor, keysOf, keyWords, takesText } from '../../src/renderer/state/command.ts';
import { COMMANDS, commandListOpen } from '../../src/renderer/state/commands.ts';
import { commitEdit, draft, editPlan } from '../../src/renderer/state/plan-store.ts';
import { PLACES, place } from '../../src/renderer/state/place.ts';

const press = (key: string, held: Partial<Record<'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey', boolean>> = {}) => ({
  key,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  altKey: false,
  ...held,
});

afterEach(() => {
  place.value = 'plan';
  commandListOpen.value = false;
});

describe('the table of commands', () => {
  test('no two commands share a name or keys, and all have words', () => {
    const names = COMMANDS.map((command) => command.name);
    const keys = COMMANDS.flatMap((command) => (command.keys ? [`${command.keys} ${command.place ?? ''}`] : []));
    const everywhere = COMMANDS.flatMap((command) => (command.keys && !command.place ? [command.keys] : []));
    for (const one of COMMANDS) if (one.place) expect(everywhere).not.toContain(one.keys);
    expect(new Set(names).size).toBe(names.length);
    expect(new Set(keys).size).toBe(keys.length);
    for (const command of COMMANDS) {
      expect(command.name).toMatch(/^[a-z]+\.[a-zA-Z]+$/);
      expect(command.words).toMatch(/^[A-Z].{4,}[^.]$/);
    }
  });

  test('Ctrl+1 … Ctrl+5 go to the five places in their order', () => {
    PLACES.forEach((name, index) => {
      commandFor(press(String(index + 1), { ctrlKey: true }), COMMANDS, true)?.do();
      expect(place.value).toBe(name);
    });
  });

  test('⌘ serves as Ctrl', () => {
    expect(commandFor(press('k', { metaKey: true }), COMMANDS, false)?.name).toBe('commands.show');
  });

  test('a command that cannot be done now is not found by its keys', () => {
    expect(COMMANDS.find((command) => command.name === 'plan.undo')?.when()).toBe(false);
    expect(commandFor(press('z', { ctrlKey: true }), COMMANDS, false)).toBeUndefined();
  });
});

test.each(['routes', 'shelf', 'buy', 'bench'] as const)('an edit of the plan is not undone unseen, from %s', (name) => {
  draft.value = { name: 'one', draws: [] };
  editPlan('name', (ask) => ({ ...ask, name: 'two' }));
  place.value = name;
  expect(commandFor(press('z', { ctrlKey: true }), COMMANDS, false)).toBeUndefined();
  place.value = 'plan';
  expect(commandFor(press('z', { ctrlKey: true }), COMMANDS, false)?.name).toBe('plan.undo');
  commitEdit();
});

test('/ goes to the search of the place, wherever the sign stands on the keyboard, and is typed in fields', () => {
  expect(commandFor(press('/'), COMMANDS, false)).toBeUndefined();
  document.body.innerHTML = '<main id="work"><input type="search" /></main>';
  expect(commandFor(press('/'), COMMANDS, true)).toBeUndefined();
  commandFor(press('/', { shiftKey: true }), COMMANDS, false)?.do();
  expect(document.activeElement).toBe(document.querySelector('input'));
  document.body.innerHTML = '';
});

test('keys are written as in the table', () => {
  expect(keysOf(press('z', { ctrlKey: true, shiftKey: true }))).toBe('Ctrl+Shift+Z');
  expect(keysOf(press('ArrowDown', { altKey: true }))).toBe('Alt+ArrowDown');
  expect(keyWords('Alt+ArrowDown')).toBe('Alt+↓');
});

test('a field keeps its own undo, unless it shares the undo of the plan', () => {
  const field = document.createElement('input');
  const select = document.createElement('select');
  const box = document.createElement('input');
  box.type = 'checkbox';
  expect([field, select, box, document.createElement('button')].map((one) => takesText(one))).toEqual([true, true, false, false]);
  field.dataset['undo'] = 'plan';
  expect(takesText(field)).toBe(false);
  const undo = { name: 'plan.undo', words: 'Undo', keys: 'Ctrl+Z', when: () => true, do: () => {} };
  expect(commandFor(press('z', { ctrlKey: true }), [undo], true)).toBeUndefined();
  expect(commandFor(press('z', { ctrlKey: true }), [undo], false)).toBe(undo);
  // A digit typed into it is never the zoom of the cascade: "40 g" stays 40 g.
  for (const key of ['0', '+', '-', '/']) expect(takesText(field, press(key)), key).toBe(true);
  expect(takesText(field, press('z', { ctrlKey: true }))).toBe(false);
});
