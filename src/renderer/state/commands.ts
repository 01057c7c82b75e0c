import { signal } from '@preact/signals';
import { labWords } from '../../core/words/lab-words.ts';
import { importScreenWords } from '../../core/words/shelf-import-screen-words.ts';
import { planWords } from '../../core/words/plan-words.ts';
import { routeEditorWords } from '../../core/words/route-editor-words.ts';
import { routesWords } from '../../core/words/routes-words.ts';
import { shellWords } from '../../core/words/shell-words.ts';
import { showAllSteps, zoomCascade } from './cascade-zoom.ts';
import type { Command } from './command.ts';
import { showLab } from './lab-store.ts';
import { goTo, PLACES, place } from './place.ts';
import { result } from './plan-result.ts';
import { canRedo, canUndo, redoPlan, undoPlan } from './plan-store.ts';
import { bandsIn, cascadeAs, chooseBeside, chosenStep } from './plan-view.ts';
import { toggleEditing } from './step-editing.ts';
import { firstLook } from './workbook.ts';
import { WEIGH_COMMANDS } from './weigh-commands.ts';
import { weighBatch, weighing } from './run-store.ts';
import { chosenBatches } from '../places/bench/bench-store.ts';
import { chooseShelfFile } from '../places/shelf/import/choose-shelf-file.ts';
import { exportShelf } from '../places/shelf/import/export-shelf.ts';
import { panel } from '../places/shelf/shelf-store.ts';
import { weighWords } from '../../core/words/weigh-words.ts';
import { canRedoRoute, canUndoRoute, redoRoute, undoRoute } from './route-edits.ts';
import { addStepBeside, focusEquation, focusNextLine, newStepAt, revisionsOpen } from './route-view.ts';
import { copyAndCompare } from './merit-result.ts';
import { openRoute } from './open-route.ts';
import { branchRoute, chooseAndImport, exportRoute, planRoute, putRouteAway } from './routes-store.ts';

/** Whether the list of all commands is open. */
export const commandListOpen = signal(false);

const always = (): boolean => true;
const inRoute = (): boolean => place.value === 'routes' && openRoute.value.at === 'open';
/** The search of the place the person is in. */
const searchField = (): HTMLInputElement | null => document.querySelector('#work input[type=search]');
/** An edit is undone where it can be seen: the Shelf's own lines are undone in its ledger. */
const seesPlan = (): boolean => place.value === 'plan';
const inPlan = (): boolean => place.value === 'plan' && result.value !== null;

const inPicture = (): boolean => inPlan() && cascadeAs.value === 'picture';

