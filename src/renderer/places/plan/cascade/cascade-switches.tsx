import type { Signal } from '@preact/signals';
import { planWords } from '../../../../core/words/plan-words.ts';
import { isNarrowest, isWidest, showAllSteps, zoomCascade } from '../../../state/cascade-zoom.ts';
import { bandsIn, cascadeAs } from '../../../state/plan-view.ts';

const words = planWords.cascade;

/** What the bands stand for, picture or table, and how wide the steps are where not all of them fit. */
export function CascadeSwitches({ zooms }: { readonly zooms: boolean }) {
  const picture = cascadeAs.value === 'picture';
  return (
    <span class="part-note cascade-switches">
      {picture && zooms && <Zoom />}
      {picture && (
        <Switch label={words.bandsIn} lead={words.bandsIn} value={bandsIn} choices={{ moles: words.moles, grams: words.grams }} />
      )}
      <Switch label={words.shownAs} value={cascadeAs} choices={{ picture: words.picture, table: words.asTable }} />
    </span>
  );
}

interface SwitchProps<T extends string> {
  readonly label: string;
  readonly lead?: string;
  readonly value: Signal<T>;
  readonly choices: Readonly<Record<T, string>>;
}

function Switch<T extends string>({ label, lead, value, choices }: SwitchProps<T>) {
  return (
    <span role="group" aria-label={label}>
      {lead !== undefined && <span class="switch-lead">{lead} </span>}
      {(Object.keys(choices) as T[]).map((one) => (
        <button
          key={one}
          type="button"
          class="switch"
          aria-pressed={value.value === one}
          onClick={() => {
            value.value = one;
          }}
        >
          {choices[one]}
        </button>
      ))}
    </span>
  );
}

function Zoom() {
  return (
    <span role="group" class="cascade-zoom" aria-label={words.zoom}>
      <StepButton label={words.narrower} sign="−" disabled={isNarrowest.value} onClick={() => zoomCascade(-1)} />
      <StepButton label={words.wider} sign="+" disabled={isWidest.value} onClick={() => zoomCascade(1)} />
      <button type="button" class="switch" aria-pressed={isNarrowest.value} title={words.showAll} onClick={showAllSteps}>
        {words.all}
      </button>
    </span>
  );
}

interface StepButtonProps {
  readonly label: string;
  readonly sign: string;
  readonly disabled: boolean;
  readonly onClick: () => void;
}

function StepButton({ label, sign, disabled, onClick }: StepButtonProps) {
  return (
    <button type="button" class="step-button" aria-label={label} title={label} disabled={disabled} onClick={onClick}>
      {sign}
    </button>
  );
}
