import type { RefObject } from 'preact';
import { useLayoutEffect } from 'preact/hooks';

/**
 * One tab stop for a group of controls: arrow keys move inside it, Home and End to its ends. Keeps long tables of
 * figures from becoming long rows of tab stops. `selector` picks the controls in reading order.
 */
export function useRoving(group: RefObject<HTMLElement | null>, selector: string): (event: KeyboardEvent) => void {
  const controls = (): HTMLElement[] => [...(group.current?.querySelectorAll<HTMLElement>(selector) ?? [])];
  useLayoutEffect(() => {
    const all = controls();
    const current = all.find((one) => one === document.activeElement) ?? all.find((one) => one.tabIndex === 0) ?? all[0];
    for (const one of all) one.tabIndex = one === current ? 0 : -1;
  });
  return (event) => {
    const all = controls();
    const from = all.find((one) => one === event.target);
    if (!from) return;
    const to = nextControl(event.key, from, all);
    if (!to) return;
    event.preventDefault();
    from.tabIndex = -1;
    to.tabIndex = 0;
    to.focus();
  };
}

function nextControl(key: string, from: HTMLElement, all: readonly HTMLElement[]): HTMLElement | undefined {
  const at = all.indexOf(from);
  if (key === 'ArrowRight') return all[at + 1];
  if (key === 'ArrowLeft') return all[at - 1];
  if (key === 'Home') return all[0];
  if (key === 'End') return all.at(-1);
  if (key === 'ArrowDown') return nearest(from, all.slice(at + 1), 1);
  if (key === 'ArrowUp') return nearest(from, all.slice(0, at), -1);
  return undefined;
}

/** The control of the nearest row above or below that stands most nearly in the same column. */
function nearest(from: HTMLElement, others: readonly HTMLElement[], direction: 1 | -1): HTMLElement | undefined {
  const start = from.getBoundingClientRect();
  let best: HTMLElement | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const other of others) {
    const box = other.getBoundingClientRect();
    const down = (box.top - start.top) * direction;
    if (down < start.height / 2) continue;
    const distance = down * 4 + Math.abs(box.right - start.right);
    if (distance < least) [best, least] = [other, distance];
  }
  return best;
}
