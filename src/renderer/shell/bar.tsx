import { shellWords } from '../../core/words/shell-words.ts';
import { COMMANDS } from '../state/commands.ts';
import { goTo, PLACES, type PlaceName, place } from '../state/place.ts';
import { commitEdit, draft, editPlan, openPlanById, saveState, undone } from '../state/plan-store.ts';
import { openPlan } from '../state/plan-route.ts';
import { planList } from '../state/workbook.ts';
import { clockTime } from '../parts/day-text.ts';

/** The slim bar: the five places, and the open plan with its state in words. */
export function Bar() {
  return (
    <header class="bar">
      <a class="bar-skip" href="#work" onClick={skipToWork}>
        {shellWords.skip}
      </a>
      <span class="bar-name">{shellWords.program}</span>
      <nav class="bar-places" aria-label={shellWords.placesLabel}>
        {PLACES.map((name) => (
          <PlaceLink key={name} name={name} />
        ))}
      </nav>
      <PlanInWords />
      <span class="bar-acts">
        {ACTS.map((act) => (
          <CommandButton key={act.name} act={act} />
        ))}
      </span>
    </header>
  );
}

/** Commands that are always at hand, with the shape drawn on their button. */
const UNDO = 'M3 6h7a3.5 3.5 0 0 1 0 7H6M6 3 3 6l3 3';
const REDO = 'M13 6H6a3.5 3.5 0 0 0 0 7h4M10 3l3 3-3 3';
const ACTS = [
  { name: 'plan.undo', inRoutes: 'routes.undo', shape: UNDO, idle: shellWords.nothingToUndo },
  { name: 'plan.redo', inRoutes: 'routes.redo', shape: REDO },
  { name: 'commands.show', inRoutes: 'commands.show', shape: 'M3 4.5h10M3 8h10M3 11.5h10' },
] as const;

function CommandButton({ act }: { readonly act: (typeof ACTS)[number] }) {
  const name = place.value === 'routes' ? act.inRoutes : act.name;
  const command = COMMANDS.find((one) => one.name === name);
  if (!command) return null;
  const can = command.when();
  const about = command.keys ? `${command.words} (${command.keys})` : command.words;
  return (
    <button
      type="button"
      class="bar-act"
      aria-label={command.words}
      title={can || !('idle' in act) ? about : act.idle}
      disabled={!can}
      onClick={command.do}
    >
      <svg viewBox="0 0 16 16" aria-hidden="true">
        <path d={act.shape} />
      </svg>
    </button>
  );
}

function PlaceLink({ name }: { readonly name: PlaceName }) {
  const keys = COMMANDS.find((command) => command.name === `go.${name}`)?.keys;
  return (
    <a
      href={`#${name}`}
      class="bar-place"
      aria-current={place.value === name ? 'page' : undefined}
      aria-keyshortcuts={keys?.replace('Ctrl', 'Control')}
      title={keys}
      data-words={shellWords.places[name]}
      onClick={(event) => {
        event.preventDefault();
        goTo(name);
      }}
    >
      <span>{shellWords.places[name]}</span>
    </a>
  );
}

function PlanInWords() {
  const plan = openPlan.value;
  const ask = draft.value;
  if (!plan || !ask) return <p class="bar-plan soft">{shellWords.noPlan}</p>;
  return (
    <div class="bar-plan">
      <input
        type="text"
        class="plain-field bar-plan-name"
        aria-label={shellWords.planName}
        title={shellWords.planName}
        maxLength={300}
        autocomplete="off"
        spellcheck={false}
        data-undo="plan"
        value={ask.name}
        onInput={(event) => renamePlan(event.currentTarget.value)}
        onKeyDown={(event) => event.key === 'Enter' && commitEdit()}
        onBlur={commitEdit}
      />
      <OtherPlans open={plan.id} />
      <span class="soft" role="status">
        {undone.value !== '' && place.value === 'plan' && <span class="bar-undone">· {undone.value} </span>}·{' '}
        {stateWords(plan.revision, plan.saved)}
      </span>
    </div>
  );
}

/** A name that was emptied is not taken: the plan keeps its last one until something is typed. */
function renamePlan(name: string): void {
  if (name.trim() !== '') editPlan(shellWords.planRenamed, (ask) => ({ ...ask, name }));
}

function OtherPlans({ open }: { readonly open: number }) {
  const plans = planList.value ?? [];
  if (plans.length < 2) return null;
  return (
    <span class="bar-plans">
      <select
        aria-label={shellWords.otherPlans}
        title={shellWords.otherPlans}
        value={open}
        onChange={(event) => {
          goTo('plan');
          void openPlanById(Number(event.currentTarget.value));
        }}
      >
        {plans.map((one) => (
          <option key={one.id} value={one.id}>
            {one.name}
          </option>
        ))}
      </select>
      <svg viewBox="0 0 12 12" aria-hidden="true">
        <path d="M2.5 4.5 6 8l3.5-3.5" />
      </svg>
    </span>
  );
}

function stateWords(revision: number, savedAt: string): string {
  const words = {
    saved: shellWords.state(revision, clockTime(savedAt)),
    saving: shellWords.saving,
    unsaved: shellWords.unsaved,
    'not saved': shellWords.notSaved,
  } as const;
  return words[saveState.value];
}

function skipToWork(event: Event): void {
  event.preventDefault();
  document.getElementById('work')?.focus();
}
