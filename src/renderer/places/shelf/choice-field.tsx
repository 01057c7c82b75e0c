import { useId } from 'preact/hooks';

interface ChoiceFieldProps<C extends string> {
  readonly label: string;
  readonly value: C;
  readonly choices: Readonly<Record<C, string>>;
  readonly from?: string | undefined;
  readonly onChoose: (choice: C) => void;
}

/** A few words to choose one of. */
export function ChoiceField<C extends string>({ label, value, choices, from, onChoose }: ChoiceFieldProps<C>) {
  const id = useId();
  const names = Object.keys(choices) as C[];
  return (
    <p class="field">
      <label class="field-label" for={id}>
        {label}
      </label>
      <select
        id={id}
        class="field-input"
        value={value}
        aria-describedby={from ? `${id}-from` : undefined}
        onChange={(event) => {
          const chosen = names.find((name) => name === event.currentTarget.value);
          if (chosen !== undefined) onChoose(chosen);
        }}
      >
        {names.map((name) => (
          <option key={name} value={name}>
            {choices[name]}
          </option>
        ))}
      </select>
      {from && (
        <span id={`${id}-from`} class="field-from">
          {from}
        </span>
      )}
    </p>
  );
}
