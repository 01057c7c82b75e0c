import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';

interface FoldProps {
  /** Its class beside "fold". */
  readonly kind: string;
  readonly title: string;
  readonly children: ComponentChildren;
}

/** Closed until it is asked for: what stands in it is drawn, and worked out, only while it is open. */
export function Fold({ kind, title, children }: FoldProps) {
  const [open, setOpen] = useState(false);
  return (
    <details class={`fold ${kind}`} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title}</summary>
      {open && children}
    </details>
  );
}
