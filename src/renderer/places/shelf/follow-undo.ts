import type { RefObject } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

interface FollowUndo<E extends HTMLElement> {
  readonly list: RefObject<E | null>;
  /** Says that an entry is about to be undone. */
  readonly begin: () => void;
}

/**
 * Undoing an entry takes its button away: the keys go on at the newest entry, which brings it back, and not at the top of the
 * page. Whoever has gone elsewhere meanwhile stays there.
 * @param entries how many there are; one more once something was undone.
 */
export function useFollowUndo<E extends HTMLElement>(entries: number): FollowUndo<E> {
  const list = useRef<E>(null);
  const before = useRef<number | null>(null);
  useLayoutEffect(() => {
    if (before.current === null || entries <= before.current) return;
    before.current = null;
    const at = document.activeElement;
    if (at !== null && at !== document.body && !list.current?.contains(at)) return;
    list.current?.querySelector('button')?.focus();
  }, [entries]);
  const begin = (): void => {
    before.current = entries;
  };
  return { list, begin };
}
