import { shelfWords } from '../../../core/words/shelf-words.ts';
import { reference } from '../../state/workbook.ts';
import { fillStrength, newBottle } from './new-bottle-draft.ts';

const words = shelfWords.new;

/** The strengths this material is usually sold in: one is chosen where the label says the same. */
export function UsualStrengths() {
  const usual = reference.value?.usualStrengths.get(newBottle.value.draft.cas.trim()) ?? [];
  if (usual.length === 0) return null;
  return (
    <p class="field field-wide usual-strengths">
      <span class="field-label">{words.usuallySold}</span>
      {usual.map((row) => (
        <button
          key={`${row.strength} ${row.solvent} ${row.label}`}
          type="button"
          class="text-button"
          onClick={() => fillStrength(row)}
        >
          {words.usualStrength(row)}
        </button>
      ))}
    </p>
  );
}
