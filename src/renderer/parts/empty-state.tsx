import type { ComponentChildren } from 'preact';

interface EmptyStateProps {
  readonly title: string;
  readonly text?: string;
  /** Under it, each a paragraph: why it is so. */
  readonly reasons?: readonly string[];
  /** Something is on its way: said to screen readers, shown by a moving rule. */
  readonly busy?: boolean;
  readonly children?: ComponentChildren;
}

/** What stands where nothing is yet: what it is, and what to do next. */
export function EmptyState({ title, text, reasons = [], busy = false, children }: EmptyStateProps) {
  return (
    <section class="empty-state" aria-busy={busy} role={busy ? 'status' : undefined}>
      <h1>{title}</h1>
      {text && <p class="soft">{text}</p>}
      {reasons.map((one) => (
        <p key={one}>{one}</p>
      ))}
      {busy && <span class="empty-state-busy" aria-hidden="true" />}
      {children && <div class="empty-state-acts">{children}</div>}
    </section>
  );
}
