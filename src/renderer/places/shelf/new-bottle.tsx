import { useSignal } from '@preact/signals';
import { useRef } from 'preact/hooks';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { reference } from '../../state/workbook.ts';
import { ChoiceField } from './choice-field.tsx';
import { LookupField } from './lookup-field.tsx';
import { clearDraft, type Draft, type DraftField, fillFrom, newBottle, typeInto } from './new-bottle-draft.ts';
import { type DraftProblems, readNewBottle } from './read-new-bottle.ts';
import { closePanel, openBottle } from './shelf-store.ts';
import { halfDates, TextField } from './text-field.tsx';

const words = shelfWords.new;

/** A bottle that comes to the shelf: what it is, how it is presented, what its label says. */
export function NewBottle() {
  const problems = useSignal<DraftProblems>({});
  const said = useSignal('');
  const form = useRef<HTMLFormElement>(null);
  const type = <F extends DraftField>(field: F, value: Draft[F]): void => {
    typeInto(field, value);
    const { [field]: _mended, ...rest } = problems.value;
    problems.value = rest;
    said.value = '';
  };
  const put = async (): Promise<void> => {
    if (!reference.value) return;
    const { draft, filled } = newBottle.value;
    const read = readNewBottle(draft, filled, reference.value);
    const half = halfDates(form.current).map((name) => [name, { at: 0, words: shelfWords.halfDate }] as const);
    problems.value = { ...(read.ok ? {} : read.problems), ...Object.fromEntries(half) };
    if (!read.ok || half.length > 0) {
      said.value = words.problems(Object.keys(problems.value).length);
      // Signals draw on the next turn; only then is the first bad field marked.
      setTimeout(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    said.value = words.putting;
    const answer = await call('shelf.add', read.input);
    if (!answer.ok) {
      said.value = words.notPut(troubleWords(answer));
      return;
    }
    clearDraft();
    openBottle(answer.value.id);
  };
  return (
    <section aria-labelledby="new-title">
      <header class="panel-head">
        <h1 id="new-title">{words.title}</h1>
        <button type="button" class="text-button" onClick={closePanel}>
          {shelfWords.close}
        </button>
      </header>
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
        <p class="move-foot">
          <button type="submit" class="button button-first">
            {words.put}
          </button>
          <button type="button" class="text-button" onClick={clearDraft}>
            {words.clear}
          </button>
          <span class="small" role="status">
            {said.value}
          </span>
        </p>
      </form>
    </section>
  );
}

interface FieldsProps {
  readonly problems: DraftProblems;
  readonly type: <F extends DraftField>(field: F, value: Draft[F]) => void;
}

/** Fields that hold plain text. */
type TextName = Exclude<DraftField, 'kind' | 'state' | 'lookup' | 'smiles'>;

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

function MaterialFields(props: FieldsProps) {
  const { draft, filled } = newBottle.value;
  return (
    <fieldset class="fields">
      <legend>{words.sections.material}</legend>
      <LookupField
        value={draft.lookup}
        onInput={(text) => props.type('lookup', text)}
        onChoose={(found) => fillFrom(found.row)}
      />
      <Text {...props} name="name" wide />
      <Text {...props} name="formula" />
      <Text {...props} name="cas" />
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
  return (
    <fieldset class="fields">
      <legend>{words.sections.bottle}</legend>
      <Text {...props} name="amount" />
      <Text {...props} name="lot" />
      <Text {...props} name="place" />
      <Text {...props} name="supplier" />
      <Text {...props} name="opened" date />
      <Text {...props} name="useBy" date />
      <Text {...props} name="note" wide />
    </fieldset>
  );
}
