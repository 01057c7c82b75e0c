import { encode } from 'uqr';

/** Modules of quiet ground around the code (ISO/IEC 18004 asks for four). */
const QUIET = 4;

interface QrCodeProps {
  readonly text: string;
  readonly label: string;
  readonly class?: string;
}

/** Bytes a label of the program's own, and most of others, stay well below. */
const SHORT = 44;

/**
 * A text as a square of dots, drawn as one path; a quarter of it may be lost and it is still read. Of a long one less may
 * be lost: larger dots matter more where the paper is small.
 */
export function QrCode({ text, label, class: name = 'code' }: QrCodeProps) {
  const ecc = new TextEncoder().encode(text).length > SHORT ? 'L' : 'Q';
  const { data, size } = encode(text, { ecc, border: 0, boostEcc: true });
  const side = size + 2 * QUIET;
  return (
    <svg class={name} viewBox={`0 0 ${side} ${side}`} role="img" aria-label={label} shape-rendering="crispEdges">
      <rect width={side} height={side} fill="#fff" />
      <path d={data.map(rowPath).join('')} fill="#000" />
    </svg>
  );
}

/** Runs of dark modules of a row as rectangles, so that no hairline shows between them. */
function rowPath(row: readonly boolean[], y: number): string {
  let path = '';
  for (let x = 0; x < row.length; ) {
    let end = x;
    while (row[end]) end += 1;
    if (end > x) path += `M${x + QUIET} ${y + QUIET}h${end - x}v1h${x - end}z`;
    x = end + 1;
  }
  return path;
}
