import { formatAmount, formatSignificant } from '../quantity/format.ts';
import type { SectionWords } from './section-words.ts';

type Values = Parameters<SectionWords['lines'][string]>[0];
const text = (values: Values, name: string): string => String(values[name] ?? '');
const MEETS: Readonly<Record<string, string>> = { water: 'with water', acid: 'with acid', base: 'with base' };

const many = (v: Values): boolean => text(v, 'gas').includes(' and ');

function gasName(v: Values): string {
  const gas = text(v, 'gas');
  return gas.charAt(0).toUpperCase() + gas.slice(1);
}

/** "Hydrogen chloride from thionyl chloride with water", or by the equation. */
function source(v: Values): string {
  const name = gasName(v);
  return v.meets === 'equation' || v.meets === undefined
    ? name
    : `${name} from ${text(v, 'from')} ${MEETS[text(v, 'meets')] ?? ''}`.trimEnd();
}
function amount(v: Values): string {
  if (v.moles === '' || v.moles === undefined) return '';
  const { text, unit } = formatAmount({ value: Number(v.moles), unit: 'mol', digits: 3 });
  return ` (${text} ${unit})`;
}

export const gasWords: SectionWords = {
  title: 'Gas',
  lines: {
    charged: (v) => `${gasName(v)} charged as a gas`,
    'charged volume': (v) => `${gasName(v)}: pressure × volume at 25 °C`,
    metered: (v) =>
      `${gasName(v)} is metered, not weighed out: by a calibrated flow and its time, by the fall of pressure in a known volume, or by what its cylinder or small bottle loses on a balance made for it. Which of them, and the fittings, local rules and whoever is responsible for the gas decide.`,
    'not taken up': (v) =>
      `${gasName(v)} that is not taken up builds up pressure or comes off again: a vessel and fittings made for that pressure, or a free way out that cannot block, into a fume cupboard.`,
    stoichiometric: (v) => `${source(v)}, stoichiometric${amount(v)}`,
    largest: (v) => `${source(v)}, the largest possible${amount(v)}`,
    rate: (v) =>
      `${source(v)}: average rate over the ${formatSignificant(Number(v.minutes), 3)} min of the addition; peaks are higher`,
    'no closed vessel': () => 'Gas comes off: never a closed vessel; a free way out that cannot block, into a fume cupboard.',
    'scrubber for acid': (v) => `${gasName(v)}: through a scrubber with base, with an empty trap before it against suck-back.`,
    'scrubber for base': (v) =>
      `${gasName(v)}: through a scrubber with dilute acid, with an empty trap before it against suck-back.`,
    poisons: (v) =>
      `${gasName(v)} ${many(v) ? 'are' : 'is'} poisonous: a scrubber that is known to bind ${many(v) ? 'them' : 'it'}; never alone.`,
    burns: (v) =>
      `${gasName(v)} ${many(v) ? 'burn, and explode' : 'burns, and explodes'} with air: no flame, no spark; lead ${many(v) ? 'them' : 'it'} off well diluted with air.`,
    suffocates: (v) =>
      `${gasName(v)} ${many(v) ? 'displace' : 'displaces'} air unnoticed: into a fume cupboard, not into the room.`,
  },
  assumptions: {
    room: 'ideal gas at 25 °C and 1 atm, dry;',
    conversion: 'stoichiometric: full conversion by the equation, or as far as the acid, base or water that it meets goes;',
    largest:
      'largest possible: from all that went in of what it comes from and was not taken out, as if the reaction had used none of it. What stays dissolved is not taken off.',
  },
};
