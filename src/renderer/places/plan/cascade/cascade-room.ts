import { useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';

/** The width of an element as it is now, px. */
export function useWidth(of: RefObject<HTMLElement | null>): number {
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
export function useSight(room: RefObject<HTMLElement | null>, width: number, chosen: string | null): void {
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
