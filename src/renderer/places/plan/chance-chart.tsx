import { useRef } from 'preact/hooks';
import type { Outlook } from '../../../core/confidence/confidence.ts';
import { formatAmount } from '../../../core/quantity/format.ts';
import { confidenceWords as words } from '../../../core/words/confidence-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { commitEdit } from '../../state/plan-store.ts';
import { setStart } from './chance-edits.ts';

/** The drawing's own measures; it is scaled to its place. */
const WIDTH = 236;
const HEIGHT = 116;
const LEFT = 36;
const RIGHT = 8;
const TOP = 10;
const BOTTOM = 22;

interface Point {
  readonly multiplier: number;
  readonly percent: number;
  readonly grams: number | null;
}

/** Chance of enough against the amount started, with the chosen start marked; dragging the mark changes the start. */
export function ChanceChart({ outlook, material }: { readonly outlook: Outlook; readonly material: string }) {
  const svg = useRef<SVGSVGElement>(null);
  const { curve, chance, first } = outlook;
  const [from, to] = [curve[0], curve.at(-1)];
  if (!from || !to || to.multiplier <= from.multiplier) return null;
  const now = multiplierAt(curve, chance.value);
  const x = (multiplier: number): number =>
    LEFT + ((multiplier - from.multiplier) / (to.multiplier - from.multiplier)) * (WIDTH - LEFT - RIGHT);
  const y = (percent: number): number => TOP + (1 - percent / 100) * (HEIGHT - TOP - BOTTOM);
  const choose = (multiplier: number): void => {
    const inside = Math.min(to.multiplier, Math.max(from.multiplier, multiplier));
    setStart({ multiplier: Math.min(100, Math.max(0.01, Number(inside.toPrecision(4)))) });
  };
  const follow = (event: PointerEvent): void => {
    const box = svg.current?.getBoundingClientRect();
    if (!box || event.buttons !== 1) return;
    const at = ((event.clientX - box.left) / box.width) * WIDTH;
    choose(from.multiplier + ((at - LEFT) / (WIDTH - LEFT - RIGHT)) * (to.multiplier - from.multiplier));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = { ArrowRight: 0.01, ArrowUp: 0.01, ArrowLeft: -0.01, ArrowDown: -0.01 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    choose(now + by);
  };
  const mark = { x: Math.min(WIDTH - RIGHT, Math.max(LEFT, x(now))), y: y(chance.value) };
  const amount = first.grams ? formatAmount(first.grams, decimalMark) : { text: now.toFixed(3), unit: words.times };
  const text = words.chartMark(`${amount.text} ${amount.unit}`, words.percent(chance.value));
  const left = mark.x > WIDTH * 0.55;
  return (
    <svg
      ref={svg}
      class="chance-chart"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      onPointerDown={follow}
      onPointerMove={follow}
      onPointerUp={commitEdit}
    >
      <title>{words.chart(material)}</title>
      {[0, 50, 100].map((percent) => (
        <g key={percent}>
          <line class="chance-grid" x1={LEFT} x2={WIDTH - RIGHT} y1={y(percent)} y2={y(percent)} />
          <text class="chance-tick" x={LEFT - 6} y={y(percent) + 4} text-anchor="end">
            {percent === 0 ? '0 %' : percent}
          </text>
        </g>
      ))}
      {[from, to].map((end, i) => (
        <text
          key={end.multiplier}
          class="chance-tick"
          x={x(end.multiplier)}
          y={HEIGHT - 6}
          text-anchor={i === 0 ? 'start' : 'end'}
        >
          {endText(end)}
        </text>
      ))}
      <text class="chance-tick" x={(LEFT + WIDTH - RIGHT) / 2} y={HEIGHT - 6} text-anchor="middle">
        {words.started}
      </text>
      <path
        class="chance-curve"
        d={curve
          .map((point, i) => `${i === 0 ? 'M' : 'L'}${x(point.multiplier).toFixed(1)} ${y(point.percent).toFixed(1)}`)
          .join('')}
      />
      <path class="chance-lead" d={`M${LEFT} ${mark.y}H${mark.x}V${y(0)}`} />
      <circle
        class="chance-mark"
        cx={mark.x}
        cy={mark.y}
        r="6"
        tabIndex={0}
        role="slider"
        aria-label={`${words.chart(material)}. ${words.drag}`}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(chance.value)}
        aria-valuetext={text}
        onKeyDown={onKeyDown}
        onBlur={commitEdit}
      />
      <text
        class="chance-mark-text"
        x={mark.x + (left ? -11 : 11)}
        y={mark.y + (left ? -6 : 14)}
        text-anchor={left ? 'end' : 'start'}
      >
        {text}
      </text>
    </svg>
  );
}

function endText(point: Point): string {
  if (point.grams === null) return `${point.multiplier.toPrecision(3).replace('.', decimalMark)} ${words.times}`;
  const { text, unit } = formatAmount({ value: point.grams, unit: 'g', digits: 3 }, decimalMark);
  return `${text} ${unit}`;
}

/** The multiplier at which the drawn curve has this chance. */
function multiplierAt(curve: readonly Point[], percent: number): number {
  const after = curve.findIndex((point) => point.percent >= percent);
  const [one, other] = [curve[after - 1], curve[after]];
  if (after < 0) return curve.at(-1)?.multiplier ?? 1;
  if (!one || !other) return curve[0]?.multiplier ?? 1;
  return (
    one.multiplier + ((other.multiplier - one.multiplier) * (percent - one.percent)) / Math.max(1e-9, other.percent - one.percent)
  );
}
