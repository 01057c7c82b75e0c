interface BlankProps {
  readonly label?: string;
  readonly span?: number;
  readonly rows?: number;
}

/** A place to write in with a gloved hand: its name with the unit at the top, at least 9 mm under it. */
export function Blank({ label = '', span = 1, rows = 1 }: BlankProps) {
  return (
    <td class="blank" colSpan={span} rowSpan={rows}>
      <span class="blank-label">{label === '' ? '\u00a0' : label}</span>
    </td>
  );
}

/** Two places above each other in one cell: time over initials, or whatever their names say. */
export function BlankPair({
  upper = '',
  lower = '',
  rows = 1,
}: {
  readonly upper?: string;
  readonly lower?: string;
  readonly rows?: number;
}) {
  return (
    <td class="blank blank-pair" rowSpan={rows}>
      {[upper, lower].map((label, at) => (
        <div key={at} class={label === '' ? 'bare' : undefined}>
          {label !== '' && <span class="blank-label">{label}</span>}
        </div>
      ))}
    </td>
  );
}
