import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { written } from '../../parts/quantity-text.ts';
import { Structure } from '../../parts/structure.tsx';
import { CloseButton } from './close-button.tsx';
import { ChoiceField } from './choice-field.tsx';
import { LookupField } from './lookup-field.tsx';
import {
  carryOver,
  clearDraft,
  type DraftField,
  fillFrom,
  fillFromRoute,
  newBottle,
  takeOff,
  waiting,
} from './new-bottle-draft.ts';
import { openBottle } from './shelf-store.ts';
import { type TypeInto, useNewBottle } from './new-bottle-state.ts';
import type { DraftProblems } from './read-new-bottle.ts';
import { TextField } from './text-field.tsx';
import { UsualStrengths } from './usual-strengths.tsx';

const words = shelfWords.new;
const acts = shelfActWords;

/** A bottle that comes to the shelf: what it is, how it is presented, what its label says. */
export function NewBottle() {
  const { form, problems, said, type, put } = useNewBottle();
  const { basis } = newBottle.value;
  const wrong = basis?.how === 'correct' ? basis : null;
  const leave = (): void => {
    clearDraft();
    if (basis) openBottle(basis.id);
  };
  return (
    <section aria-labelledby="new-title">
      <header class="panel-head">
        <h1 id="new-title">{wrong ? acts.correct.title(wrong.id) : words.title}</h1>
        <CloseButton />
      </header>
      {wrong && <p class="soft small panel-hint">{acts.correct.hint(wrong.id)}</p>}
      {waiting.value.length > 0 && <p class="soft small panel-hint">{acts.waiting(waiting.value.length)}</p>}
      <form
        ref={form}
        class="new-bottle"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void put();
        }}
      >
        <MaterialFields problems={problems.value} type={type} />
        <FormFields problems={problems.value} type={type} />
        <LabelFields problems={problems.value} type={type} />
        <TakenOff />
        <p class="move-foot">
          <button type="submit" class="button button-first">
            {wrong ? acts.correct.put(wrong.id) : words.put}
          </button>
          <button type="button" class="text-button" onClick={basis ? leave : clearDraft}>
            {wrong ? acts.correct.keep : basis ? shelfWords.close : words.clear}
          </button>
          <span class="small" role="status">
            {said.value}
          </span>
        </p>
      </form>
    </section>
  );
}

/** What a solution was made from: it comes off its bottles in the same entry, unless it is said otherwise. */
function TakenOff() {
  const { took = [] } = newBottle.value;
  if (took.length === 0) return null;
  return (
    <fieldset class="fields">
      <legend>{words.sections.took}</legend>
      {took.map((one) => (
        <label key={one.id} class="check-box field-wide">
          <input type="checkbox" checked={one.on} onChange={(event) => takeOff(one.id, event.currentTarget.checked)} />
          {words.takeOff(written(one.amount, one.unit), one.id, one.name)}
        </label>
      ))}
    </fieldset>
  );
}

interface FieldsProps {
  readonly problems: DraftProblems;
  readonly type: TypeInto;
}

/** Fields that hold plain text. */
type TextName = Exclude<DraftField, 'kind' | 'state' | 'lookup' | 'assayOn'>;

function Text({
  name,
  date,
  wide,
  problems,
  type,
}: FieldsProps & { readonly name: TextName; readonly date?: boolean; readonly wide?: boolean }) {
  const placeholders: Partial<Record<TextName, string>> = words.placeholders;
  const { draft, filled } = newBottle.value;
  return (
    <TextField
      label={words.fields[name]}
      value={draft[name]}
      placeholder={placeholders[name] ?? ''}
      name={name}
      date={date ?? false}
      wide={wide ?? false}
      from={filled[name]}
      problem={problems[name]}
      onInput={(text) => type(name, text)}
    />
  );
}

/** A structure as text, several lines for a molfile, drawn beside it as soon as it can be read. */
function StructureText({ problems, type }: FieldsProps) {
  const { draft, filled } = newBottle.value;
  const drawn = useSignal('');
  useEffect(() => {
    const pause = setTimeout(() => {
      drawn.value = draft.smiles.trim();
    }, DRAW_PAUSE);
    return () => clearTimeout(pause);
  }, [draft.smiles]);
  return (
    <div class="field-wide">
      <TextField
        label={words.fields.smiles}
        value={draft.smiles}
        placeholder={words.placeholders.smiles}
        name="smiles"
        lines
        wide
        from={filled.smiles}
        problem={problems.smiles}
        onInput={(text) => type('smiles', text)}
      />
      {drawn.value !== '' && !problems.smiles && <Structure smiles={drawn.value} label={shelfWords.bottle.drawing(draft.name)} />}
    </div>
  );
}

const DRAW_PAUSE = 300;

function MaterialFields(props: FieldsProps) {
  const { draft, filled } = newBottle.value;
  return (
    <fieldset class="fields">
      <legend>{words.sections.material}</legend>
      <LookupField
        value={draft.lookup}
        onInput={(text) => props.type('lookup', text)}
        onChoose={(found) => ('row' in found ? fillFrom(found.row) : fillFromRoute(found))}
        onUnknown={carryOver}
      />
      <Text {...props} name="name" wide />
      <Text {...props} name="formula" />
      <Text {...props} name="cas" />
      <StructureText {...props} />
      <ChoiceField
        label={words.fields.state}
        value={draft.state}
        choices={words.states}
        from={filled.state}
        onChoose={(state) => props.type('state', state)}
      />
      {draft.state === 'liquid' && draft.kind !== 'solution' && <Text {...props} name="density" />}
    </fieldset>
  );
}

function FormFields(props: FieldsProps) {
  const { draft, filled } = newBottle.value;
  return (
    <fieldset class="fields">
      <legend>{words.sections.form}</legend>
      <ChoiceField
        label={words.fields.kind}
        value={draft.kind}
        choices={words.kinds}
        from={filled.kind}
        onChoose={(kind) => props.type('kind', kind)}
      />
      {draft.kind === 'neat' && <Text {...props} name="assay" />}
      {draft.kind === 'neat' && (
        <ChoiceField
          label={words.fields.assayOn}
          value={draft.assayOn}
          choices={words.assayOn}
          onChoose={(assayOn) => props.type('assayOn', assayOn)}
        />
      )}
      {draft.kind === 'neat' && draft.assayOn !== '' && <Text {...props} name="water" />}
      {draft.kind === 'solution' && <UsualStrengths />}
      {draft.kind === 'solution' && <Text {...props} name="strength" />}
      {draft.kind !== 'neat' && <Text {...props} name="solvent" />}
      {draft.kind === 'solution' && <Text {...props} name="titrated" date />}
      {draft.kind !== 'unknown' && draft.state !== 'solid' && (
        <>
          <Text {...props} name="bottleDensity" />
          {draft.bottleDensity.trim() !== '' && <Text {...props} name="celsius" />}
        </>
      )}
    </fieldset>
  );
}

function LabelFields(props: FieldsProps) {
  const { draft } = newBottle.value;
  return (
    <fieldset class="fields">
      <legend>{words.sections.bottle}</legend>
      <Text {...props} name="amount" />
      <Text {...props} name="lot" />
      <Text {...props} name="place" />
      <Text {...props} name="supplier" />
      <Text {...props} name="opened" date />
      <Text {...props} name="useBy" date />
      <Text {...props} name="tare" />
      {(draft.kind !== 'neat' || draft.assayOn === '') && <Text {...props} name="water" />}
      <Text {...props} name="price" />
      <Text {...props} name="note" wide />
    </fieldset>
  );
}
