import { useSignal } from '@preact/signals';
import { elementScroll, observeElementOffset, observeElementRect, type VirtualItem, Virtualizer } from '@tanstack/virtual-core';
import { type RefObject } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

interface VirtualRows {
  readonly rows: readonly VirtualItem[];
  readonly height: number;
  readonly scrollTo: (index: number) => void;
}

/** The rows of a long list that are in view (and a few around them); all rows are `rowHeight` pixels tall. */
export function useVirtualRows(scroller: RefObject<HTMLElement | null>, count: number, rowHeight: number): VirtualRows {
  const version = useSignal(0);
  const options = {
    count,
    getScrollElement: () => scroller.current,
    estimateSize: () => rowHeight,
    overscan: 8,
    scrollToFn: elementScroll,
    observeElementRect,
    observeElementOffset,
    onChange: () => {
      version.value += 1;
    },
  };
  const [virtualizer] = useState(() => new Virtualizer<HTMLElement, HTMLElement>(options));
  virtualizer.setOptions(options);
  useLayoutEffect(() => virtualizer._didMount(), [virtualizer]);
  useLayoutEffect(() => virtualizer._willUpdate());
  // Read, so that the component draws again when the virtualizer says that something moved.
  void version.value;
  return {
    rows: virtualizer.getVirtualItems(),
    height: virtualizer.getTotalSize(),
    scrollTo: (index) => virtualizer.scrollToIndex(index),
  };
}
