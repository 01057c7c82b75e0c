import type { ComponentChildren, RefObject } from 'preact';
import { useRef } from 'preact/hooks';
import { useVirtualRows } from '../../parts/virtual-rows.ts';
import { rowId, useRowKeys } from './row-keys.ts';

/** Pixels; rows.css draws them so. */
const ROW_HEIGHT = 48;

interface RowListProps {
  readonly kind: 'bottle' | 'import';
  readonly label: string;
  readonly count: number;
  /** The row of headings. */
  readonly head: ComponentChildren;
  readonly cells: (index: number) => ComponentChildren;
  readonly isOpen: (index: number) => boolean;
  readonly open: (index: number) => void;
  /** Where rows are chosen. */
  readonly choose?: (index: number) => void;
  readonly list?: RefObject<HTMLDivElement | null>;
}

/** A grid of rows under keys; only those in view are drawn, a hundred thousand of them if need be. */
export function RowList({ kind, label, count, head, cells, isOpen, open, choose, list }: RowListProps) {
  const own = useRef<HTMLDivElement>(null);
  const scroller = list ?? own;
  const { rows, height, scrollTo } = useVirtualRows(scroller, count, ROW_HEIGHT);
  const { at, onKeyDown } = useRowKeys(count, scrollTo, choose ? { open, choose } : { open });
  return (
    <div
      ref={scroller}
      class={`row-list ${kind}-list`}
      role="grid"
      tabIndex={0}
      aria-label={label}
      aria-rowcount={count + 1}
      aria-activedescendant={rowId(at.value)}
      onKeyDown={onKeyDown}
    >
      {head}
      <div class="rows-all" role="presentation" style={{ height: `${height}px` }}>
        {rows.map(({ index, start }) => (
          <div
            key={index}
            id={rowId(index)}
            class={`list-row ${kind}-row${index === at.value ? ' at' : ''}`}
            role="row"
            aria-rowindex={index + 2}
            aria-selected={isOpen(index)}
            style={{ transform: `translateY(${start}px)` }}
            onClick={() => {
              at.value = index;
              open(index);
            }}
          >
            {cells(index)}
          </div>
        ))}
      </div>
    </div>
  );
}
