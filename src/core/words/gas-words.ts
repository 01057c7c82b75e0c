import { formatSignificant } from '../quantity/format.ts';
import type { SectionWords } from './section-words.ts';

type Values = Parameters<SectionWords['lines'][string]>[0];
const text = (values: Values, name: string): string => String(values[name] ?? '');
const MEETS: Readonly<Record<string, string>> = { water: 'with water', acid: 'with acid', base: 'with base' };

function gasName(v: Values): string {
  const gas = text(v, 'gas');
  return gas.charAt(0).toUpperCase() + gas.slice(1);
}

/** "Hydrogen chloride from thionyl chloride with water", or by the equation. */
function source(v: Values): string {
  const name = gasName(v);
  return v.meets === 'equation' ? name : `${name} from ${text(v, 'from')} ${MEETS[text(v, 'meets')] ?? ''}`.trimEnd();
}
function amount(v: Values): string {
  return v.moles === '' || v.moles === undefined ? '' : ` (${formatSignificant(Number(v.moles), 3)} mol)`;
}

export const gasWords: SectionWords = {
  title: 'Gas',
  lines: {
    charged: (v) => `${gasName(v)} charged as a gas`,
    'charged volume': (v) => `${gasName(v)}: pressure × volume at 25 °C`,
    stoichiometric: (v) => `${source(v)}, stoichiometric${amount(v)}`,
    largest: (v) => `${source(v)}, the largest possible${amount(v)}`,
    rate: (v) =>
      `${source(v)}: average rate over the ${formatSignificant(Number(v.minutes), 3)} min of the addition; peaks are higher`,
    'no closed vessel': () => 'Gas comes off: never a closed vessel; a free way out that cannot block, into a fume cupboard.',
    'scrubber for acid': (v) =>
      `${text(v, 'gas')}: through a scrubber with base, with an empty trap before it against suck-back.`,
    'scrubber for base': (v) =>
      `${text(v, 'gas')}: through a scrubber with dilute acid, with an empty trap before it against suck-back.`,
    burns: (v) => `${gasName(v)} burns, and explodes with air: no flame, no spark, the air led away.`,
    suffocates: (v) => `${gasName(v)} takes the place of air, unnoticed: into a fume cupboard, not into the room.`,
  },
  assumptions: {
    room: 'ideal gas at 25 °C and 1 atm, dry;',
    conversion: 'stoichiometric: full conversion by the equation, or as far as the acid, base or water that it meets goes;',
    largest: 'largest possible: from all that is there of what it comes from. What stays dissolved is not taken off.',
  },
};
