import { cascadeInput } from '../cascade/input.ts';
import { layoutCascade } from '../cascade/layout.ts';
import { arrowPath, bandPath, leftOverPath, lossPath, recyclePath, stockPath } from '../cascade/paths.ts';
import type { CascadeLayout } from '../cascade/shapes.ts';
import { CASCADE } from '../cascade/measures.ts';
import type { PlanResult } from '../plan/result.ts';
import { amountText, percentText } from './amounts.ts';
import { nameOf, type PaperContext } from './context.ts';
import type { CascadePicture } from './paper.ts';

/** Width of the drawing without the draws' words, and of those, px at 96 per inch: together the width of the text. */
const WIDTH = { cascade: 540, draws: 150 } as const;
/** Below this width of a column there is room for numbers only; below the second for every fifth number. */
const ROOM = { words: 92, numbers: 20 } as const;
/** About how wide a letter is, px at the size of the words; a capital or another wide sign, and the sign of a cut. */
const LETTER = { usual: 6.4, wide: 10 } as const;

type Word = CascadePicture['words'][number];

/** The cascade of a plan as shapes and words with their places, px: drawn once, so that a paper never changes. */
export function cascadePicture({ result, mark }: Pick<PaperContext, 'result' | 'mark'>): CascadePicture {
  const layout = layoutCascade(cascadeInput(result), WIDTH.cascade, 1);
  return {
    width: Math.ceil(layout.width + WIDTH.draws),
    height: Math.ceil(layout.height),
    shapes: shapesOf(layout),
    words: [...materialWords(layout, result, mark), ...stepWords(layout, result, mark), ...drawWords(layout, result, mark)],
  };
}

function shapesOf(layout: CascadeLayout): CascadePicture['shapes'] {
  const line = (x: number, from: number, to: number): string => `M${x} ${from}V${to}`;
  return [
    ...layout.recycles.map((one) => ({ kind: 'recycle' as const, path: recyclePath(one), width: Math.max(2, one.height) })),
    ...layout.losses.map((one) => ({ kind: 'loss' as const, path: lossPath(one) })),
    ...layout.leftOver.map((one) => ({ kind: 'left over' as const, path: leftOverPath(one) })),
    ...layout.stocks.map((one) => ({ kind: 'stock' as const, path: stockPath(one) })),
    ...layout.bands.map((one) => ({ kind: 'band' as const, path: bandPath(one) })),
    ...layout.materials.map((one) => ({
      kind: 'band' as const,
      path: `M${one.x} ${one.y}h${one.width}v${Math.max(1.5, one.height)}h${-one.width}Z`,
    })),
    ...layout.steps.map((one) => ({ kind: 'line' as const, path: line(one.x, one.top - 2, one.bottom + 8) })),
    ...layout.draws.map((one) => ({ kind: 'band' as const, path: arrowPath(layout.width - CASCADE.arrow, one.y, one.height) })),
  ];
}

function materialWords(layout: CascadeLayout, result: PlanResult, mark: PaperContext['mark']): Word[] {
  if (layout.column < ROOM.words) return [];
  return layout.materials.flatMap(({ material, x, label }): Word[] => {
    const leaving = result.flow.bands.filter((band) => band.material === material);
    const grams = leaving.reduce((sum, band) => sum + band.grams.value, 0);
    const at = label.below ? label.y + 12 : label.y - 20;
    return [
      { x, y: at, anchor: 'start', strong: false, text: fitting(nameOf(result, material), label.room) },
      { x, y: at + 15, anchor: 'start', strong: true, text: amountText({ value: grams, unit: 'g', digits: 3 }, mark) },
    ];
  });
}

function stepWords(layout: CascadeLayout, result: PlanResult, mark: PaperContext['mark']): Word[] {
  return layout.steps.flatMap((box): Word[] => {
    const step = result.steps.find((one) => one.id === box.step);
    if (!step || (layout.column < ROOM.numbers && step.number % 5 !== 0 && step.number !== 1)) return [];
    const number: Word = { x: box.x, y: box.top - 6, anchor: 'middle', strong: true, text: String(step.number) };
    if (layout.column < ROOM.words) return [number];
    const at = { x: box.x + 6, anchor: 'start', strong: false } as const;
    return [
      number,
      { ...at, y: box.bottom + 24, text: fitting(step.title, box.labelWidth) },
      { ...at, y: box.bottom + 38, text: percentText(step.yield.value, mark) },
    ];
  });
}

function drawWords(layout: CascadeLayout, result: PlanResult, mark: PaperContext['mark']): Word[] {
  return layout.draws.flatMap((port): Word[] => {
    const draw = result.draws.find((one) => one.id === port.draw);
    if (!draw) return [];
    const at = { x: layout.width + 6, anchor: 'start' } as const;
    return [
      { ...at, y: port.y - 2, strong: true, text: amountText(draw.grams ?? draw.moles, mark) },
      { ...at, y: port.y + 13, strong: false, text: fitting(nameOf(result, draw.material), WIDTH.draws - 8) },
    ];
  });
}

/** A text cut to the room it has, with a sign that it was; the table under the picture has it whole. */
function fitting(text: string, room: number): string {
  const widths = [...text].map((one) => (/[\p{Lu}\p{Lo}@%&—]/u.test(one) ? LETTER.wide : LETTER.usual));
  let width = 0;
  const letters = widths.findIndex((one) => (width += one) > room);
  return letters < 0
    ? text
    : `${[...text]
        .slice(0, Math.max(2, letters - 1))
        .join('')
        .trimEnd()}…`;
}
