import type { RefObject } from 'preact';
import { useEffect } from 'preact/hooks';

/** The ground of the cascade can be dragged sideways; its controls keep their own clicks. Touch scrolls by itself. */
export function useDragScroll(room: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const element = room.current;
    if (!element) return undefined;
    let from: { readonly x: number; readonly left: number } | null = null;
    const down = (event: PointerEvent): void => {
      const onControl = event.target instanceof Element && event.target.closest('button, input, table') !== null;
      if (onControl || event.button !== 0 || event.pointerType === 'touch') return;
      from = { x: event.clientX, left: element.scrollLeft };
      element.setPointerCapture(event.pointerId);
    };
    const move = (event: PointerEvent): void => {
      if (from) element.scrollLeft = from.left - (event.clientX - from.x);
    };
    const up = (): void => {
      from = null;
    };
    element.addEventListener('pointerdown', down);
    element.addEventListener('pointermove', move);
    element.addEventListener('pointerup', up);
    element.addEventListener('pointercancel', up);
    return () => {
      element.removeEventListener('pointerdown', down);
      element.removeEventListener('pointermove', move);
      element.removeEventListener('pointerup', up);
      element.removeEventListener('pointercancel', up);
    };
  }, [room]);
}
