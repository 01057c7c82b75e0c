import { planWords } from '../../../core/words/plan-words.ts';

/** A round flask on a 28 × 40 field: the bulb's middle and radius, and where the neck ends. */
const BULB = { x: 14, y: 26, r: 12 } as const;

/** A small drawn flask filled to its level; over the allowed fill the contents are in the accent. */
export function Flask({ fill, most }: { readonly fill: number | null; readonly most: number }) {
  const percent = Math.round((fill ?? 0) * 100);
  const level = Math.min(Math.max(fill ?? 0, 0), 1);
  const top = BULB.y + BULB.r - 2 * BULB.r * level;
  return (
    <svg class="flask" viewBox="0 0 28 40" role="img" aria-label={planWords.batches.flask(percent)}>
      <clipPath id="flask-bulb">
        <circle cx={BULB.x} cy={BULB.y} r={BULB.r - 1} />
      </clipPath>
      <rect
        class={level > most + 1e-9 ? 'flask-over' : 'flask-level'}
        x="0"
        y={top}
        width="28"
        height={40 - top}
        clip-path="url(#flask-bulb)"
      />
      <path class="flask-glass" d="M11 3v11.4a12 12 0 1 0 6 0V3" />
    </svg>
  );
}
