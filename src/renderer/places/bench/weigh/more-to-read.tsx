import { useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { weighWords as words } from '../../../../core/words/weigh-words.ts';
import { act, run } from '../../../state/run-store.ts';

/** Hidden by less than this, nothing is hidden; CSS pixels. */
const A_LINE = 12;
/** From this width on, CSS pixels, cautions and amount have room side by side. */
const WIDE = 1000;
const BESIDE = 'weigh-beside';

/** How much of what is to be read is out of sight. */
const hidden = (place: HTMLElement): number => place.scrollHeight - place.clientHeight - place.scrollTop;

/**
 * Cautions that do not fit above the amount stand beside it, over the whole height: whoever weighs with gloves on reads both
 * without a key. The list of operations makes room for that long.
 */
function arrange(place: HTMLElement): void {
  const whole = place.parentElement;
  whole?.classList.remove(BESIDE);
  const over = place.scrollHeight - place.clientHeight > A_LINE;
  const has = place.querySelector('.weigh-stand > .weigh-name, .weigh-stand > .weigh-do') !== null;
  if (over && has && window.innerWidth >= WIDE) whole?.classList.add(BESIDE);
}

/** Says that there is more to read behind what is always in sight, and how to get there without a pointer. */
export function MoreToRead() {
  const own = useRef<HTMLParagraphElement>(null);
  const more = useSignal(false);
  const entries = run.value?.entries.length ?? 0;
  const now = act.value && 'entry' in act.value ? act.value.entry.id : act.value?.kind;
  // What is new begins at its top; after a caution was read, the next one that is not comes into sight.
  useLayoutEffect(() => {
    const place = own.current?.closest('main');
    const unread = place?.querySelector('.weigh-initial');
    if (!place) return;
    arrange(place);
    const above = unread && place.querySelector('.weigh-read-by') ? unread.getBoundingClientRect().top : null;
    place.scrollTop = above === null ? 0 : place.scrollTop + above - place.getBoundingClientRect().top - A_LINE;
  }, [now, entries]);
  useLayoutEffect(() => {
    const place = own.current?.closest('main');
    if (!place) return;
    const look = (): void => {
      more.value = hidden(place) > A_LINE;
    };
    const fit = (): void => {
      arrange(place);
      look();
    };
    const watch = new ResizeObserver(fit);
    watch.observe(place);
    if (place.firstElementChild) watch.observe(place.firstElementChild);
    place.addEventListener('scroll', look, { passive: true });
    look();
    return () => {
      watch.disconnect();
      place.removeEventListener('scroll', look);
    };
  }, [now, entries]);
  // A screen without cautions (paused, the product) has the whole width again.
  useLayoutEffect(() => {
    const whole = own.current?.closest('main')?.parentElement;
    return () => whole?.classList.remove(BESIDE);
  }, []);
  return (
    <p ref={own} class="weigh-further" hidden={!more.value}>
      <kbd>{words.pageDown}</kbd> {words.moreToRead}
    </p>
  );
}