/** Commands of the five places; while one charge at a time is weighed there are no places. */
const PLACE_COMMANDS: readonly Command[] = [
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
  {
    name: 'place.search',
    words: shellWords.searchHere,
    keys: '/',
    when: () => searchField() !== null,
    do: () => searchField()?.focus(),
  },
  {
    name: 'plan.undo',
    words: shellWords.undo,
    keys: 'Ctrl+Z',
    when: () => seesPlan() && canUndo.value,
    do: undoPlan,
    place: 'plan',
  },
  {
    name: 'plan.redo',
    words: shellWords.redo,
    keys: 'Ctrl+Shift+Z',
    when: () => seesPlan() && canRedo.value,
    do: redoPlan,
    place: 'plan',
  },
  {
    name: 'routes.undo',
    words: routeEditorWords.commands.undo,
    keys: 'Ctrl+Z',
    when: () => inRoute() && canUndoRoute.value,
    do: undoRoute,
    place: 'routes',
  },
  {
    name: 'routes.redo',
    words: routeEditorWords.commands.redo,
    keys: 'Ctrl+Shift+Z',
    when: () => inRoute() && canRedoRoute.value,
    do: redoRoute,
    place: 'routes',
  },
  {
    name: 'routes.new',
    words: routeEditorWords.commands.create,
    keys: 'Alt+N',
    when: always,
    do: () => {
      goTo('routes');
      newStepAt.value = { at: 'route' };
    },
    inFields: true,
  },
  {
    name: 'routes.stepAfter',
    words: routeEditorWords.commands.stepAfter,
    keys: 'Alt+Shift+N',
    when: inRoute,
    do: () => addStepBeside('uses'),
    inFields: true,
  },
  {
    name: 'routes.stepBefore',
    words: routeEditorWords.commands.stepBefore,
    keys: 'Alt+Shift+B',
    when: inRoute,
    do: () => addStepBeside('makes'),
    inFields: true,
  },
  {
    name: 'routes.line',
    words: routeEditorWords.commands.line,
    keys: 'Alt+L',
    when: inRoute,
    do: focusNextLine,
    inFields: true,
  },
  {
    name: 'routes.equation',
    words: routeEditorWords.commands.equation,
    keys: 'Alt+E',
    place: 'routes',
    when: inRoute,
    do: focusEquation,
    inFields: true,
  },
  { name: 'routes.branch', words: routeEditorWords.commands.branch, when: inRoute, do: () => void branchRoute() },
  {
    name: 'routes.revisions',
    words: routeEditorWords.commands.history,
    when: inRoute,
    do: () => {
      revisionsOpen.value = true;
    },
  },
  { name: 'routes.putAway', words: routesWords.putAway.command, when: inRoute, do: () => void putRouteAway() },
  {
    name: 'routes.import',
    words: routesWords.commands.import,
    when: always,
    do: () => void chooseAndImport(),
  },
  {
    name: 'routes.plan',
    words: routesWords.commands.plan,
    when: inRoute,
    do: () => void planRoute(),
  },
  {
    name: 'routes.export',
    words: routesWords.commands.export,
    when: inRoute,
    do: () => void exportRoute(),
  },
  { name: 'shelf.import', words: importScreenWords.commands.import, when: always, do: () => void chooseShelfFile() },
  {
    name: 'shelf.intakes',
    words: importScreenWords.commands.intakes,
    when: always,
    do: () => {
      goTo('shelf');
      panel.value = { show: 'intakes' };
    },
  },
  ...(['csv', 'xlsx', 'json'] as const).map((as) => ({
    name: `shelf.${as}`,
    words: importScreenWords.commands[as],
    when: always,
    do: () => {
      goTo('shelf');
      void exportShelf(as);
    },
  })),
  {
    name: 'look.show',
    words: shellWords.firstLook.command,
    when: () => firstLook.value === null && result.value !== null,
    do: () => {
      goTo('plan');
      firstLook.value = 0;
    },
  },
  {
    name: 'bench.weigh',
    words: weighWords.commands.start,
    keys: 'Ctrl+Enter',
    when: () => place.value === 'bench' && result.value?.solved === true && chosenBatches(result.value).length > 0,
    do: () => {
      const [first] = result.value ? chosenBatches(result.value) : [];
      if (first) weighBatch(first.step, first.batch);
    },
    inFields: true,
  },
  { name: 'lab.show', words: labWords.command, when: () => result.value !== null, do: showLab },
  {
    name: 'plan.nextStep',
    words: planWords.commands.next,
    keys: 'Alt+ArrowDown',
    when: inPlan,
    do: () => chooseBeside(1),
    inFields: true,
  },
  {
    name: 'plan.stepBefore',
    words: planWords.commands.before,
    keys: 'Alt+ArrowUp',
    when: inPlan,
    do: () => chooseBeside(-1),
    inFields: true,
  },
  {
    name: 'plan.editStep',
    words: planWords.commands.edit,
    keys: 'Alt+E',
    place: 'plan',
    when: () => inPlan() && chosenStep.value?.active === true,
    do: () => void toggleEditing(),
    inFields: true,
  },
  { name: 'plan.copy', words: planWords.commands.copy, when: inPlan, do: () => void copyAndCompare() },
  {
    name: 'plan.table',
    words: planWords.commands.table,
    when: inPlan,
    do: () => {
      cascadeAs.value = cascadeAs.value === 'picture' ? 'table' : 'picture';
    },
  },
  {
    name: 'plan.grams',
    words: planWords.commands.grams,
    when: inPlan,
    do: () => {
      bandsIn.value = bandsIn.value === 'moles' ? 'grams' : 'moles';
    },
  },
  { name: 'plan.wider', words: planWords.commands.wider, keys: '+', when: inPicture, do: () => zoomCascade(1) },
  { name: 'plan.narrower', words: planWords.commands.narrower, keys: '-', when: inPicture, do: () => zoomCascade(-1) },
  { name: 'plan.allSteps', words: planWords.commands.all, keys: '0', when: inPicture, do: showAllSteps },
];

const COMMANDS_ALWAYS: ReadonlySet<string> = new Set(['commands.show']);

/** THE table of commands: bar, keys, command list and tests read it. */
export const COMMANDS: readonly Command[] = [
  ...WEIGH_COMMANDS,
  ...PLACE_COMMANDS.map((one) => ({
    ...one,
    when: () => (COMMANDS_ALWAYS.has(one.name) || !weighing.value) && one.when(),
  })),
];
