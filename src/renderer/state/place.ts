import { signal } from '@preact/signals';

/** The five places, in the order of the work; Ctrl+1 … Ctrl+5. */
export const PLACES = ['routes', 'plan', 'shelf', 'buy', 'bench'] as const;
export type PlaceName = (typeof PLACES)[number];

const fromAddress = (): PlaceName => PLACES.find((name) => `#${name}` === globalThis.location.hash) ?? 'plan';

/** Where the person is. Kept in the address, so that a reload and the mouse's back button work. */
export const place = signal<PlaceName>('plan');

export function goTo(name: PlaceName): void {
  if (place.value === name) return;
  place.value = name;
  globalThis.history.pushState(null, '', `#${name}`);
}

/** Reads the place from the address and follows it from now on. */
export function followAddress(): void {
  place.value = fromAddress();
  globalThis.addEventListener('popstate', () => {
    place.value = fromAddress();
  });
}
