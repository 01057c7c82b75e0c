import { type Signal, useSignal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import { openRoute } from '../../state/open-route.ts';
import { keepTyped, typedText } from '../../state/typed-texts.ts';

/**
 * What stands typed in a field of the open route and is not taken in: still there after going to another place and after
 * a reload. Null where nothing is.
 * @param field tells it from every other field of the route.
 */
export function useKeptText(field: string): Signal<string | null> {
  const open = openRoute.peek();
  const name = `route ${open.at === 'none' ? '' : open.id} ${field}`;
  const text = useSignal<string | null>(typedText(name));
  const typed = text.value;
  useLayoutEffect(() => keepTyped(name, typed), [name, typed]);
  return text;
}
