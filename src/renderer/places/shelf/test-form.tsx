import type { BottleRow } from '../../../core/port/shelf.ts';
import { formWords } from '../../../core/words/form-words.ts';
import { testWords as words } from '../../../core/words/test-words.ts';
import { ActForm } from './act-form.tsx';
import { ChoiceField } from './choice-field.tsx';
import { resultOf } from './read-test.ts';
import { useTest } from './test-state.ts';
import { TextField } from './text-field.tsx';

interface TestFormProps {
  readonly bottle: BottleRow;
  readonly onRecorded: () => Promise<void>;
}

/** Tested, purified or titrated: what was found, and until when the bottle may be used. */
export function TestForm({ bottle, onRecorded }: TestFormProps) {
  const { form, draft, problems, said, ahead, type, record } = useTest(bottle, onRecorded);
  const unknown = bottle.form.kind === 'unknown';
  const result = resultOf(bottle.form, draft.found);
  const measured = bottle.form.kind !== 'unknown' && bottle.form.density !== undefined;
  const field = (name: 'on' | 'assay' | 'strength' | 'solvent' | 'useBy' | 'remark', value: string, placeholder = '') => (
    <TextField
      label={words.fields[name]}
      name={name}
      value={value}
      date={name === 'on' || name === 'useBy'}
      placeholder={placeholder}
      wide={name === 'remark'}
      problem={problems.value[name]}
      onInput={(text) => type(name, text)}
    />
  );
  return (
    <details class="bottle-test">
      <summary>{words.title}</summary>
      <ActForm
        title={words.title}
        record={record}
        button={words.record}
        status={said.value === '' ? ahead : said.value}
        note={words.note}
        caution={
          draft.done === 'peroxides'
            ? words.peroxidesFound
            : measured && draft.done === 'purified'
              ? words.densityGoes
              : undefined
        }
        form={form}
      >
        <ChoiceField label={words.fields.done} value={draft.done} choices={words.kinds} onChoose={(done) => type('done', done)} />
        {field('on', draft.on)}
        {unknown && (
          <ChoiceField
            label={words.fields.found}
            value={draft.found}
            choices={words.found}
            onChoose={(found) => type('found', found)}
          />
        )}
        {field(result, draft[result], unknown ? '' : words.asBefore(formWords(bottle.form)))}
        {unknown && result === 'strength' && field('solvent', draft.solvent)}
        {field('useBy', draft.useBy ?? bottle.useBy ?? '')}
        {field('remark', draft.remark)}
      </ActForm>
    </details>
  );
}
