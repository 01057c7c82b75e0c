import { type Signal, useSignal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';

const PAGE_STEP = 10;

interface RowKeys {
  /** The row the keys are at. */
  readonly at: Signal<number>;
  readonly onKeyDown: (event: KeyboardEvent) => void;
}

export const rowId = (index: number): string => `bottle-row-${index}`;

interface RowActs {
  readonly open: (index: number) => void;
  /** Where rows are chosen; elsewhere the space bar opens one too. */
  readonly choose?: (index: number) => void;
}

/** Arrow keys, page keys, Home and End walk through the rows; Enter opens one, the space bar chooses it. */
export function useRowKeys(count: number, scrollTo: (index: number) => void, { open, choose = open }: RowActs): RowKeys {
  const at = useSignal(0);
  const last = count - 1;
  useLayoutEffect(() => {
    if (at.peek() > last) at.value = Math.max(0, last);
  }, [last, at]);
  const move = (to: number): void => {
    at.value = Math.max(0, Math.min(last, to));
    scrollTo(at.value);
    // The head of the list covers a row's height that the scroller knows nothing of.
    requestAnimationFrame(() => document.getElementById(rowId(at.value))?.scrollIntoView({ block: 'nearest' }));
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    const acts: Readonly<Record<string, () => void>> = {
      ArrowDown: () => move(at.value + 1),
      ArrowUp: () => move(at.value - 1),
      PageDown: () => move(at.value + PAGE_STEP),
      PageUp: () => move(at.value - PAGE_STEP),
      Home: () => move(0),
      End: () => move(last),
      Enter: () => open(at.value),
      ' ': () => choose(at.value),
    };
    const act = acts[event.key];
    if (!act || event.target !== event.currentTarget) return;
    event.preventDefault();
    act();
  };
  return { at, onKeyDown };
}
