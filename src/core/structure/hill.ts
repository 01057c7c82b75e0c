/**
 * Writes atoms as a formula in Hill order: carbon, hydrogen, then by letter; labelled atoms beside their element, the
 * charge at the end. Our formula reader reads it back. Source: E. A. Hill, J. Am. Chem. Soc. 1900, 22, 478.
 */
export function hillFormula(atoms: ReadonlyMap<string, number>, charge: number): string {
  const hasCarbon = [...atoms.keys()].some((key) => elementOf(key) === 'C');
  const rank = (key: string): string => {
    const element = elementOf(key);
    const first = hasCarbon && element === 'C' ? '0' : hasCarbon && element === 'H' ? '1' : '2';
    return `${first}${element}${key}`;
  };
  const parts = [...atoms]
    .sort(([one], [other]) => (rank(one) < rank(other) ? -1 : 1))
    .map(([key, number]) => `${written(key)}${number === 1 ? '' : number}`);
  return `${parts.join('')}${chargeText(charge)}`;
}

function elementOf(key: string): string {
  return key.split('-')[0] ?? key;
}

function written(key: string): string {
  const [element, mass] = key.split('-');
  if (mass === undefined) return key;
  if (element === 'H' && (mass === '2' || mass === '3')) return mass === '2' ? 'D' : 'T';
  return `[${mass}${element}]`;
}

const RAISED = '⁰¹²³⁴⁵⁶⁷⁸⁹';

function chargeText(charge: number): string {
  if (charge === 0) return '';
  const size = Math.abs(charge);
  const digits = size === 1 ? '' : [...String(size)].map((digit) => RAISED[Number(digit)]).join('');
  return `${digits}${charge > 0 ? '⁺' : '⁻'}`;
}
