import { useSignal } from '@preact/signals';
import { type Facts, factsOf } from '../../../core/matter/facts.ts';
import { hydrateOf } from '../../../core/matter/hydrate.ts';
import type { Reference } from '../../../core/reference.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { solutionWords as words } from '../../../core/words/solution-words.ts';
import { ChoiceField } from './choice-field.tsx';
import { smallDigits } from './formula-text.ts';
import type { Bottles, SourceBottle } from './make-solution-bottles.ts';
import { type Chosen, type SolutionDraft, typeSolution } from './make-solution-draft.ts';
import type { SolutionField, SolutionReading } from './make-solution-read.ts';
import { shown } from './shown-amount.ts';
import { TextField } from './text-field.tsx';

const ask = words.ask;

interface SolutionFormProps {
  readonly draft: SolutionDraft;
  readonly reading: SolutionReading;
  readonly bottles: Bottles;
  readonly tables: Reference;
}

/** What is wanted, and what it is to be made from. Nothing typed here is lost on the way to another place. */
export function SolutionForm({ draft, reading, bottles, tables }: SolutionFormProps) {
  const making = draft.mode === 'make';
  return (
    <form class="solution-form" noValidate onSubmit={(event) => event.preventDefault()}>
      <fieldset class="fields">
        <legend>{ask.section}</legend>
        <Typed
          draft={draft}
          reading={reading}
          field="wanted"
          label={making ? ask.wanted : ask.replaced}
          placeholder={ask.wantedHint}
          wide
        />
        <TextField
          label={ask.solvent}
          value={draft.solvent}
          placeholder={ask.water}
          onInput={(text) => typeSolution('solvent', text)}
        />
        {making && <Typed draft={draft} reading={reading} field="celsius" label={ask.celsius} />}
        <Counted draft={draft} reading={reading} tables={tables} />
      </fieldset>
      <fieldset class="fields solution-sources">
        <legend>{making ? ask.source : ask.insteadSection}</legend>
        <SourceChoice which="source" draft={draft} bottles={bottles} />
        {draft.source === 'typed' && (
          <Typed draft={draft} reading={reading} field="sourceText" label={ask.typedForm} placeholder={ask.typedHint} wide />
        )}
        {making && <SourceChoice which="weaker" draft={draft} bottles={bottles} />}
        {making && draft.weaker === 'typed' && (
          <Typed draft={draft} reading={reading} field="weakerText" label={ask.typedForm} placeholder={ask.typedHint} wide />
        )}
      </fieldset>
    </form>
  );
}

interface TypedProps {
  readonly draft: SolutionDraft;
  readonly reading: SolutionReading;
  readonly field: SolutionField;
  readonly label: string;
  readonly placeholder?: string;
  readonly wide?: boolean;
}

/** A typed field. What is only not finished yet is no mistake while it is being typed. */
function Typed({ draft, reading, field, label, placeholder = '', wide = false }: TypedProps) {
  const typing = useSignal(false);
  const text = draft[field];
  const problem = reading.problems[field];
  const unfinished = problem !== undefined && typing.value && problem.at >= text.trimEnd().length;
  return (
    <div
      class={wide ? 'field-wide' : undefined}
      onFocusIn={() => {
        typing.value = true;
      }}
      onFocusOut={() => {
        typing.value = false;
      }}
    >
      <TextField
        label={label}
        value={text}
        placeholder={placeholder}
        name={field}
        problem={unfinished ? undefined : problem}
        onInput={(next) => typeSolution(field, next)}
      />
    </div>
  );
}

interface CountedProps {
  readonly draft: SolutionDraft;
  readonly reading: SolutionReading;
  readonly tables: Reference;
}

/** Only for a hydrate: whether "10 %" means the crystals as they are or the substance without their water. */
function Counted({ draft, reading, tables }: CountedProps) {
  const own = factsOf(draft.material, tables);
  const hydrate = hydrateOf(own, tables);
  if (!hydrate) return null;
  const name = (facts: Facts, anhydrous: boolean): string =>
    ask.countedAs(smallDigits(facts.formula ?? reading.solute.name), anhydrous);
  return (
    <div class="field-wide">
      <ChoiceField
        label={ask.counted}
        value={draft.counts}
        choices={{ anhydrous: name(hydrate.anhydrous, true), 'as it is': name(own, false) }}
        onChoose={(counts) => typeSolution('counts', counts)}
      />
    </div>
  );
}

interface SourceChoiceProps {
  readonly which: 'source' | 'weaker';
  readonly draft: SolutionDraft;
  readonly bottles: Bottles;
}

function SourceChoice({ which, draft, bottles }: SourceChoiceProps) {
  const list = bottles.list.value;
  const none = which === 'source' ? ask.choose : draft.solvent.trim() || ask.water;
  // The second is a solution, and another bottle than the first.
  const usable = (list ?? []).filter(
    ({ bottle }) => which === 'source' || (bottle.form.kind === 'solution' && draft.source !== `bottle:${bottle.id}`),
  );
  const choices: Record<string, string> = { '': none };
  for (const one of usable) choices[`bottle:${one.bottle.id}`] = bottleText(one);
  choices['typed'] = ask.typed;
  // A bottle that was chosen before the shelf is read, or that has gone since, still stands as what was chosen.
  if (draft[which].startsWith('bottle:') && !(draft[which] in choices)) choices[draft[which]] = draft[which].slice(7);
  return (
    <div class="field-wide">
      <ChoiceField
        label={which === 'source' ? ask.bottle : ask.weaker}
        value={draft[which] as string}
        choices={choices}
        from={sourceHint(which, list, bottles.trouble.value)}
        onChoose={(chosen) => typeSolution(which, chosen as Chosen)}
      />
    </div>
  );
}

function sourceHint(which: 'source' | 'weaker', list: readonly SourceBottle[] | null, trouble: string): string | undefined {
  if (which === 'weaker') return undefined;
  if (trouble !== '') return ask.notRead(trouble);
  if (list === null) return ask.reading;
  return list.length === 0 ? ask.noBottle : undefined;
}

/** "98 % w/w · lot 12 · Acids 2 · 412 mL left" */
function bottleText({ bottle, material, facts }: SourceBottle): string {
  const crystals = facts.formula?.includes('·') ? `${material.name}, ` : '';
  const parts = [
    `${crystals}${formWords(bottle.form)}`,
    bottle.lot ? ask.lot(bottle.lot) : '',
    bottle.place ?? '',
    ask.left(shown(bottle.left, bottle.unit)),
  ];
  return parts.filter((part) => part !== '').join(' · ');
}
