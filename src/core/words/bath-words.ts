import { type Bath, usualOf } from '../route/bath.ts';

const PHRASES: Readonly<Record<Bath, string>> = {
  'room temperature': 'at room temperature',
  'ice bath': 'in an ice bath',
  'ice–salt bath': 'in an ice–salt bath',
  'dry ice–acetone bath': 'in a dry ice–acetone bath',
  reflux: 'at reflux',
};

/** The word of a bath with what it usually comes to, and where that comes from. @param span how two temperatures, °C, are written. */
export function bathText(bath: Bath, span: (from: number, to: number) => string): string {
  const usual = usualOf(bath);
  if (!usual) return PHRASES[bath];
  return `${PHRASES[bath]} (usually ${span(usual.from, usual.to)}: ${usual.mark ?? usual.source})`;
}
