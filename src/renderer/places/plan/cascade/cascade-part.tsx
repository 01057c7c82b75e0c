import { useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { PlanResult } from '../../../../core/plan/result.ts';
import { planWords } from '../../../../core/words/plan-words.ts';
import { isUsual, stepWidth } from '../../../state/cascade-zoom.ts';
import { bandsIn, cascadeAs, chosenStep } from '../../../state/plan-view.ts';
import { TargetDraws } from '../target-strip.tsx';
import { cascadeInput } from '../../../../core/cascade/input.ts';
import { CascadeLabels } from './cascade-labels.tsx';
import { layoutCascade } from '../../../../core/cascade/layout.ts';
import { CASCADE } from '../../../../core/cascade/measures.ts';
import type { CascadeLayout } from '../../../../core/cascade/shapes.ts';
import { CascadeSvg } from './cascade-svg.tsx';
import { CascadeSwitches } from './cascade-switches.tsx';
import { CascadeTable } from './cascade-table.tsx';
import { useDragScroll } from './drag-scroll.ts';

/** Cascade and draws share one origin, so that every band arrives at its draw. */
export function CascadeAndTarget({ result }: { readonly result: PlanResult }) {
  const room = useRef<HTMLDivElement>(null);
  const width = useWidth(room);
  const layout = layoutCascade(cascadeInput(result, bandsIn.value), width, stepWidth.value);
  const chosen = chosenStep.value?.id ?? null;
  useSight(room, layout.width, chosen);
  useDragScroll(room);
  return (
    <div class="plan-top">
      <header class="part-head plan-cascade-head">
        <h2>{planWords.cascade.title}</h2>
        <CascadeSwitches zooms={layout.columns * CASCADE.least.column > width || !isUsual.value} />
      </header>
      <header class="part-head plan-target-head">
        <h2>{planWords.target.title}</h2>
        <span class="part-note">{planWords.target.note}</span>
      </header>
      <div ref={room} class="plan-cascade">
        {cascadeAs.value === 'picture' ? (
          <Picture result={result} layout={layout} chosen={chosen} />
        ) : (
          <CascadeTable result={result} chosen={chosen} />
        )}
      </div>
      <div class="plan-target">
        <TargetDraws layout={layout} />
      </div>
    </div>
  );
}

interface PictureProps {
  readonly result: PlanResult;
  readonly layout: CascadeLayout;
  readonly chosen: string | null;
}

function Picture({ result, layout, chosen }: PictureProps) {
  const tight = layout.column < CASCADE.words;
  return (
    <div class={`cascade${tight ? ' tight' : ''}`} style={{ width: `${layout.width}px`, height: `${layout.height}px` }}>
      <CascadeSvg
        layout={layout}
        label={planWords.cascade.label(result.name, result.steps.length, result.draws.length)}
        chosen={chosen}
        idle={new Set(result.steps.filter((one) => !one.active).map((one) => one.id))}
        batches={new Map(result.steps.map((one) => [one.id, one.active ? one.batches.count : 1]))}
      />
      <CascadeLabels result={result} layout={layout} chosen={chosen} />
    </div>
  );
}

/** The width of an element as it is now, px. */
function useWidth(of: RefObject<HTMLElement | null>): number {
  const width = useSignal(0);
  useLayoutEffect(() => {
    const element = of.current;
    if (!element) return undefined;
    const watch = new ResizeObserver(() => {
      width.value = element.clientWidth;
    });
    watch.observe(element);
    width.value = element.clientWidth;
    return () => watch.disconnect();
  }, [of, width]);
  return width.value;
}

/**
 * The target is at the right: where the cascade is wider than its room, that end is seen first. A step chosen
 * elsewhere, e.g. by a notice, comes into view; the first one shown is left where the target is.
 */
function useSight(room: RefObject<HTMLElement | null>, width: number, chosen: string | null): void {
  const seen = useRef<string | null>(null);
  const before = useRef<number | null>(null);
  useLayoutEffect(() => {
    const element = room.current;
    if (!element) return;
    // What stood at the right edge stays there when the steps become wider or narrower.
    const right = before.current === null ? 1 : (element.scrollLeft + element.clientWidth) / before.current;
    element.scrollLeft = Math.min(1, right) * width - element.clientWidth;
    before.current = width;
  }, [room, width]);
  useEffect(() => {
    if (seen.current !== null && seen.current !== chosen) {
      room.current?.querySelector('.cascade-marker[aria-current]')?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
    }
    seen.current = chosen;
  }, [room, chosen]);
}
