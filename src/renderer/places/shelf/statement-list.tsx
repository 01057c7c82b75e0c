import type { Reference } from '../../../core/reference.ts';

/** Hazard statements with their words. */
export function StatementList({ codes, tables }: { readonly codes: readonly string[]; readonly tables: Reference }) {
  return (
    <ul class="hazards">
      {codes.map((code) => (
        <li key={code}>
          <b>{code}</b> {tables.statement.get(code) ?? ''}
        </li>
      ))}
    </ul>
  );
}
