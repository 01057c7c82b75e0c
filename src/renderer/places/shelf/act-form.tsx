import type { ComponentChildren, RefObject } from 'preact';

interface ActFormProps {
  readonly title: string;
  readonly record: () => Promise<void>;
  readonly button: string;
  /** What was said last, or what recording would come to. */
  readonly status: string;
  readonly note?: string;
  /** Between the fields and the button. */
  readonly caution?: string | undefined;
  readonly form?: RefObject<HTMLFormElement | null>;
  readonly children: ComponentChildren;
}

/** One act on a bottle: its fields, the button that records it, and what is said of it. */
export function ActForm({ title, record, button, status, note, caution, form, children }: ActFormProps) {
  return (
    <form
      {...(form ? { ref: form } : {})}
      class="move"
      aria-label={title}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void record();
      }}
    >
      <div class="fields">{children}</div>
      {caution !== undefined && <p class="soft small">{caution}</p>}
      <p class="move-foot">
        <button type="submit" class="button">
          {button}
        </button>
        <span class="soft small" role="status">
          {status}
        </span>
      </p>
      {note !== undefined && <p class="soft small">{note}</p>}
    </form>
  );
}
