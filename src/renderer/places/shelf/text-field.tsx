import type { TargetedInputEvent } from 'preact';
import { useId } from 'preact/hooks';

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  /** A date the browser's own way; what is typed halfway is found by `halfDates`. */
  readonly date?: boolean;
  /** Several lines, such as a pasted molfile. */
  readonly lines?: boolean;
  /** Texts that may be meant, offered while typing. */
  readonly suggestions?: readonly string[];
  readonly disabled?: boolean;
  readonly name?: string;
  readonly wide?: boolean;
  /** Where a value came from that was not typed. */
  readonly from?: string | undefined;
  readonly problem?: { readonly at: number; readonly words: string } | undefined;
  readonly onInput: (text: string) => void;
}

const MOST_SUGGESTED = 500;

/** A labelled field; what is wrong with it stands at its place, pointing at the character. */
export function TextField({
  label,
  value,
  placeholder,
  date = false,
  lines = false,
  suggestions,
  disabled = false,
  name,
  wide = false,
  from,
  problem,
  onInput,
}: TextFieldProps) {
  const id = useId();
  const described = [problem ? `${id}-problem` : '', from ? `${id}-from` : ''].filter((one) => one !== '').join(' ');
  const input = {
    id,
    name,
    class: 'field-input',
    value,
    disabled,
    autocomplete: 'off',
    'aria-invalid': problem !== undefined,
    'aria-describedby': described === '' ? undefined : described,
    onInput: (event: TargetedInputEvent<HTMLInputElement | HTMLTextAreaElement>) => onInput(event.currentTarget.value),
  } as const;
  return (
    <p class={`field${wide ? ' field-wide' : ''}${problem ? ' field-bad' : ''}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      {lines ? (
        <textarea {...input} rows={1} placeholder={placeholder} spellcheck={false} />
      ) : date ? (
        <input type="date" {...input} />
      ) : (
        <input
          type="text"
          {...input}
          placeholder={placeholder}
          spellcheck={false}
          list={suggestions ? `${id}-list` : undefined}
        />
      )}
      {suggestions && (
        <datalist id={`${id}-list`}>
          {suggestions.slice(0, MOST_SUGGESTED).map((one) => (
            <option key={one} value={one} />
          ))}
        </datalist>
      )}
      {from && (
        <span id={`${id}-from`} class="field-from">
          {from}
        </span>
      )}
      {problem && <WrongAt id={`${id}-problem`} text={value} problem={problem} />}
    </p>
  );
}

interface WrongAtProps {
  readonly id: string;
  readonly text: string;
  readonly problem: { readonly at: number; readonly words: string };
}

/** What is wrong, under its field and in the flow of the form: several can be read at once. */
function WrongAt({ id, text, problem }: WrongAtProps) {
  const at = Math.max(0, Math.min(problem.at, text.length));
  return (
    <span id={id} class="field-wrong" role="alert">
      {text.trim() !== '' && (
        <span class="field-problem-text" aria-hidden="true">
          {text.slice(0, at)}
          <mark>{text.slice(at) || '\u00a0'}</mark>{' '}
        </span>
      )}
      {problem.words}
    </span>
  );
}

/** Names of the date fields of a form that are typed halfway: the browser gives them out as empty. */
export function halfDates(form: Pick<HTMLFormElement, 'querySelectorAll'> | null): readonly string[] {
  const dates = [...(form?.querySelectorAll<HTMLInputElement>('input[type=date]') ?? [])];
  return dates.filter((input) => input.validity.badInput).map((input) => input.name);
}
